"""An opening that may not be there at all."""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.explain.matters import what_matters
from advisor.interview.sketch import sketch
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables
from tests.result.test_plan import KIT

SHEET = """
site: by hand
region: north america
map: measured
lines:
  - line: drain
    size: 4 in
    material: pvc
    condition: sound
    slope: 2 %
    pieces:
      - opening: plug
        kind: end cleanout
{there}
      - pipe: 4 ft
        landmark: wall
      - pipe: 20 ft
      - end: public sewer
task: {{look at: "drain, 1 ft below wall", complaint: {{holding: no}}}}
"""
N = 4000


def study(there: str, opens: str = ""):
    rows = "\n".join(
        f"        {row}" for row in (there and f"there: {there}", opens and f"opens: {opens}") if row
    )
    sheet = site_of_text(SHEET.format(there=rows), "sheet", tables())
    return plan(Case(sheet, KIT, Units.INCH, N), tables(), rules())


def chance(*about: str) -> float:
    ranked = study(*about).ranked
    return ranked[0].outcome.chance if ranked else 0.0


def test_the_chance_of_its_being_there_multiplies_the_chance_that_it_opens():
    whole, doubted = chance("yes"), chance("40 %")
    # Binomial error of a share of N, four standard deviations.
    assert doubted == pytest.approx(0.4 * whole, abs=4 * (0.24 / N) ** 0.5)
    assert chance("") == whole == chance("100 %")


def test_what_is_not_there_is_nowhere():
    """Not a way in, not a landmark, no end of a stretch to look at; only its name still marks the place."""
    pit = "      - opening: yard pit\n        kind: two-way cleanout\n{there}"
    text = SHEET.format(there="        there: yes").replace(
        "      - pipe: 20 ft\n", f"      - pipe: 5 ft\n{pit}      - pipe: 15 ft\n"
    )
    there, gone = (
        network_of(site_of_text(text.replace("{there}", row), "s", tables()), tables())
        for row in ("", "        there: no\n")
    )
    assert [p.name for p in there.openings()] == ["plug", "yard pit"]
    assert [p.name for p in gone.openings()] == ["plug"]
    (place,) = [piece for piece in gone.pieces.values() if piece.name == "yard pit"]
    assert place.absent
    assert place.landmark is None
    assert not any(piece.absent for piece in there.pieces.values())
    assert "no opening: yard pit is not there" in " ".join(sketch(gone, Units.INCH, 60))
    assert sum(p.along for p in gone.pieces.values()) == sum(p.along for p in there.pieces.values())
    stretch = text.replace("{there}", "        there: no\n").replace(
        "drain, 1 ft below wall", "drain, from yard pit to public sewer"
    )
    assert plan(Case(site_of_text(stretch, "s", tables()), KIT, Units.INCH, 100), tables(), rules()).ranked


def test_no_is_no():
    assert chance("no") == chance("0 %") == 0


def test_whoever_has_opened_it_has_seen_it():
    assert chance("40 %", "yes") == chance("yes", "yes")


def test_it_is_told_as_assumed_and_matters():
    made = study("40 %")
    notes = {each.about: each for each in made.network.assumed}
    assert notes["whether there is a plug"].belief.value == 0.4
    assert network_of(site_of_text(SHEET.format(there=""), "s", tables()), tables()).assumed == ()
    assert "whether plug, drain is there" in {each.unknown for each in what_matters(made)}


@pytest.mark.parametrize("wrong", ["perhaps", "140 %", "-1", "[]", "3 ft"])
def test_nonsense_is_refused(wrong):
    with pytest.raises(
        BadInput, match=r"sheet:14: there: .*expected yes, no, a share such as 50 %, or unknown"
    ):
        study(wrong)
