# ruff: noqa: E501 (one piece of pipe after another reads best on one line)
"""Everything a drain may hold can be written down, is laid out as it lies, and can be planned through."""

from __future__ import annotations

from math import pi

import pytest

from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.study import Study
from advisor.routes.enumerate import routes_to
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

HEAD = "site: one thing\nregion: {region}\nmap: measured\nlines:\n"


def studied(lines: str, look_at: str, region: str = "north america") -> Study:
    text = (
        HEAD.format(region=region) + lines + f'task: {{look at: "{look_at}", complaint: {{holding: no}}}}\n'
    )
    case = Case(site_of_text(text, "site", tables()), default_kit(tables()), Units.METRIC, 200)
    study = plan(case, tables(), rules())
    plan_of(study)
    return study


def openings(study: Study) -> dict[str, float]:
    """Each opening that leads to the target, with its best chance."""
    found: dict[str, float] = {}
    for ranked in study.ranked:
        name = ranked.outcome.route.opening.name
        found[name] = max(found.get(name, 0.0), float(ranked.outcome.walk.arrived.mean()))
    return found


def line(name: str, *pieces: str, size: str = "100 mm", **more: str) -> str:
    entries = "".join(f"    {key.replace('_', ' ')}: {value}\n" for key, value in more.items())
    rows = "".join(f"      - {piece}\n" for piece in pieces)
    return f"  - line: {name}\n    size: {size}\n    material: pvc\n    condition: sound\n{entries}    pieces:\n{rows}"


PLUG, END = "{opening: plug, kind: end cleanout}", "{end: public sewer}"


def test_rolling_offset():
    study = studied(
        line("run", PLUG, "{pipe: 2 m}", "{bend: 1/8 bend}", "{pipe: 200 mm}", "{bend: 1/8 bend, roll: 90 deg}", "{pipe: 2 m}", END),
        "run",
    )  # fmt: skip
    assert study.ranked[0].outcome.march.end.bends == 2
    rolls = [piece.roll.value for piece in study.network.pieces.values() if piece.roll is not None]
    assert rolls == pytest.approx([pi / 2])


def test_wye_and_eighth_bend_into_a_stack():
    study = studied(
        line("stack", "{opening: vent, kind: roof vent}", "{drop: 3 m}", "{joined by: arm, fitting: wye and 1/8 bend}", "{drop: 3 m}", END)
        + line("arm", PLUG, "{pipe: 1 m}"),
        "where arm joins",
    )  # fmt: skip
    piece = next(p for p in study.network.pieces.values() if p.branch == "arm")
    assert piece.lie == "stack"
    assert set(openings(study)) == {"vent", "plug"}


def test_backdrop():
    study = studied(
        line("main", PLUG, "{pipe: 3 m}", "{joined by: high line, fitting: backdrop}", "{pipe: 3 m}", END)
        + line("high line", "{opening: high plug, kind: end cleanout}", "{pipe: 2 m}"),
        "main, from high line to public sewer",
        "britain",
    )  # fmt: skip
    assert "high plug" in openings(study)


def test_dead_leg_is_no_opening_and_a_wrong_way():
    study = studied(
        line("main", PLUG, "{pipe: 3 m}", "{joined by: dead leg, fitting: wye}", "{pipe: 3 m}", END)
        + line("dead leg", "{capped: yes}", "{pipe: 600 mm}"),
        "main",
    )
    assert set(openings(study)) == {"plug"}


def test_second_main():
    study = studied(
        line("front main", PLUG, "{pipe: 3 m}", END)
        + line("back main", "{opening: back plug, kind: end cleanout}", "{pipe: 3 m}", END),
        "back main",
    )
    assert set(openings(study)) == {"back plug"}


@pytest.mark.parametrize("other", ["neighbour's drain", "rain line", "primer line"])
def test_lines_that_join_but_are_not_drawn(other):
    study = studied(
        line("main", PLUG, "{pipe: 3 m}", f"{{joined by: {other}, drawn: no}}", "{pipe: 3 m}", END), "main"
    )
    ways = [s.turn.way for s in study.ranked[0].outcome.geometries if s.passage.piece.branch == other]
    assert ways == ["past"]


@pytest.mark.parametrize(
    ("kind", "region"),
    [
        ("wall-hung toilet carrier", "north america"),
        ("P-outlet toilet", "britain"),
        ("toilet flange", "north america"),
        ("gully", "britain"),
        ("floor drain", "north america"),
        ("wall cleanout", "north america"),
        ("stack access door", "britain"),
        ("house trap street-side plug", "north america"),
        ("disconnecting trap rodding arm", "britain"),
    ],
)
def test_openings(kind, region):
    study = studied(line("run", f"{{opening: way in, kind: {kind}}}", "{pipe: 3 m}", END), "run", region)
    assert openings(study)["way in"] > 0


def test_stack_that_ends_in_an_air_admittance_valve():
    study = studied(
        line("stack", "{opening: valve, kind: air admittance valve}", "{drop: 3 m}", END, size="110 mm"),
        "stack",
        "britain",
    )
    assert openings(study)["valve"] > 0


def test_standpipe_with_its_trap_in_the_wall_is_no_opening():
    study = studied(
        line("main", PLUG, "{pipe: 2 m}", "{joined by: laundry, fitting: wye}", "{pipe: 2 m}", END)
        + line(
            "laundry", "{fixture: washing machine, trap: in wall}", "{drop: 1 m}", "{pipe: 1 m}", size="50 mm"
        ),
        "main, from laundry to public sewer",
    )
    assert set(openings(study)) == {"plug"}


@pytest.mark.parametrize(
    ("key", "name", "region"),
    [
        ("trap", "drum trap", "north america"),
        ("trap", "house trap", "north america"),
        ("trap", "disconnecting trap", "britain"),
        ("trap", "P-trap", "north america"),
        ("valve", "backwater valve", "north america"),
        ("valve", "check valve", "north america"),
        ("tank", "grease tank", "north america"),
        ("tank", "septic tank", "north america"),
        ("tank", "ejector", "north america"),
    ],
)
def test_stoppers_end_the_way(key, name, region):
    study = studied(line("run", PLUG, "{pipe: 2 m}", f"{{{key}: {name}}}", "{pipe: 2 m}", END), "run", region)
    assert study.ranked[0].outcome.chance == 0
    assert plan_of(study).cannot[0].passage.startswith(tables().stoppers[name].words[region])


def test_each_plug_of_a_house_trap_leads_away_from_the_trap():
    study = studied(
        line(
            "drain",
            "{opening: top, kind: end cleanout}",
            "{pipe: 3 m}",
            "{opening: house plug, kind: house trap house-side plug}",
            "{trap: house trap}",
            "{opening: street plug, kind: house trap street-side plug}",
            "{pipe: 3 m}",
            END,
        ),
        "drain",
    )
    ways = {
        (r.opening.name, r.passages[0].leaves) for r in routes_to(study.network, study.wanted, tables())[0]
    }
    assert ("house plug", "up") in ways
    assert ("street plug", "down") in ways
    assert not {("house plug", "down"), ("street plug", "up")} & ways


def test_ejector_with_its_check_valve_and_rise_ends_the_way_from_either_side():
    pieces = (
        "{fixture: basin}",
        "{pipe: 2 m}",
        "{tank: ejector}",
        "{valve: check valve}",
        "{rise: 2 m}",
        "{pipe: 2 m}",
    )
    study = studied(
        line("main", PLUG, "{pipe: 3 m}", "{joined by: pumped, fitting: wye}", "{pipe: 3 m}", END)
        + line("pumped", *pieces, size="50 mm"),
        "pumped",
    )
    stops = {(r.outcome.route.opening.name, r.outcome.chance) for r in study.ranked}
    assert stops
    assert all(chance == 0 for _, chance in stops)


def test_rodding_arm_passes_by_the_disconnecting_trap():
    study = studied(
        line(
            "drain",
            "{opening: chamber, kind: inspection chamber}",
            "{trap: disconnecting trap}",
            "{opening: rodding arm, kind: disconnecting trap rodding arm}",
            "{pipe: 6 m}",
            END,
        ),
        "drain, from rodding arm to public sewer",
        "britain",
    )
    found = openings(study)
    assert found["chamber"] == 0
    assert found["rodding arm"] > 0.5
