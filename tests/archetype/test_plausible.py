"""Random plausible houses: 200 of them are ordinary sheets with ways in, complaints that hang together, and
half of their values not known."""

from __future__ import annotations

import re
from copy import deepcopy
from dataclasses import replace
from functools import cache

import pytest

from advisor.archetype import archetypes, plausible_site
from advisor.quantity import without_assumed
from advisor.routes.enumerate import routes_to
from advisor.site.build import network_of
from advisor.site.pieces import ChangeEntry
from advisor.site.sheet import site_of_text
from advisor.site.suspects import contradiction, suspect_target, suspects
from advisor.site.target import target_of
from advisor.tables.place import rules_dir
from tests.cases.jobs import tables

SEEDS = range(60)


@cache
def buildings():
    return archetypes(rules_dir(), tables())


@cache
def text_of(seed: int) -> str:
    return plausible_site(seed, buildings(), tables())


@cache
def laid(seed: int):
    """The sheet as `advisor check` reads it: any fault raises."""
    sheet = site_of_text(text_of(seed), f"house {seed}", tables())
    network, target = target_of(sheet, network_of(sheet, tables()))
    complaint = sheet.model.task.complaint
    return sheet, network, target or suspect_target(suspects(network, complaint, tables()), network)


def share(found) -> float:
    return sum(map(bool, found)) / len(SEEDS)


@pytest.mark.parametrize("seed", SEEDS)
def test_reads_without_a_fault_and_has_a_way_in(seed):
    sheet, network, target = laid(seed)
    assert len(network.openings()) >= 2
    routes, _ = routes_to(network, target, tables())
    assert routes
    complaint = sheet.model.task.complaint
    assert complaint.backs_up or complaint.slow
    assert not contradiction(network, complaint), "what comes up does not drain away"


def test_the_same_seed_gives_the_same_house_and_another_another():
    assert all(plausible_site(seed, buildings(), tables()) == text_of(seed) for seed in range(12))
    assert len({text_of(seed).split("\n", 1)[1] for seed in SEEDS}) == len(SEEDS)


@pytest.mark.parametrize("seed", SEEDS)
def test_whoever_runs_fine_shares_no_trouble_with_all_who_do_not(seed):
    """One trouble explains it: some pipe carries everything that is bad and nothing that runs fine."""
    sheet, network, _ = laid(seed)
    complaint = sheet.model.task.complaint
    at = {
        p.name: set(network.downstream(p.id)) for p in network.pieces.values() if p.kind in ("opening", "cap")
    }
    common = set.intersection(*(at[name] for name in (*complaint.backs_up, *complaint.slow)))
    spared = set.union(set(), *(at[name] for name in complaint.fine))
    assert common - spared


def test_water_stands_only_above_a_held_line():
    for seed in SEEDS:
        sheet, network, _ = laid(seed)
        seen = {p.hole.water for p in network.openings()}
        assert "standing" not in seen or sheet.model.task.complaint.holding


def test_every_kind_of_building_region_and_holding_occurs():
    sheets = [laid(seed)[0].model for seed in SEEDS]
    assert {s.region for s in sheets} == {"north america", "britain"}
    assert {s.task.complaint.holding for s in sheets} == {True, False, None}
    assert len({tuple(line.line for line in s.lines) for s in sheets}) >= len(buildings())


def test_a_plausible_half_is_not_known():
    values = [re.findall(r"(?:pipe|drop|belly|bend|fitting|size): (.+)", text_of(seed)) for seed in SEEDS]
    flat = [value for each in values for value in each]
    unknown = sum(value == "unknown" or value.startswith("assumed") for value in flat) / len(flat)
    assert 0.4 < unknown < 0.6


def test_houses_differ_as_real_ones_do():
    """Openings dropped and added, bends added, sags, shifted joints: some houses have each."""
    for words, low, high in (("belly:", 0.2, 0.7), ("joint:", 0.1, 0.6), ("another opening", 0.05, 0.3)):
        assert low < share(words in text_of(seed) for seed in SEEDS) < high, words
    assert (
        0.2 < share("opening: yard cleanout" in text_of(s) for s in SEEDS if "america" in text_of(s)) < 0.75
    )
    assert share("there:" in text_of(seed) for seed in SEEDS) > 0.3


def test_a_change_is_made_of_the_pipe_below_it():
    """The first end on the sheet may be another line's, of another pipe."""
    slab = next(each for each in buildings() if each.id == "slab-one-storey")
    yard = {
        "line": "yard drain",
        "kind": "drain",
        "size": "4 in",
        "material": "clay",
        "pieces": [{"opening": "yard", "kind": "yard cleanout"}, {"pipe": "10 ft"}, {"end": "soakaway"}],
    }
    tree = deepcopy(slab.tree)
    tree["lines"].insert(0, yard)
    change = next(piece for piece in tree["lines"][1]["pieces"] if "change" in piece)
    change["change"]["material"] = "pvc"
    two_ends = replace(slab, tree=tree)
    seen = set()
    for seed in range(20):
        sheet = site_of_text(plausible_site(seed, [two_ends], tables()), "two ends", tables())
        pieces = (piece for line in sheet.model.lines for piece in line.pieces)
        seen |= {
            without_assumed(each.change.material)[0]
            for each in pieces
            if isinstance(each, ChangeEntry) and each.change.material is not None
        }
    assert seen == {"pvc"}
