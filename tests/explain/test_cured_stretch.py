"""What would change a plan names what it counts: which stretch is cleaned, of what, what bars.

From a trial: "cut the roots house drain first" raised the chance by sixteen in a hundred where
three in a hundred ended in roots: the roots stood in clay beyond the wall, and what was counted as clean was
the iron before it. Expected values: the plan of a sheet on which that stretch alone is told as sound.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.explain.change import Cure, cures
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.memory import Memory
from advisor.plan import Case, plan
from advisor.push.met_before import met_before
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from tests.cases.hazards import SMALL, run, site
from tests.cases.jobs import rules, tables
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN, OUT, read
from tests.push.test_root_mass import MASS
from tests.terminal.test_now_shown import case_of, study_of, tee


def two_pipes(iron: str = "heavy scale", clay: str = "roots", below: str = "") -> Case:
    """Iron above a wall and clay below it, or what is told `below` instead."""
    below = below or f"material: clay, condition: {clay}"
    change = f"change: {{kind: sewer, {below}}}"
    pieces = ("pipe: 3 m, landmark: wall", change, "pipe: 3 m")
    wall = {"size": "2 in", "material": "cast iron", "condition": iron}
    sheet = site_of_text(site(run("kind: end cleanout", *pieces, **wall), "run"), "site", tables())
    return Case(sheet, kit_of(kit_of_text(SMALL, "kit"), tables()), Units.INCH, 50)


@pytest.fixture(autouse=True)
def every_gain(monkeypatch):
    monkeypatch.setitem(tables().limits, "least_gain", replace(tables().limits["least_gain"], value=-1.0))


def cured(case: Case) -> dict[str, Cure]:
    study = plan(case, tables(), rules())
    return {each.what: each for each in cures(case, study, tables(), rules(), Memory())}


@pytest.mark.parametrize(
    ("what", "so"),
    [
        ("descale run first", {"iron": "sound"}),
        ("cut the roots in run from wall on first", {"clay": "sound"}),
    ],
)
def test_each_stretch_is_cleaned_by_itself(what, so):
    found = cured(two_pipes())
    alone = plan(two_pipes(**so), tables(), rules())
    assert found[what].chance_after == pytest.approx(alone.chance)
    assert sum(each.startswith(("descale", "cut the roots")) for each in found) == 2


def test_what_it_may_hold_besides_is_named():
    """In the ground nobody knows whether old iron holds scale or roots as well: both count as gone."""
    case = two_pipes(below="material: cast iron")
    names = [each for each in cured(case) if " run from wall on first" in each]
    assert len(names) == 1
    assert names[0].startswith("descale run from wall on first, any roots cut")


def test_a_mass_that_a_push_saw_bars_no_more_once_it_is_cut():
    """Nothing else changes a way that ends there: what it promises then is what the sheet had promised."""
    study = study_of(tee())
    found = met_before(study, numbered(BEGUN, read(5.0), MASS, OUT))
    best, *_ = cures(case_of(tee()), study, tables(), rules(), Memory(), found=found)
    assert best.what == (
        "first have cut or cleared what a push saw: root mass, three quarters of the bore, "
        "5 m in from wall plug"
    )
    assert (best.chance_before, best.chance_after) == (0.0, pytest.approx(study.chance))
