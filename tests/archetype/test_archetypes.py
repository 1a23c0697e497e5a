"""Typical buildings: ordinary sheets of which nothing was seen, and that plan.

What such buildings are like is common practice, no source; lengths are our judgement and are not tested.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from advisor.archetype import archetypes, read_archetype, typical
from advisor.errors import BadInput
from advisor.evidence import Grade
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.strict_yaml import plain
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables


@cache
def all_of_them():
    return {each.id: each for each in archetypes(rules_dir(), tables())}


IDS = sorted(path.stem for path in (rules_dir() / "archetypes").glob("*.yaml"))
each_one = pytest.mark.parametrize("name", IDS)


def sheet_of(name: str, built: int | None = None, complaint: str = ""):
    text = typical(all_of_them()[name], built)
    return site_of_text(text + (f"  complaint: {complaint}\n" if complaint else ""), "typical", tables())


def test_both_regions_are_covered():
    regions = [each.region for each in all_of_them().values()]
    assert regions.count("north america") >= 8
    assert regions.count("britain") >= 3


@each_one
def test_nothing_on_it_was_seen(name):
    """No value stands there as if somebody had looked: it is assumed, unknown, or left out."""
    sheet = sheet_of(name)
    seen = []
    for line in plain(sheet.tree)["lines"]:
        for entry in (line, *line["pieces"], *(p["change"] for p in line["pieces"] if "change" in p)):
            keys = (
                "size",
                "material",
                "condition",
                "slope",
                "pipe",
                "drop",
                "bend",
                "fitting",
                "trap",
                "tank",
            )
            seen += [
                (key, entry[key])
                for key in (*keys, "depth", "at", "angle", "step", "arm")
                if key in entry and entry[key] not in ("in wall", "in floor")
                if not entry[key].startswith("assumed ") and entry[key] != "unknown"
            ]
    assert seen == []
    network = network_of(sheet, tables())
    graded = [p.length.evidence.grade for p in network.pieces.values() if p.length]
    assert Grade.TOLD not in graded


@each_one
def test_has_openings_whose_being_there_is_open(name):
    network = network_of(sheet_of(name), tables())
    assert len(network.openings()) >= 5
    doubted = [p for p in network.openings() if p.hole.there < 1]
    assert doubted
    asked = {each.about for each in network.assumed}
    assert {f"whether there is a {p.name}" for p in doubted} <= asked


# Whose trouble each can tell, in the words of the people who live there.
NAMES = {"toilet": "toilet", "sink": "kitchen sink", "floor drain": "floor drain", "gully": "gully"}


@each_one
@pytest.mark.parametrize("when", ["first", pytest.param("unknown", marks=pytest.mark.slow)])
def test_plans_with_a_complaint_of_its_lowest_fixture(name, when):
    found = all_of_them()[name]
    year = found.first_year if when == "first" else None
    names = [p.name for p in network_of(sheet_of(name), tables()).openings() if p.hole.kind != "roof vent"]
    toilet = next(n for n in reversed(names) if "toilet" in n and "cleanout" not in n)
    sheet = sheet_of(name, year, f'{{slow: ["{toilet}"], holding: no}}')
    kit = default_kit(tables())
    one_reel = replace(kit, loadouts=kit.loadouts[:1])  # it is the house that is asked about
    made = plan_of(plan(Case(sheet, one_reel, Units.INCH, 200), tables(), rules()))
    assert made.routes
    assert max(route.chance for route in made.routes) > 0.05
    assert len(made.assumed) > 20
    assert all(note.weak for note in made.assumed if note.about.startswith(("length", "size", "whether")))


@each_one
def test_says_nothing_of_the_head_and_keeps_the_year(name):
    text = typical(all_of_them()[name], 1951)
    assert "building:" not in text
    assert "\nbuilt: 1951\n" in text
    assert text.startswith("# ")
    assert "Nothing here was seen" in text


def test_the_year_settles_what_is_likely():
    # Plastic came in the 1950s and is usual from the 1970s (rules/sources.yaml, pipe-ages-sewer).
    def plastic(year: int) -> float:
        network = network_of(sheet_of("two-storey-stack", year), tables())
        drain = next(p for p in network.pieces.values() if p.line == "house drain")
        return sum(share for name, share in drain.wall.material.options if name in ("pvc", "abs"))

    assert plastic(1930) < 0.1
    assert plastic(2000) > 0.6


def test_a_wide_branch_is_made_like_the_stack_and_a_sewer_unlike_the_drain():
    # A toilet's branch in an old house is iron, its basin's is galvanised: common practice, no source.
    network = network_of(sheet_of("basement", 1950), tables())
    by_line = {p.line: p.wall.material.likeliest for p in network.pieces.values() if p.kind == "pipe"}
    assert by_line["toilet branch"] == "cast iron"
    assert by_line["laundry line"] == "galvanised steel"
    assert by_line["house drain"] == "clay"  # its last pipe, beyond the wall


def test_years_rule_out_and_not_knowing_does_not():
    trap = all_of_them()["row-house-trap"]
    assert trap.built_in(1900)
    assert not trap.built_in(1990)
    assert trap.built_in(None)
    assert all_of_them()["basement"].built_in(2026)


HEAD = """
building:
  name: A hut
  kind: hut
  from: 1900
  known by: It is small.
  share: {value: 1, unit: "%", grade: practice, source: practice}
  grade: judgement
  source: own
"""
HUT = """
site: hut
region: britain
lines: [{line: drain, pieces: [{opening: eye, kind: rodding eye}, {pipe: assumed 1 m}, {end: soakaway}]}]
"""


@pytest.mark.parametrize(
    ("was", "now", "says"),
    [
        ("source: own", "source: owl", "hut.yaml:9: source: no source has the id 'owl'; did you mean 'own'?"),
        ("  from: 1900\n", "  from: 1900\n  to: 1850\n", "the years are not in order"),
        ("  from: 1900\n", "", "'from' is missing"),
        ("grade: judgement", "grade: told", "grade: got 'told'"),
        ("kind: rodding eye", "kind: roding eye", "did you mean 'rodding eye'?"),
        ("building:\n", "bulding:\n", "did you mean 'building'?"),
    ],
)
def test_a_fault_names_file_and_line(tmp_path, was, now, says):
    path = tmp_path / "hut.yaml"
    path.write_text(HEAD + HUT)
    assert read_archetype(path, tables()).name == "A hut"
    assert (HEAD + HUT).count(was) == 1
    path.write_text((HEAD + HUT).replace(was, now))
    with pytest.raises(BadInput) as caught:
        read_archetype(path, tables())
    assert says in str(caught.value)


def test_a_folder_without_any_is_told(tmp_path):
    with pytest.raises(BadInput, match="no typical building"):
        archetypes(tmp_path, tables())
