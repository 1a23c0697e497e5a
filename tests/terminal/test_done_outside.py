"""What is rigged or cleaned outside is no try of a head that was never drawn out: it is asked.

Common practice, no source: a string or a guide is put on by hand, and no cutter goes in beside a head.
"""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as session
from advisor.push.held_now import plight_of
from advisor.push.log.kinds import TRY
from advisor.terminal.push.here import show_now
from tests.push.machines import cutter
from tests.push.test_report import START, report, section
from tests.push.test_since import FT
from tests.push.test_stop_ahead import drawn, read, stopped
from tests.terminal.test_push_answers import HELD, standing
from tests.terminal.test_push_session import BEGIN
from tests.terminal.test_rod_in_roots import ROOTS, text

job, push = session.job, session.push  # fixtures
STRING, CLEAN = "o4", "o7"


def cut(**more: object):
    return TRY, 33 * FT, {"technique": "clean first", "outcome": "passed", **more}


def test_told_with_the_head_in_the_pipe_it_was_none(push, job):
    said = push(BEGIN + HELD + STRING + "n" + "b" + "m" + "q")
    assert "Then it was not tried" in said
    assert TRY not in [entry.kind for entry in standing(job)]


@pytest.mark.parametrize(
    ("keys", "force"),
    [(STRING + "y" + "p" + "l" + "n", "light"), (CLEAN + "y" + "p" + "n", None)],
)
def test_told_with_the_rod_out_it_is_and_nobody_pushes_a_cutter(push, job, keys, force):
    said = push(BEGIN + HELD + keys + "q")
    told = standing(job)[-1]
    assert (told.kind, told.data["outside"], told.data["outcome"]) == (TRY, True, "passed")
    assert told.data.get("force") == force
    assert ("How hard did you push?" in said) is (force is not None)


@pytest.mark.parametrize(("more", "lies"), [({"outside": True}, False), ({}, True)])
def test_a_rod_lies_in_no_roots_that_were_cut(more, lies, capsys):
    now = drawn(stopped(33, ROOTS), cut(**more), read(38))
    assert bool(plight_of(now).roots) is lies
    assert ("ROD IN ROOTS" in text(capsys, show_now, now)) is lies


TO_CUT = "cut and look again the same day"


@pytest.mark.parametrize(
    "held", [("stopped", 6.0, {"sign": "blocked, roots"}), ("find", 6.0, {"what": "roots"})]
)
def test_a_report_has_nobody_cut_what_was_cut(held):
    """Told as a stop or as a find; both are what a cutter takes away."""
    made = report(START, held, (TRY, 6.0, cut(outside=True)[2]))
    advised = section(made, "Recommended")
    assert TO_CUT not in advised
    assert "told as cut or cleaned since. Look again the same day" in advised
    assert "tried clean first, all of the rod drawn out for it: it passed" in section(made, "Seen in this")
    for since in (
        (TRY, 6.0, cut()[2]),  # nobody told that the rod was out for it
        (TRY, 6.0, {**cut()[2], "outcome": "stopped"}),
        ("try", 6.0, {**cut()[2], "technique": "string"}),
    ):
        made = report(START, held, since)
        assert TO_CUT in section(made, "Recommended")
        assert "that the rod was drawn out for it was not told" in section(made, "Seen in this")
    run = cutter(7.0, "yard cleanout", "known")
    assert TO_CUT not in section(report(START, held, run), "Recommended")
    assert TO_CUT in section(report(START, held, (run[0], None, {**run[2], "to": 5.0})), "Recommended")


def test_the_side_from_which_water_came_is_told():
    ran = ("water", 6.0, {"fixture": "washing machine", "seconds": 3.0, "side": "ahead"})
    assert "seen after 3 s, from ahead of the lens" in section(report(START, ran), "Seen in this")
