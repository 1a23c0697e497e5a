"""Explanations: every sentence is made from a stored record, and the records are the planner's own."""

from __future__ import annotations

import re
from dataclasses import replace
from types import MappingProxyType

import numpy as np
import pytest

from advisor import demo
from advisor.archetype import archetypes, plausible_site
from advisor.evidence import Evidence, Grade
from advisor.explain.how import how_route, how_spot, minute_terms
from advisor.explain.what_if import _leader
from advisor.explain.why_not import why_not_route, why_not_technique
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.outcome.attempts import NO_TRY, TECHNIQUES
from advisor.plan import Case, plan
from advisor.quantity import Known, Units
from advisor.ranking.score import Ranked
from advisor.result.spots import passage_note
from advisor.site.sheet import read_site, site_of_text
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables

KIT_SHEET = read_kit(demo.KIT)


def case(path=demo.MAIN, worlds: int = 500, tables_=None) -> Case:
    used = tables_ or tables()
    return Case(read_site(path, used), kit_of(KIT_SHEET, used), Units.INCH, worlds)


@pytest.fixture(scope="module")
def made():
    return case()


@pytest.fixture(scope="module")
def study(made):
    return plan(made, tables(), rules())


def test_story_has_at_most_three_reasons(study):
    for ranked in study.ranked:
        assert 1 <= len(how_route(study, ranked.outcome).story) <= 3
        assert 1 <= len(why_not_route(study, ranked.outcome).story) <= 3


def test_minutes_of_a_route_add_up_to_its_score(study):
    for ranked in study.ranked:
        assert sum(minute_terms(study, ranked.outcome).values()) == pytest.approx(ranked.score, rel=1e-4)


def test_gaps_of_why_not_add_up_to_the_difference_of_scores(study):
    last = study.ranked[-1]
    gap = why_not_route(study, last.outcome).tree.value
    assert gap == pytest.approx(last.score - study.ranked[0].score, rel=1e-3)


def test_a_way_that_nothing_stops_oftener_than_the_first_is_not_told_to_be_stopped():
    """Two chambers with 10 m of straight wide pipe between them: either end is as good as the other."""
    text = """
site: two chambers
region: britain
lines:
  - line: drain
    size: 110 mm
    material: pvc
    condition: sound
    pieces:
      - {opening: side chamber, kind: inspection chamber, depth: 0.6 m, there: yes, opens: yes}
      - pipe: 10 m
      - {opening: front chamber, kind: inspection chamber, depth: 0.6 m, there: yes, opens: yes}
      - pipe: 30 m
      - end: public sewer
task:
  look at: drain, from side chamber to front chamber
  complaint: {gas smell: no, chemicals: no, holding: no}
"""
    sheet = site_of_text(text, "site", tables())
    found = plan(Case(sheet, kit_of(KIT_SHEET, tables()), Units.METRIC, 400), tables(), rules())
    second = next(
        r.outcome
        for r in found.ranked
        if r.outcome.route.opening is not found.ranked[0].outcome.route.opening
    )
    told = why_not_route(found, second)
    assert "is as good as" in told.about
    assert not any("what stops it" in line for line in told.story)
    assert any("nothing stops it oftener" in line for line in told.story)


def test_what_is_cheaper_by_itself_is_told_with_what_it_costs_as_the_first():
    """The order is of all of them: what leads is what leaves least to do over all that come after it."""
    house = next(each for each in archetypes(rules_dir(), tables()) if each.id == "crawl-space")
    text = plausible_site(13, [house], tables())
    cheaper = []
    for seed in (1, 2, 3):
        sheet = site_of_text(text, "site", tables())
        found = plan(Case(sheet, kit_of(KIT_SHEET, tables()), Units.INCH, 100, seed), tables(), rules())
        leader = found.ranked[0]
        cheaper += [
            why_not_route(found, each.outcome).about
            for each in found.ranked[1:]
            if each.outcome.route.id in found.settled.order.names and each.score < leader.score
        ]
    assert cheaper
    for about in cheaper:
        alone, first = (float(each) for each in re.findall(r"(-?\d+) minutes", about))
        assert alone > 0
        assert first >= 0, "else it would lead"


def test_tree_goes_down_to_graded_table_values(study):
    reasons = [reason for _, reason in how_route(study, study.ranked[0].outcome).tree.walk()]
    tables_ = [r for r in reasons if r.of == "table"]
    assert tables_
    assert all(r.grade and r.source for r in tables_)
    assert any(r.of == "sheet" for r in reasons)
    assert any(r.of == "mechanics" for r in reasons)


def test_one_table_value_changed_moves_the_number_in_the_sentence():
    moved = Known(33.0, Evidence(Grade.JUDGEMENT, "own"))
    other = replace(tables(), limits=MappingProxyType({**tables().limits, "push_force": moved}))
    told = []
    for used in (tables(), other):
        study = plan(case(tables_=used), used, rules())
        tree = how_route(study, study.ranked[0].outcome).tree
        told.append(next(r for _, r in tree.walk() if "sustained push of a hand" in r.text))
    assert told[0].value == tables().limits["push_force"].likely
    assert told[1].value == 33.0
    assert "7.4 lb" in told[1].text  # 33 N over 4.448 N a pound


def test_a_habit_is_no_try_of_its_own(study):
    """Hands near, water running: done all the while, never counted as a try (NO_TRY)."""
    outcome = study.ranked[0].outcome
    found = [
        why_not_technique(study, outcome, index, name)
        for index, hard in enumerate(outcome.spots)
        for name in NO_TRY
        if name in TECHNIQUES and not any(name in ruling.rejected for ruling in hard.rulings)
    ]
    assert found
    for story in found:
        assert "is no try of its own at" in story.about
        assert story.story == (), "told once"


def test_a_technique_that_comes_later_is_told_after_those_before_it(study):
    told = 0
    for ranked in study.ranked:
        for index, hard in enumerate(ranked.outcome.spots):
            order = [name for name, _ in hard.order]
            for name in hard.tries:
                if name in NO_TRY or any(name in ruling.rejected for ruling in hard.rulings):
                    continue
                story = why_not_technique(study, ranked.outcome, index, name)
                first = [reason.text for reason in story.tree.under[1:]]
                # "string: 0% a try ... 26578582 minutes less a pass": what hardly passes is set against none.
                before = order[1 : order.index(name)] if name in order else []
                if name != order[0]:
                    assert [text.split(" comes first")[0] for text in first] == before
                worth = any("is not worth the minutes" in line for line in story.story)
                assert worth == (name not in order)
                told += worth + bool(before)
    assert told


def test_a_way_that_shows_a_part_says_how_much():
    """Of the demo houses one has an opening from which one push does not see all of it."""
    studies = [plan(case(path, 100), tables(), rules()) for path in demo.ALL]
    part, of = next((r.outcome, s) for s in studies for r in s.ranked[1:] if r.outcome.route.covers < 1)
    whole = next(r.outcome for s in studies if s is of for r in s.ranked[1:] if r.outcome.route.covers == 1)
    told = why_not_route(of, part).tree.under[0].text
    assert told == f"one push shows {part.route.covers:.0%} of the target"
    assert "one push shows" not in why_not_route(of, whole).tree.under[0].text


def test_of_a_technique_it_is_told_what_came_of_it_before_and_that_it_comes_first(study):
    """It passed here before and led for that, and the answer was only: 21% a try for 6 minutes."""
    outcome = study.ranked[0].outcome
    index = next(i for i, s in enumerate(outcome.spots) if len(s.order) > 2)
    hard = outcome.spots[index]
    _, first, second = (name for name, _ in hard.order[:3])
    tried = replace(hard, passed=frozenset({first}), failed=frozenset({second}))
    spots = (*outcome.spots[:index], tried, *outcome.spots[index + 1 :])
    after = replace(outcome, spots=spots)
    told = {name: why_not_technique(study, after, index, name).story for name in (first, second)}
    assert told[first] == (f"{first} comes first: passed here before",)
    assert told[second] == (f"{second}: failed here before", f"{first} comes first: passed here before")


def test_why_not_a_technique_that_a_rule_rejects(study):
    from tests.cases.jobs import kit_text, studied
    from tests.cases.test_trade_facts import TestTightTurnsAfterTheOpening

    job = studied(TestTightTurnsAfterTheOpening.job(3), kit_text("feel: firm"))
    outcome = job.ranked[0].outcome
    index = next(i for i, s in enumerate(outcome.spots) if "quick push" in s.rulings[0].rejected)
    story = why_not_technique(job, outcome, index, "quick push")
    assert "ruled out" in story.about
    assert any("stroke" in words for words in story.story)
    assert any(r.of == "check" for _, r in story.tree.walk())


def test_how_spot_names_the_spot(study):
    outcome = next(r.outcome for r in study.ranked if r.outcome.spots)
    assert how_spot(study, outcome, 0).tree.of == "chance"


def test_what_is_left_out_for_its_minutes_is_not_told_as_useless(study):
    """A spot left after the gentle push: what would have come next could pass."""
    outcome = study.ranked[0].outcome
    index = next(i for i, spot in enumerate(outcome.spots) if len(spot.order) > 1)
    whole = outcome.spots[index]
    cut = replace(outcome, spots=(*outcome.spots[:index], whole.after(1), *outcome.spots[index + 1 :]))
    notes = {t.name: t for t in passage_note(cut.spots[index], cut, study.reader).techniques}
    for technique, _ in whole.order[1:]:
        if notes[technique].verdict == "required":
            continue
        assert notes[technique].verdict == "not worth it"
        assert "going elsewhere" in notes[technique].because
        story = " ".join(why_not_technique(study, cut, index, technique).story)
        assert "going elsewhere" in story
        assert "less than" not in story


def test_no_opening_leads_where_the_first_hardly_reaches_it(study):
    hopeless = replace(
        study.ranked[0].outcome, walk=replace(study.ranked[0].outcome.walk, arrived=np.zeros(500))
    )
    bare = replace(study, settled=replace(study.settled, ranked=(Ranked(hopeless, 100.0, 1.0),)))
    assert _leader(bare) == "none"
    assert _leader(study) == study.ranked[0].outcome.route.opening.name


def test_why_not_about_the_leader_tells_it_once_and_whom_to_ask_about(study):
    story = why_not_route(study, study.ranked[0].outcome)
    name = study.ranked[0].outcome.route.opening.name
    assert story.about == f"{name} does lead"
    (ask,) = story.story
    assert name not in ask
    assert all(
        r.outcome.route.opening.name in ask for r in study.ranked if r.outcome.route.opening.name != name
    )
