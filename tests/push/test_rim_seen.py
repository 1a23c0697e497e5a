"""A rim before the lens: no machine at it as long as no roots were seen, whatever the plan thinks of roots.

From a trial: old clay, "a rim or step before the lens" and dead hard, no roots told. The last
try on the screen was to have the roots cut there. A rule of the trade, by common practice: what turns in a
pipe bites on the standing edge of a displaced joint, so it goes
there for roots alone, and who runs it is told.
"""

from __future__ import annotations

import pytest

from advisor.push.before.left_stops import stop_words
from advisor.push.before.stops import stops_told
from advisor.push.held.all_the_same import all_the_same
from advisor.push.log.kinds import FIND, PASSED, STOPPED, TRY
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from advisor.terminal.push.stuck import show_stuck
from tests.push.test_which_spot import CLAY, RIM, ROOTED, ROOTS, found, in_clay

CLEAN, TURN = "clean first", "turn the rod"
DEAD = {**RIM, "feel": "dead"}
WITH_ROOTS = {"sign": "rim ahead, blocked, roots"}


@pytest.mark.parametrize(
    "told", [RIM, DEAD, {"sign": "rim ahead, blocked"}, {"sign": "rim ahead, blocked, scale or grease"}]
)
def test_no_machine_goes_at_a_rim_where_no_roots_were_seen(told, capsys):
    now = in_clay((STOPPED, 6.0, told))
    held = found(now)
    assert CLEAN not in [each.technique for each in held.tries]
    assert "no roots were seen" in dict(held.not_now)[CLEAN]
    show_stuck(held, now, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "Have the roots cut" not in said
    assert held.stop or "Not clean first: A rim or a displaced joint stands there" in said


def test_where_all_has_failed_it_is_told_still(capsys):
    """There somebody reaches for a machine."""
    tried = ("steady push", TURN, TURN, "water")
    failed = ((TRY, 6.0, {"technique": each, "outcome": "stopped"}) for each in tried)
    now = in_clay((STOPPED, 6.0, DEAD), *failed)
    held = found(now)
    assert held.stop
    show_stuck(held, now, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "Not clean first: A rim or a displaced joint stands there" in said.partition("Stop here")[2]


def test_roots_seen_at_the_rim_are_cut_and_whoever_cuts_is_told_of_it():
    (cut,) = [each for each in found(in_clay((STOPPED, 6.0, WITH_ROOTS))).tries if each.technique == CLEAN]
    assert any("A joint out of line there? Tell who cuts" in step for step in cut.steps)


@pytest.mark.parametrize(("told", "cuts"), [(ROOTS, True), ({"sign": "blocked, scale or grease"}, False)])
def test_roots_are_cut_only_where_roots_likely_hold_it(told, cuts):
    """Scale that was told is taken off the wall: no cutter for roots, of which nothing was seen."""
    (cleaned,) = [each for each in found(in_clay((STOPPED, 6.0, told))).tries if each.technique == CLEAN]
    assert ("Have the roots cut" in " ".join(cleaned.steps)) is cuts
    assert cleaned.steps, "to look at the pipe's bottom first is its caution"


def test_felt_dead_alone_where_a_rim_is_drawn_no_machine_is_sent_at_it_either():
    """By the matrix, where no sign tells of the rim: a rim of the pipe stays, so to clean it is useless."""
    assert not in_clay().push.study.base.matrix.cells[CLEAN, "ledge"].allowed


SEEN_ROOTS = (FIND, 4.0, {"what": "hairs of root at a joint"})
HELD_BY_ROOTS = (
    (STOPPED, 4.0, ROOTS),
    (TRY, 4.0, {"technique": "steady push", "spot": "roots in rear drain", "outcome": PASSED}),
)


@pytest.mark.parametrize(
    "before", [(), ((FIND, 4.0, {"what": "no roots, clean joint"}),)], ids=["nothing told", "told clean"]
)
def test_at_a_clean_rim_where_no_roots_were_seen_nor_are_likely_the_curl_lifts_the_nose(before, capsys):
    """The trade's first try at a low rim, on the condition that the eyes that are there see no root."""
    now = in_clay(*before, (STOPPED, 6.0, DEAD))
    held = found(now)
    assert held.tries[0].technique == TURN
    assert held.tries[0].steps[0].startswith("A root in sight, here or on the way in? No turning")
    assert "curl lifts the nose over the rim. Gently, no stroke." in held.tries[0].steps[1]
    assert TURN not in dict(held.not_now)
    assert "not to be tried" not in (all_the_same(now.push.course, held, TURN, False) or "")
    assert "quick push" in dict(held.not_now)
    show_now(now, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "Not turn the rod and not quick push. At a clean rim that holds it: key s." in said


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (ROOTED, ((STOPPED, 6.0, DEAD),)),
        (CLAY.replace("complaint:", "history: {came back: [roots]}, complaint:"), ((STOPPED, 6.0, DEAD),)),
        (CLAY, (SEEN_ROOTS, (STOPPED, 6.0, DEAD))),
        (CLAY, (*HELD_BY_ROOTS, (STOPPED, 6.0, DEAD))),
        (CLAY, ((STOPPED, 6.0, {"sign": "rim ahead, blocked"}),)),
        (CLAY, ((STOPPED, 6.0, {"feel": "dead"}),)),
        (CLAY, ((STOPPED, 6.0, {**RIM, "feel": "soft, gritty"}),)),
    ],
    ids=["likely", "came back", "a find", "held by them", "not clean", "no rim", "not clear what"],
)
def test_roots_seen_or_likely_bar_turning_as_before(text, told, capsys):
    now = in_clay(*told, text=text)
    held = found(now)
    assert TURN not in [each.technique for each in held.tries]
    assert "winds" in dict(held.not_now)[TURN]
    assert "not to be tried" in all_the_same(now.push.course, held, TURN, False)


@pytest.mark.parametrize(
    ("by", "said"), [(TURN, f"by this: {TURN} (never in roots)."), ("water", "by this: water.")]
)
def test_what_passed_in_a_run_marked_for_roots_is_told_with_their_bar(by, said):
    """Plan and card bar it in roots: "came past by this" alone would recommend what they forbid."""
    now = in_clay((STOPPED, 6.0, DEAD), (TRY, 6.0, {"technique": by, "spot": "", "outcome": PASSED}))
    (stop,) = stops_told(now)
    assert said in stop_words(stop, "front chamber", "upstream", now.push.study)
