"""Plain facts that rules and mechanics are told, by hand."""

from __future__ import annotations

from dataclasses import replace
from itertools import islice
from math import atan, pi
from types import SimpleNamespace

import numpy as np
import pytest

from advisor.outcome.attempts import STEADY
from advisor.outcome.facts import Circumstances, site_facts
from advisor.outcome.forces import _downhill
from advisor.outcome.spot_facts import SpotFacts
from tests.cases.jobs import kit_text, studied, tables
from tests.outcome.test_turns_and_facts import SITE
from tests.practice.school import school


def told_of(**known: object) -> Circumstances:
    """What is known, and nothing else."""
    unknown = dict.fromkeys(("holding", "chemicals", "gas_smell", "pumps", "septic", "shared"))
    return Circumstances(**{**unknown, **known})


@pytest.mark.parametrize(
    ("holding", "chemicals", "allowed"),
    [
        (False, False, True),
        (True, False, False),
        (False, True, False),
        (True, None, False),
        (None, True, False),
        (None, False, None),  # not known is not no
        (False, None, None),
        (None, None, None),
    ],
)
def test_water_is_run_only_where_nothing_speaks_against_it(holding, chemicals, allowed):
    assert told_of(holding=holding, chemicals=chemicals).water_allowed is allowed


def test_what_people_say_becomes_a_fact_and_nothing_else_does():
    network = studied(SITE.replace("LOOK", "side").replace("FITTING", "unknown"), kit_text(), 100).network
    silent = site_facts(network, told_of(), tables())
    said = site_facts(network, told_of(worse_on=("rain",), came_back=("soil or pipe",)), tables())
    assert (silent["site.rain"], silent["site.broken"]) == (False, False)
    assert (said["site.rain"], said["site.broken"]) == (True, True)


def test_how_steep_the_pipe_runs_toward_the_tip():
    study = studied(SITE.replace("LOOK", "side").replace("FITTING", "straight tee"), kit_text(), 100)
    passage = next(p for o in study.outcomes for p in o.route.passages if p.piece.kind == "pipe")

    def tilt(flow: str = "with", **changes: object) -> float:
        piece = replace(passage.piece, vertical=False, **changes)
        return _downhill(SimpleNamespace(piece=piece, flow=flow))

    two = replace(passage.piece.slope, value=0.02)
    assert tilt(slope=two) == pytest.approx(atan(0.02))
    assert tilt("against", slope=two) == pytest.approx(-atan(0.02))
    assert tilt(slope=None) == 0
    assert tilt(kind="drop") == pytest.approx(pi / 2)
    assert tilt(kind="rise") == pytest.approx(-pi / 2)


def test_a_loadout_with_a_guide_is_worked_out_with_one():
    kit = kit_text() + "guides: [{guide: ring, diameter: 60 mm, length: 20 mm}]\n"
    kit += "loadouts:\n  - {head: small head, spring: spring, rod: small reel}\n"
    kit += "  - {head: small head, spring: spring, rod: small reel, guide: ring}\n"
    study = studied(SITE.replace("LOOK", "side").replace("FITTING", "unknown"), kit, 100)
    found = {bool(each.guide): study.drawn.kit(each).guided for each in study.kit.loadouts}
    assert found == {True: True, False: False}


def test_tries_of_a_technique_are_as_many_as_the_table_says_and_shares_are_shares():
    looked = 0
    for study in islice(school().sites(5), 2):
        limits = study.tables.limits
        for ranked in study.ranked:
            for hard in ranked.outcome.spots:
                assert hard.order[0] == (STEADY, 1), "the gentle push comes first, and once"
                for name, count in hard.order:
                    if name != STEADY:
                        assert count == max(round(limits[f"tries, {name}"].likely), 1)
                        looked += 1
                loadout = ranked.outcome.loadout
                facts = SpotFacts(hard.spot, study.kit.besides(loadout), loadout)
                share = np.asarray(facts.of(hard.rulings[0].variant, None)["passage.runs_at_far_wall"])
                assert ((share >= -1e-6) & (share <= 1 + 1e-6)).all()
    assert looked > 5
