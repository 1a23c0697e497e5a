"""A kinked rod, from the key that tells it to the report and the next plan."""

from __future__ import annotations

import re

import pytest

import tests.terminal.test_wedged_kinked as wedged
from advisor.cli import main
from advisor.plan import plan
from advisor.push.log.kinds import BACK, KINKED, TRY, WEDGED
from advisor.result.build import plan_of
from advisor.result.study import Study
from advisor.tables.place import rules_dir
from advisor.terminal.push.here import show_now
from advisor.terminal.push.home import show_coming_home
from advisor.terminal.ready import make_ready
from tests.push.test_report import START, report, section
from tests.terminal.test_push_answers import standing
from tests.terminal.test_push_session import BEGIN
from tests.terminal.test_wedged_kinked import (
    LARGE,
    RIM,
    SMALL,
    STOP,
    last_told,
    neither,
)

push, job, shown = wedged.push, wedged.job, wedged.shown  # fixtures
SAME = (SMALL, f"{SMALL} + ring guide")  # one rod and one spring
SPARE_SPRING = "\n  - {spring: spare spring, like: small reel, feel: soft}\nrods:"
SPARE_ROD = "\n  - {rod: spare reel, diameter: 7 mm, core: 3.7 mm, length: 30 m}\nguides:"
SPARE = "  - {head: small head, spring: spare spring, rod: spare reel}\n"


ONE = "\nloadouts:\n  - {head: small head, spring: soft spring, rod: small reel}\n"


def test_a_kinked_rod_ends_the_push_at_once(push):
    said = push(BEGIN + RIM + "o2kmaq")
    assert "How hard did you push?" not in said
    screen = last_told(said)
    assert "First get it out, gently" in screen
    assert "this push is over for it" in screen
    assert "Next:" not in screen
    anew = said.rsplit("What now?", 2)[1]
    assert "this push is over for it" in anew
    assert "Go on here" not in anew


KINK = (TRY, 12.0, {"technique": "turn the rod", "outcome": KINKED})


@pytest.mark.parametrize("then", [(), ((BACK, 9.0, {}),), ((BACK, 9.0, {}), STOP)])
def test_a_kink_is_never_taken_back_by_what_comes_after(then, shown):
    now = neither(STOP, KINK, *then)
    said = shown(show_now, now)
    assert "this push is over for it" in said
    for onward in ("gentle push", "If it holds", "Next:", "Ahead:", "HARD PLACE"):
        assert onward not in said


def test_coming_home_and_report_name_the_kink(shown, job, push):
    now = neither(STOP, KINK, (BACK, 9.0, {}))
    home = shown(lambda page: show_coming_home(now, page))
    assert "is kinked" in home
    assert "A kink bears less" in home
    assert "Do not use them again" in home
    sound = shown(lambda page: show_coming_home(neither(STOP, (BACK, 9.0, {})), page))

    def most(text: str) -> int:
        found = re.search(r"never pull more than (\d+)|Never pull more than (\d+)", text)
        assert found is not None
        return int(next(filter(None, found.groups())))

    assert most(home) == pytest.approx(most(sound) / 2, abs=1)


def test_the_report_names_a_kink_first_and_a_wedge_as_held_both_ways():
    kink = ("try", 6.0, {"technique": "turn the rod", "outcome": KINKED})
    wedge = ("try", 6.0, {"technique": "turn the rod", "outcome": WEDGED})
    stop = ("stopped", 6.0, {"feel": "dead"})
    assert "Rod or spring kinked with the head at 6 m" in section(report(START, stop, kink), "In short")
    assert "kinked" not in section(report(START, stop, wedge), "In short")
    # It wedged going in: "held on the way back" would send whoever reads it to another place.
    assert "it came neither on nor back" in section(report(START, stop, wedge), "Recommended")
    assert "neither on nor back" not in section(report(START, stop), "Recommended")


def test_gear_that_kinked_is_warned_of_before_it_goes_in_again(push):
    """With another guide it is the same rod and spring; the larger reel has neither."""
    push(BEGIN + RIM + "o2kmen\ry")
    for key, gear in enumerate((LARGE, *SAME), start=1):
        said = push(BEGIN.replace("11", f"1{key}y" if gear in SAME else f"1{key}") + "uyq")
        question = said.partition("What goes in?")[2]
        assert f"{key} {gear}{' (rod or spring kinked)' if gear in SAME else ''} " in question
        assert ("Rod or spring kinked in a push of this job." in question) == (gear in SAME)


def test_a_plan_leaves_out_what_kinked_until_it_is_said_to_be_sound(push, job, capsys):
    """Plan again in the push, and every plan of the job after it: a rod that kinked is finished."""
    parts, loadouts = job.kit.read_text().split("\nloadouts:")
    spare = parts.replace("\nguides:", SPARE_ROD).replace("\nrods:", SPARE_SPRING)
    job.kit.write_text(f"{spare}\nloadouts:{loadouts}{SPARE}")
    assert goes_in(job) & set(SAME)
    said = push(BEGIN + RIM + "o2kmaq").rsplit("What now?", 2)[1]
    assert "Not planned with" in said
    order = said.partition("If it is out:")[2]
    assert "small head on spare reel" in order
    assert not any(gear in order for gear in SAME)
    assert not goes_in(job) & set(SAME)
    for given in (["plan"], ["card", "--format", "txt", "-o", "-"]):
        with pytest.raises(SystemExit):
            main([*given, str(job.folder), "--worlds", "200"])
        told = " ".join(capsys.readouterr().out.split())
        assert f"Not planned with {SMALL} or {SMALL} + ring guide: rod or spring kinked" in told
    push("en\ry")
    said = push("13" + "n" + "bbb")  # it is not sound: nothing begins with it
    assert not goes_in(job) & set(SAME)
    assert "Are rod and spring sound now" in said
    assert standing(job)[-1].kind == "end"
    push(BEGIN.replace("11", "13y") + "q")
    assert goes_in(job) & set(SAME)


def test_a_kink_that_is_taken_back_is_none(push, job):
    said = push(BEGIN + RIM + "o2km" + "u" + "ma" + "q")
    assert "Not planned with" not in said.rsplit("What now?", 2)[1]
    assert goes_in(job) & set(SAME)


def test_a_push_with_what_kinked_is_followed_to_its_end(push, job):
    """Left and gone on with: it is still the gear that the head is on."""
    push(BEGIN + RIM + "o2kmq")
    said = push("ma" + "q")
    assert "The kit has no" not in said
    assert "this push is over for it" in said


def test_where_all_of_the_kit_kinked_there_is_no_plan_and_it_says_why(push, job, capsys):
    job.kit.write_text(job.kit.read_text().partition("\nloadouts:")[0] + ONE)
    said = push(BEGIN.replace("11", "1") + RIM + "o2kmaq").rsplit("What now?", 2)[1]
    assert "No gear is left that is sound" in said
    assert "If it is out" not in said
    made = plan_of(planned(job))
    assert made.first_step == "No push: no sound rod is left."
    assert not made.camera_now
    assert not made.routes
    with pytest.raises(SystemExit):
        main(["card", str(job.folder), "--worlds", "200"])
    assert "No gear is left that is sound" in capsys.readouterr().err
    push("en\ry")
    said = push("1n" + "bb")
    assert "Rod or spring kinked in a push of this job." in said


def planned(job) -> Study:
    ready = make_ready(job.folder, None, None, 200, None, rules_dir())
    return plan(ready.case, ready.tables, ready.base)


def goes_in(job) -> set[str]:
    """The gear that a plan of the job, made anew from its folder, puts in."""
    made = planned(job)
    return {each.outcome.loadout.name for each in made.ranked}
