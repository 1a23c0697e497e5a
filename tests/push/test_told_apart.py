"""Roots, scale or grease, waste, an object: told apart at a stop, in the log, the causes and the report."""

from __future__ import annotations

import numpy as np
import pytest

import tests.terminal.test_push_session as sitting
from advisor.errors import BadInput
from advisor.push.log.sighting import Stopped, sighting_of
from advisor.push.log.sign_words import sign_words
from advisor.push.now.causes import causes_of
from advisor.push.report.advice import read_advice
from advisor.strict_yaml import read_sheet
from advisor.tables.place import rules_dir
from advisor.tables.stuck import StuckFile
from tests.cases.jobs import rules, tables
from tests.push.test_marks import HOUSE
from tests.push.test_report import START, TASK, entries, report, section
from tests.push.test_stuck_signs import spots
from tests.terminal.test_push_answers import standing
from tests.terminal.test_push_session import BEGIN

job, push = sitting.job, sitting.push  # fixtures
KINDS = ("roots", "scale or grease", "waste", "object")


def chances(*signs: str) -> dict[str, float]:
    course = spots()[0][0]
    found = causes_of(course, None, frozenset(signs), np.ones(course.study.worlds))
    return {cause.name: cause.chance for cause in found}


@pytest.mark.parametrize(
    ("kind", "cause"),
    [("roots", "roots"), ("scale or grease", "build-up"), ("waste", "build-up"), ("object", "build-up")],
)
def test_what_is_seen_tells_its_cause(kind, cause):
    told = chances("blocked", kind)
    assert max(told, key=lambda name: told[name]) == cause
    assert told[cause] > 0.5


@pytest.mark.parametrize("kind", KINDS)
def test_a_kind_multiplies_the_odds_by_its_shares_and_by_nothing_else(kind):
    """By Bayes: P(kind | roots, blocked) / P(kind | build-up, blocked), the other kinds count for nothing."""
    table = tables().stuck
    share = {name: table.causes[name].signs[kind].likely for name in ("roots", "build-up")}
    before, after = chances("blocked"), chances("blocked", kind)
    times = (after["roots"] / after["build-up"]) / (before["roots"] / before["build-up"])
    assert times == pytest.approx(share["roots"] / share["build-up"])


def test_the_kinds_share_out_all_that_was_before_the_head():
    table = tables().stuck
    assert {name for name, sign in table.signs.items() if sign.of == "blocked"} == set(KINDS)
    for row in table.causes.values():
        shares = [row.signs.get(kind, table.signs[kind].unseen).likely for kind in KINDS]
        assert sum(shares) == pytest.approx(1)


def test_who_cannot_tell_says_what_an_older_log_says():
    """An older log has the one word; it is read as before and made into no kind."""
    old, new = entries(("stopped", 3.0, {"sign": "blocked"}), ("stopped", 3.0, {"sign": "blocked, waste"}))
    assert sighting_of(old) == sighting_of(new) == Stopped(3.0, by_dirt=True)
    assert sign_words({"blocked"}, tables().stuck) == "roots, scale, grease, waste or an object before it"
    assert sign_words({"blocked", "waste"}, tables().stuck) == "waste: paper, wipes, soil"


@pytest.mark.parametrize(
    ("keys", "signs"),
    [
        ("9100", "blocked, roots"),
        ("9200", "blocked, scale or grease"),
        ("9300", "blocked, waste"),
        ("9400", "blocked, object"),
        ("9d00", "blocked"),
        ("9b9100", "blocked, roots"),  # back from what it is: not told yet
        ("91b9300", "blocked, waste"),  # back after it: the whole of it is taken back
        ("191b00", "wall ahead"),
    ],
)
def test_the_second_choice_beside_the_opening(job, push, keys, signs):
    push(BEGIN + "s9\r" + keys + "m" + "q")
    (stop,) = (entry for entry in standing(job) if entry.kind == "stopped")
    assert stop.data["sign"] == signs


@pytest.mark.parametrize(
    ("sign", "advice", "says"),
    [
        ("blocked, roots", "clean", "Have them cut"),
        ("blocked, scale or grease", "descale", "gently where the wall may be thin"),
        ("blocked, waste", "clean", "cleaned over its whole length"),
        ("blocked, object", "take out", "no cutter and no water under pressure"),
        ("blocked", "clean", "Something in the pipe held the head here"),
    ],
)
def test_the_report_advises_for_what_was_seen(sign, advice, says):
    made = report(START, ("sighting", 3.0, {"what": "nothing"}), ("stopped", 5.0, {"sign": sign}))
    (line,) = (line for line in section_lines(made) if line.startswith("The head was stopped at 5 m"))
    assert f": {advice}. " in line
    assert says in line


@pytest.mark.parametrize(
    ("material", "advice", "says"),
    [
        ("pvc", "clean", "no chain and no cutter on plastic"),
        ("cast iron", "descale", "gently where the wall may be thin"),
        ("unknown", "descale", "gently where the wall may be thin"),
    ],
)
@pytest.mark.parametrize("logged", [False, True])
def test_no_descaling_of_a_pipe_on_which_no_scale_grows(material, advice, says, logged):
    """Iron and steel rust in a drain, plastic does not; common practice, no source."""
    text = (HOUSE + TASK).replace("    slope:", f"    material: {material}\n    slope:")
    told = ("stopped", 5.0, {"sign": "blocked, scale or grease"})
    if logged:
        told = ("find", 5.0, {"what": "scale all round", "line": "house drain", "distance": 9.0})
    made = report(START, ("sighting", 3.0, {"what": "nothing"}), told, text=text)
    (line,) = (line for line in section_lines(made) if "scale" in line and f": {advice}. " in line)
    assert says in line


def section_lines(made) -> tuple[str, ...]:
    assert section(made, "Recommended")
    return next(each for each in made.sections if each.heading == "Recommended").lines


def test_each_row_of_the_report_and_of_the_table_names_a_sign():
    advice = read_advice(rules_dir(), tables())
    assert {row.sign for row in advice.finds.held} <= set(tables().stuck.signs)


def test_a_kind_of_no_sign_is_refused(tmp_path):
    text = (rules_dir() / "signs" / "stuck.yaml").read_text()
    broken = tmp_path / "stuck.yaml"
    broken.write_text(
        text.replace("roots: {by: eye, of: blocked", "roots: {by: eye, of: soft")
    )  # of the hand
    with pytest.raises(BadInput, match="told apart of 'soft'"):
        read_sheet(broken, StuckFile)


def test_what_goes_not_with_no_sign_is_refused(tmp_path):
    text = (rules_dir() / "signs" / "stuck.yaml").read_text()
    broken = tmp_path / "stuck.yaml"
    broken.write_text(text.replace("not with: [wall ahead]", "not with: [wal ahead]"))
    with pytest.raises(BadInput, match="not with 'wal ahead'"):
        read_sheet(broken, StuckFile)


@pytest.mark.parametrize(
    ("told", "says", "not_said"),
    [
        ({"object"}, "an object", ("scale", "grease", "waste", "all round")),
        ({"waste"}, "waste", ("scale", "grease", "object")),
        ({"scale or grease"}, "scale or grease", ("waste", "object")),
        (set(), "scale, grease, waste or an object", ()),
        ({"object", "waste"}, "scale, grease, waste or an object", ()),
    ],
)
@pytest.mark.parametrize("out", [False, True])
def test_what_was_told_to_be_there_is_not_called_anything_else(told, says, not_said, out):
    """From a trial: an object, dead and hard: "it wedges the head in the scale"."""
    course = spots()[0][0]
    signs = frozenset({"blocked", "dead", *told})
    causes = causes_of(course, None, signs, np.ones(course.study.worlds), out)
    cause = next(each for each in causes if each.name == "build-up")
    assert out or says in cause.words
    words = f"{cause.words} {cause.why}"
    assert not [each for each in not_said if each in words]


def test_no_reason_against_a_push_names_scale_where_it_may_be_an_object():
    cells = rules().matrix.cells
    assert not [key for key, cell in cells.items() if key[1] == "bore too small" and "scale" in cell.why]
