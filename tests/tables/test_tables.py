"""What the tables must hold: names, grades, sources, and answers that hang together."""

from __future__ import annotations

import math
import re

import pytest

from advisor.evidence import Evidence, Grade
from advisor.strict_yaml import Branch, Leaf, Twigs, read_text, tree_of_text
from advisor.tables import REGIONS, rules_dir
from advisor.tables.likely import Steps, Stock
from tests.cases import jobs

FILES = sorted([*(rules_dir() / "tables").glob("*.yaml"), *(rules_dir() / "signs").glob("*.yaml")])
NUMBER = re.compile(r"-?\d[\d./-]*")


def ungraded(node, path, graded):
    """Numbers that stand inside no record with a grade and a source."""
    if isinstance(node, Leaf):
        if NUMBER.fullmatch(node.text) and not graded:
            yield f"line {node.line}: {' > '.join(path)} = {node.text}"
    elif isinstance(node, Twigs):
        for item in node.items:
            yield from ungraded(item, path, graded)
    elif isinstance(node, Branch):
        here = graded or {"grade", "source"} <= set(node.entries)
        for key, child in node.entries.items():
            yield from ungraded(child, [*path, key], here)


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.name)
def test_every_number_has_grade_and_source(file):
    tree = tree_of_text(read_text(file), file.name)
    assert list(ungraded(tree, [], False)) == []


def test_the_grade_check_can_fail():
    tree = tree_of_text("a: {b: 3}\nc: {value: 1, grade: judgement, source: own}\n", "x")
    assert list(ungraded(tree, [], False)) == ["line 1: a > b = 3"]


BENDS = (
    "1/16 bend, 1/8 bend, 1/6 bend, 1/5 bend, 1/4 bend, short sweep, long sweep, vent bend, closet bend, "
    "15 degree bend, 22.5 degree bend, 30 degree bend, 45 degree bend, 67.5 degree bend, "
    "87.5 degree bend, stack-base bend, knuckle"
)
JUNCTIONS = (
    "wye, combination, sanitary tee, straight tee, vent tee, double wye, double sanitary tee, "
    "double fixture fitting, vent cross, wye and 1/8 bend, saddle, swept branch, 45 degree branch, boss, "
    "chamber branch, backdrop, tap tee"
)
OPENINGS = (
    "floor cleanout, wall cleanout, stack-base cleanout, end cleanout, two-way cleanout, twin cleanout, "
    "yard cleanout, toilet flange, wall-hung toilet carrier, P-outlet toilet, roof vent, "
    "air admittance valve, fixture tee, bath trap, floor drain, shower drain, washing-machine standpipe, "
    "inspection chamber, rodding eye, gully, house trap street-side plug, house trap house-side plug, "
    "disconnecting trap rodding arm, stack access door"
)
FIXTURES = (
    "toilet, basin, bath, shower, kitchen sink, laundry tub, washing machine, dishwasher, floor drain, "
    "bidet, mop sink, urinal"
)
STOPPERS = (
    "house trap, disconnecting trap, P-trap, S-trap, drum trap, backwater valve, check valve, "
    "grease tank, ejector, septic tank, flap"
)
MATERIALS = (
    "pvc, abs, cast iron, galvanised steel, copper, lead, clay, pitch fibre, asbestos cement, concrete, "
    "plastic, thin-wall plastic sewer"
)


@pytest.mark.parametrize(
    ("table", "names"),
    [
        ("bends", BENDS),
        ("junctions", JUNCTIONS),
        ("openings", OPENINGS),
        ("fixtures", FIXTURES),
        ("stoppers", STOPPERS),
        ("materials", MATERIALS),
        ("kit_classes", "small reel, large reel"),
    ],
)
def test_names_that_sheets_use(tables, table, names):
    assert set(names.split(", ")) <= set(getattr(tables, table))


@pytest.mark.parametrize("table", ["bends", "junctions", "openings", "stoppers"])
def test_every_region_has_a_word(tables, table):
    for kind in getattr(tables, table).values():
        assert set(kind.words) == set(REGIONS), kind.name


def test_double_junctions(tables):
    """Trade names say it themselves (common practice)."""
    kinds = tables.junctions
    assert {name for name, kind in kinds.items() if kind.shape.startswith(("double", "cross"))} == {
        "double wye",
        "double sanitary tee",
        "double fixture fitting",
        "vent cross",
    }


def test_small_pipe_into_a_british_stack_is_a_boss(tables):
    """Common practice, no source; a WC branch as big as the stack is swept."""
    likeliest = [
        tables.likely_junction("britain", 1990, "stack", branch, 0.11).likeliest for branch in (0.04, 0.11)
    ]
    assert likeliest == ["boss", "swept branch"]


def test_two_way_cleanout_has_a_throat_each_way(tables):
    entry = tables.openings["two-way cleanout"].entry
    assert [step.to for step in entry] == ["both", "down", "up"]


def test_typical_sizes(tables):
    """The usual house drain is 4 in; the smallest stack for a toilet is 3 in (common practice)."""
    assert tables.typical_size("north america", "drain").value == pytest.approx(0.1016)
    assert tables.typical_size("north america", "stack").value == pytest.approx(0.0762)


def test_regions_name_the_same_things(tables):
    assert set(tables.words("britain")) == set(tables.words("north america"))
    assert tables.words("britain")["toilet"] != tables.words("north america")["toilet"]


def test_interceptor_is_named_apart(tables):
    """In Britain it is a disconnecting trap, in North America a grease tank (common practice)."""
    grease, trap = tables.stoppers["grease tank"].words, tables.stoppers["disconnecting trap"].words
    assert "interceptor" in grease["north america"]
    assert "interceptor" not in grease["britain"]
    assert "interceptor" in trap["britain"]
    assert "interceptor" not in trap["north america"]


def test_openings_that_are_none(tables):
    """A standpipe's trap is in the wall, a rodding eye looks downstream only (common practice)."""
    assert not tables.openings["washing-machine standpipe"].usable
    assert tables.openings["rodding eye"].reaches == ("down",)
    assert set(tables.openings["two-way cleanout"].reaches) == {"up", "down"}
    for kind in tables.openings.values():
        for way in kind.reaches:
            assert any(step.to in (way, "both") for step in kind.entry), kind.name


@pytest.mark.parametrize("region", REGIONS)
@pytest.mark.parametrize("place", ["stack", "branch", "vent", "drain", "sewer"])
@pytest.mark.parametrize("year", [None, 1900, 1959, 1960, 1974, 2020])
def test_materials_are_laid_in_their_years(tables, region, place, year):
    chances = tables.likely_material(region, year, place)
    assert sum(share for _, share in chances.options) == pytest.approx(1)
    for name, share in chances.options:
        material = tables.materials[name]
        if year is not None and material.laid_to is not None and share > 0.05:
            # Laid no later than its last year; a house may have been drained anew later than built.
            assert year <= material.laid_to + 15, (name, year)


def test_unknown_year_lies_between_the_ages(tables):
    def iron(year):
        return dict(tables.likely_material("north america", year, "stack").options)["cast iron"]

    assert iron(2000) < iron(None) < iron(1940)


def test_unknown_year_weighs_by_the_age_of_buildings():
    """Worked by hand: 30 % built before 1960 and, half way from 1960 to 1980, half as much again."""
    stock = Stock(((1920.0, 0.1), (1960.0, 0.3), (1980.0, 0.5), (2030.0, 1.0)))
    steps = Steps(((1960.0, (("iron", 1.0),)), (1970.0, (("lead", 1.0),)), (math.inf, (("pvc", 1.0),))))
    chances = steps.chances(None, stock, Evidence(Grade.JUDGEMENT, "own"))
    assert dict(chances.options) == pytest.approx({"iron": 0.3, "lead": 0.1, "pvc": 0.6})
    at = {year: steps.chances(year, stock, chances.evidence).likeliest for year in (1959, 1960, 1970)}
    assert at == {1959: "iron", 1960: "lead", 1970: "pvc"}  # "until" leaves its own year out
    assert stock.before(1900.0) == pytest.approx(0.05)


def test_a_row_of_its_own_goes_before_that_of_its_wall(tables):
    assert tables.bore_factor("pitch fibre", "sound") != tables.bore_factor("clay", "sound")
    assert tables.bore_factor("galvanised steel", "heavy scale").evidence.grade == "practice"


def test_aliases_and_case(tables):
    assert tables.material("Galvanized").name == "galvanised steel"
    assert tables.material_name("CAST IRON") == "cast iron"


@pytest.mark.parametrize("material", MATERIALS.split(", "))
def test_worse_condition_leaves_less_and_rubs_more(tables, material):
    ladder = ["sound", "light scale", "moderate scale", "heavy scale"]
    left = [tables.bore_factor(material, condition).likely for condition in ladder]
    rub = [tables.friction(material, condition, True).likely for condition in ladder]
    assert left == sorted(left, reverse=True)
    assert left[-1] < left[0]
    assert rub == sorted(rub)
    for condition in (*ladder, "greasy", "roots", "unknown"):
        wet, dry = (tables.friction(material, condition, w) for w in (True, False))
        either = tables.friction(material, condition, None)
        assert wet.likely < either.likely < dry.likely
        assert either.low <= wet.low
        assert either.high >= dry.high
        assert 0 < tables.bore_factor(material, condition).high <= 1


def test_galvanised_heavy_leaves_under_an_inch(tables):
    """Old 1-1/2 in galvanised with heavy build-up is often left under an inch (common practice)."""
    bore = tables.bore("galvanised steel", 0.0381)
    left = tables.bore_factor("galvanised steel", "heavy scale").likely * bore.value
    assert left < 0.0254


@pytest.mark.parametrize("region", REGIONS)
@pytest.mark.parametrize("year", [None, 1940, 2010])
def test_unknown_fittings_are_fittings(tables, region, year):
    for turning in ("level", "down", "up", "vent"):
        for name, _ in tables.likely_bend(region, year, turning).options:
            assert name in tables.bends
    for lie in ("stack", "flat", "drop", "vent"):
        for branch in (0.03, 0.1):
            for name, _ in tables.likely_junction(region, year, lie, branch, 0.1).options:
                assert name in tables.junctions
                if lie != "vent":
                    assert name not in ("vent tee", "vent cross")


def test_what_is_to_be_brought_has_one_name_each():
    """Else a list says to bring a spare plug and spare plugs, cover keys and lifting keys."""
    names = {name for kind in jobs.tables().openings.values() for name in kind.bring}
    names |= {name for rule in jobs.rules().all_rules for name in rule.conclusion.bring}
    assert not {name for name in names if f"{name}s" in names or name.startswith("two ")}
    assert {name for name in names if "keys" in name} == {"cover keys"}
