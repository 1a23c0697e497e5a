"""The reels that stand for a kit nobody measured pass what such reels pass every day, and no more.

Common practice, from memory, no source: a small reel of 30 m passes two or three quarter bends in 2 to 3 in
pipe; a large reel of 60 m three or four long sweeps in 4 in. Past some four quarter turns a push is over.
"""

from __future__ import annotations

import pytest

from advisor.kit.loadouts import default_kit
from advisor.outcome.assess import RouteOutcome
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

LIKELY, EVEN = 0.6, 0.4  # as rules/tables/limits.yaml has the words


def pushed(reel: str, size: str, bends: list[str], opening: str = "end cleanout") -> RouteOutcome:
    """Down a clean plastic drain that is all known, a bend after each 6 ft."""
    turns = "".join(f"      - pipe: 6 ft\n      - bend: {bend}\n" for bend in bends)
    text = (
        "site: clean\nregion: north america\nbuilt: 1990\nmap: measured\nlines:\n  - line: drain\n"
        f"    kind: drain\n    size: {size}\n    material: pvc\n    condition: sound\n    pieces:\n"
        f"      - {{opening: way in, kind: {opening}, opens: yes, there: yes}}\n{turns}"
        "      - pipe: 20 ft\n      - end: public sewer\n"
        "task: {look at: drain, complaint: {holding: no}}\n"
    )
    case = Case(site_of_text(text, "clean", tables()), default_kit(tables()), Units.INCH, 300)
    return next(o for o in plan(case, tables(), rules()).outcomes if o.loadout.name == reel)


@pytest.mark.parametrize(
    ("reel", "size", "bends", "least"),
    [
        ("small reel", "2 in", ["1/4 bend"] * 2, EVEN),
        ("small reel", "3 in", ["1/4 bend"] * 2, LIKELY),
        ("small reel", "3 in", ["1/4 bend"] * 3, EVEN),
        ("large reel", "4 in", ["long sweep"] * 3, LIKELY),
        ("large reel", "4 in", ["1/8 bend"] * 4, LIKELY),
        ("large reel", "3 in", ["1/8 bend"] * 2, LIKELY),
    ],
)
def test_what_is_passed_every_day_is_passed(reel, size, bends, least):
    assert pushed(reel, size, bends).chance >= least


@pytest.mark.parametrize("kind", ["two-way cleanout", "yard cleanout"])
def test_a_large_reel_goes_into_a_4_inch_cleanout_by_a_gentle_push(kind):
    (mouth,) = pushed("large reel", "4 in", [], kind).spots or (None,)
    assert mouth is None or mouth.spot.plain.passes.mean() >= LIKELY


@pytest.mark.parametrize(
    ("reel", "size", "bend"), [("small reel", "2 in", "1/4 bend"), ("large reel", "4 in", "long sweep")]
)
def test_no_reel_goes_round_eight_quarter_turns(reel, size, bend):
    assert pushed(reel, size, [bend] * 8).chance < 0.05
