"""What is told to try, and why: by the chances on the same screen, and never against a rule of the job."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from advisor.outcome.rulings import Ruling
from advisor.practice.cause import what_stops
from advisor.push.held.stuck import stuck
from advisor.push.held.unforeseen import steps_anywhere
from advisor.push.now.after_signs import FACT_OF
from advisor.push.now.causes import causes_of
from advisor.push.now.course import Course, Met
from advisor.push.now.here import pieces_here
from advisor.result.spots import passage_note
from tests.cases.jobs import rules, tables
from tests.push.test_stuck import course, met
from tests.push.test_stuck_signs import spots
from tests.terminal.test_held_here import SEWER, held

SIGNS = [(), *((name,) for name in tables().stuck.signs), ("wall ahead", "springs back")]


def everywhere() -> list[tuple[Course, Met]]:
    return [(course(), met(course())), *spots()[::3]]


def percent(chance: float) -> str:
    return "under 1 %" if chance < 0.005 else "over 99 %" if chance >= 0.995 else f"{chance * 100:.0f} %"


@pytest.mark.parametrize("signs", SIGNS)
def test_a_reason_cites_the_chances_that_are_told_beside_it(signs):
    """Whatever a reason says of what holds the head is one of the causes' chances after the signs."""
    cited = 0
    for of, at in everywhere():
        found = stuck(of, at, frozenset(signs), [], 2.0, ())
        told = {percent(cause.chance) for cause in found.causes if cause.trouble in FACT_OF}
        for why in (each.because for each in found.tries if each.technique != "guide"):
            numbers = re.findall(r"\(((?:under |over )?\d+ %)\)", why)
            cited += len(numbers)
            assert set(numbers) <= told, (at.name, why)
    assert cited or signs in {("dead",), ("water over the lens",), ("will not come back",)}


def test_the_reason_is_that_of_what_holds_it_more():
    """At one tee: a wall before the lens is the far wall, an open pipe the rod end. The plan holds the wall
    to be the likelier of all pushes. The same words stood before the plan's share and before this one."""
    at = met(course())
    planned = passage_note(at.hard, at.outcome, course().study.reader).techniques
    foreseen = next(each.because for each in planned if each.name == "quick push")
    assert foreseen.startswith("If it holds here, a st")
    for signs, words in (
        ({"wall ahead"}, "By what was told here, a stop at the far wall is "),
        ({"open pipe ahead", "springs back"}, "By what was told here, a stuck rod end is "),
    ):
        found = stuck(course(), met(course()), frozenset(signs), [], 2.0, ())
        chance = {cause.name: cause.chance for cause in found.causes}
        assert (chance["far wall"] > chance["rod end sticks"]) == ("at the far wall is" in words)
        assert next(each for each in found.tries if each.technique == "quick push").because.startswith(words)


def test_a_blow_is_not_offered_into_water_that_the_signs_tell_of():
    """The rule: no quick push where a lens under water is more than unlikely. The plan knew of no water."""
    at = met(course())
    assert "quick push" in {each.technique for each in stuck(course(), at, frozenset(), [], 2.0, ()).tries}
    found = stuck(course(), at, frozenset({"both ways dark", "water over the lens"}), [], 2.0, ())
    water = next(cause.chance for cause in found.causes if cause.name == "standing water")
    limits = tables().limits
    assert limits["unlikely_share"].likely < water < tables().stuck.tell.likely.value  # of the rule alone
    assert "quick push" not in {each.technique for each in found.tries}
    assert percent(water) in dict(found.not_now)["quick push"]


@pytest.mark.slow
def test_no_step_of_the_plan_goes_with_the_signs():
    for of, at in everywhere():
        planned = {note.name: note for note in passage_note(at.hard, at.outcome, of.study.reader).techniques}
        for signs in SIGNS:
            for each in stuck(of, at, frozenset(signs), [], 2.0, ()).tries:
                assert set(planned[each.technique].steps) <= set(each.steps)
                # Going in with a tool: to look at the pipe's bottom first is its caution.
                assert each.steps


@pytest.mark.parametrize(
    ("holding", "runs"),
    [
        ("holding: no, chemicals: no", True),
        ("holding: yes, chemicals: no", False),
        ("holding: unknown", False),
        ("holding: no, chemicals: yes", False),
    ],
)
def test_no_water_into_a_line_that_holds_or_holds_a_cleaner_where_nothing_was_foreseen(holding, runs):
    """The same rules of the job that the plan obeys."""
    of = course(holding)
    for signs in SIGNS:
        found = stuck(of, None, frozenset(signs), [], 2.0, ())
        wet = {"water", "clean first"} & {each.technique for each in found.tries}
        if not runs:
            assert not wet, signs
    told = stuck(of, None, frozenset({"open pipe ahead"}), [], 2.0, ())  # no pool that water would deepen
    assert ("water" in {each.technique for each in told.tries}) == runs
    assert ("water" in dict(told.not_now)) != runs


@pytest.mark.parametrize("material", ["pitch fibre", "pvc"])
def test_no_blow_and_no_scraping_in_a_pipe_that_may_break_where_nothing_was_foreseen(material):
    now = held(SEWER.replace("material: clay", f"material: {material}"))
    where = pieces_here(now)
    assert where
    found = stuck(now.push.course, None, frozenset({"gritty"}), [], 12.0, where)
    offered = {each.technique for each in found.tries}
    assert "quick push" not in offered, "nothing turns there, so a blow cures nothing"
    scraped = "clean first"
    fragile = tables().materials[material].fragile
    assert (scraped in offered) is not fragile
    assert ("may be fragile" in dict(found.not_now).get(scraped, "")) is bool(fragile)


@pytest.mark.parametrize(
    ("signs", "cleaned"),
    [({"both ways dark", "dead"}, False), ({"both ways dark", "dead", "gritty"}, True), ({"blocked"}, True)],
)
def test_nothing_that_cuts_goes_at_a_stop_of_which_nothing_is_known(signs, cleaned):
    """Dark and dead hard may be another's pipe; only what shows that it can be cleaned away is cleaned."""
    now = held(SEWER.replace("material: clay", "material: clay\n    condition: roots"))
    found = stuck(now.push.course, None, frozenset(signs), [], 12.0, pieces_here(now))
    assert ("clean first" in {each.technique for each in found.tries}) == cleaned
    assert ("it may be another's pipe" in dict(found.not_now).get("clean first", "")) != cleaned
    assert "A ledge of scale" not in str(found.tries), "none grows in clay"


def test_every_chance_that_a_rule_cites_of_a_held_head_is_told_after_the_signs():
    """A share fact of the passage that a trouble of the matrix is, by its meaning, is in the list."""
    assert set(FACT_OF) <= set(rules().matrix.troubles)
    assert {row.trouble for row in tables().stuck.causes.values()} >= set(FACT_OF)
    ones = np.ones(1000)
    named = {cause.trouble for cause in causes_of(course(), None, frozenset(), ones)}
    assert set(FACT_OF) <= named


@pytest.mark.parametrize("signs", [{"wall ahead", "picture still", "blocked"}, {"picture still", "blocked"}])
def test_where_signs_tell_of_roots_that_nobody_foresaw_no_blow_goes_into_them(signs):
    """The rules: no blow, turning, string or guide where roots are notable (rules/technique/roots.yaml)."""
    now = held(SEWER.replace("material: clay", "material: pvc\n    condition: sound"))
    found = stuck(now.push.course, None, frozenset(signs), [], 12.0, pieces_here(now))
    (roots,) = (cause for cause in found.causes if cause.trouble == "roots")
    assert roots.chance >= tables().limits["notable_share"].likely
    offered = {each.technique for each in found.tries}
    assert offered
    assert not offered & {"quick push", "turn the rod", "string", "guide"}


def test_no_water_is_proposed_where_the_way_out_of_that_stop_forbids_it():
    """A stop of which nothing was told may be in a pool: first it is drawn back from and looked at."""
    of = course("holding: no, chemicals: no")
    seen = set()
    for signs in (frozenset[str](), *map(frozenset, SIGNS)):
        found = stuck(of, None, signs, [], 2.0, ())
        dry = any(step.startswith("No water: ") for step in found.out.steps)
        tried = {each.technique for each in found.tries}
        seen.add((dry, "water" in tried))
        assert not (dry and "water" in tried), signs
    assert {(True, False), (False, True)} <= seen
    unclear = stuck(of, None, frozenset(), [], 2.0, ())
    assert len(unclear.named) > 1
    assert unclear.first == ("Draw back a forearm's length and look: what holds it is not clear.",)


def test_a_step_that_waits_for_what_was_told_is_not_told():
    for chemicals, waits in (("", True), (", chemicals: no", False)):
        steps = steps_anywhere(course(f"holding: no{chemicals}"), "water")
        assert ("Only once it is known that nothing was poured in." in steps) is waits


def rod_end_at_a_tee() -> tuple[Course, Met, Ruling]:
    at = met(course())
    return (
        course(),
        at,
        max(at.hard.rulings, key=lambda ruling: float(ruling.facts["passage.rod_end_sticks"])),
    )


def test_the_reason_of_a_stroke_counts_of_the_pushes_that_are_held():
    """A plan told "a stuck rod end is unlikely (29 %), a stop at the far wall unlikely" as the reason
    of a try that comes only where a push is held: of 29 in 100 held that is nearly all."""
    _, at, ruling = rod_end_at_a_tee()
    worlds = slice(None) if ruling.where is None else ruling.where
    plain = at.hard.spot.plain
    held = 1 - float(plain.passes[worlds].mean())
    rod, wall = (ruling.facts[f"passage.{name}_holds"] for name in ("rod_end", "far_wall"))
    assert rod == pytest.approx(float(plain.rod_end[worlds].mean()) / held, rel=1e-3)
    assert rod > ruling.facts["passage.rod_end_sticks"]
    assert rod + wall == pytest.approx(1, abs=0.02), (
        "at a tee they are all that holds, but for an unsteered head"
    )


def test_practice_tells_what_holds_a_head_with_its_chance_where_no_rule_does():
    """Beside a chance of 19 % a drill told as a fact: the head has turned, the rod end behind it has not."""
    of, at, ruling = rod_end_at_a_tee()
    told = what_stops(at.hard, replace(ruling, firings=()), of.study)
    assert re.search(r": (likely|even|unlikely) \(\d+ %\), where it is held\.$", told[-1])
