"""What no advice is given for still costs a little chance; a doubtful fitting is no better than its parts."""

from __future__ import annotations

import numpy as np
import pytest

from advisor.kit.loadouts import default_kit
from advisor.outcome.assess import RouteOutcome
from advisor.plan import Case, plan
from advisor.quantity import Estimate, Units
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

HEAD = "site: one thing\nregion: north america\nmap: measured\nlines:\n"
WORLDS = 4000


def planned(lines: str, look_at: str) -> dict[str, RouteOutcome]:
    """The first loadout's outcome from each opening."""
    text = f"{HEAD}{lines}task: {{look at: '{look_at}', complaint: {{holding: no}}}}\n"
    case = Case(site_of_text(text, "site", tables()), default_kit(tables()), Units.METRIC, WORLDS)
    found: dict[str, RouteOutcome] = {}
    for outcome in plan(case, tables(), rules()).outcomes:
        found.setdefault(outcome.route.opening.name, outcome)
    return found


def drain(pieces: str) -> str:
    return (
        "  - line: drain\n    kind: drain\n    size: 4 in\n    material: pvc\n    condition: sound\n"
        "    pieces:\n"
        f"      - {{opening: top, kind: end cleanout, opens: yes}}\n{pieces}"
    )


def test_each_wye_that_is_passed_going_up_costs_two_gentle_pushes():
    """By hand: one push keeps straight on with chance k, so a wye is missed twice with (1 - k)^2 and n wyes
    are passed with (1 - (1 - k)^2)^n; k from a triangle, whose mean square gives the mean."""
    wyes = "".join(
        f"      - {{joined by: b{i}, fitting: wye, drawn: no}}\n      - pipe: 1 m\n" for i in range(4)
    )
    tail = (
        "      - {opening: foot, kind: two-way cleanout, opens: yes}\n      - pipe: 1 m\n      - end: sewer\n"
    )
    outcome = planned(drain(f"      - pipe: 1 m\n{wyes}{tail}"), "drain, from top to b0")["foot"]
    keeps = tables().limits["fork_keeps_straight"]
    assert isinstance(keeps, Estimate)
    low, likely, high = 1 - keeps.high, 1 - keeps.likely, 1 - keeps.low
    mean_square = (low**2 + likely**2 + high**2 + low * likely + likely * high + low * high) / 6
    forks = [p for p in outcome.route.passages if p.shape == "junction" and not p.turns_aside]
    assert len(forks) == 4
    through = float(np.mean(np.prod(outcome.way.easy, axis=0)))
    assert through == pytest.approx(1 - 4 * mean_square, abs=0.01)
    assert through < 0.99


def test_a_wye_against_its_sweep_is_the_same_hairpin_whether_or_not_a_tee_was_possible():
    side = (
        "  - line: side\n    size: 4 in\n    material: pvc\n    condition: sound\n    pieces:\n"
        "      - {opening: plug, kind: end cleanout, opens: yes}\n      - pipe: 1 m\n"
    )

    def up(fitting: str) -> RouteOutcome:
        main = drain(
            f"      - pipe: 1 m\n      - {{joined by: side, fitting: {fitting}}}\n      - pipe: 1 m\n"
        )
        return planned(f"{main}      - end: sewer\n{side}", "drain, from top to side")["plug"]

    told = up("wye").spots[-1]
    left_open = up("unknown").spots[-1]
    wye = [r for r in left_open.rulings if r.variant == "wye"]
    assert wye
    assert wye[0].where is not None
    doubtful = float(left_open.spot.plain.passes[wye[0].where].mean())
    assert doubtful == pytest.approx(float(told.spot.plain.passes.mean()), abs=0.02)
    assert doubtful > 0
