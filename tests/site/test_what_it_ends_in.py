"""What a line ends in: a name that no table has is told, and what may hold the head keeps its limit."""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.result.build import plan_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import kit_text, studied, tables

DRAIN = """
site: an invented lane house
region: britain
map: guess
septic: SEPTIC
lines:
  - line: drain
    kind: drain
    size: 100 mm
    material: clay
    pieces:
      - opening: yard chamber
        kind: inspection chamber
      - pipe: 6 m
      - opening: lower chamber
        kind: inspection chamber
      - pipe: 9 m
      - end: END
RAIN
task:
  look at: drain, from yard chamber to lower chamber
  complaint: {holding: no, chemicals: no, gas smell: no}
"""
RAIN = """  - line: rain line
    kind: rain
    size: 100 mm
    pieces:
      - opening: rain gully
        kind: gully
      - pipe: 4 m
      - end: soakaway
"""


def sheet(end, septic="unknown", rain=""):
    return DRAIN.replace("END", end).replace("SEPTIC", septic).replace("RAIN\n", rain)


def ends(end, septic="unknown", rain=""):
    """What the last piece of each line holds a head as, and whether the job has the danger of tank gas."""
    study = studied(sheet(end, septic, rain), kit_text(), 20)
    held = {piece.line: piece.holds for piece in study.network.pieces.values() if piece.kind == "end"}
    return held, study.site_facts["site.septic"]


@pytest.mark.parametrize(
    ("end", "told"),
    [
        ("septik tank", "did you mean 'septic tank'?"),
        ("septic", "did you mean 'septic tank'?"),
        ("public sewr", "did you mean 'public sewer'?"),
        ("cesspool", "in a sheet it is 'cesspit'"),
        ("moon", "known: cesspit, "),
        ("tank by the lane", "known: cesspit, "),
    ],
)
def test_an_end_that_no_table_has_is_told_in_its_line(end, told):
    with pytest.raises(BadInput) as raised:
        site_of_text(sheet(end, "yes"), "site", tables())
    (fault,) = raised.value.faults
    assert (fault.line, f"unknown end '{end}'" in fault.message, told in fault.message) == (18, True, True)


@pytest.mark.parametrize(
    ("end", "holds", "gas"),
    [
        ("Septic Tank", "septic tank", True),
        ("old septic tank 2", "septic tank", True),
        ("cesspit", "cesspit", True),
        ("unknown", "unknown end", None),
        ("ejector", "ejector", None),
        ("old public sewer", None, None),
        ("soakaway", None, None),
        ("drain", None, None),
    ],
)
def test_the_last_words_of_an_end_say_what_it_is(end, holds, gas):
    assert ends(end) == ({"drain": holds}, gas)


@pytest.mark.parametrize("end", ["public sewer", "soakaway", "unknown", "septic tank"])
def test_a_septic_tank_that_is_told_and_not_drawn_is_at_the_end(end):
    """Whoever says that there is one and draws another end keeps limit and danger."""
    assert ends(end, "yes", RAIN) == ({"drain": "septic tank", "rain line": None}, True)
    routes = plan_of(studied(sheet(end, "yes"), kit_text(), 20)).routes
    (limit,) = (each.not_past for each in routes if each.opening == "yard chamber")
    assert (limit.name, limit.holds) == ("septic tank", True)


def test_a_tank_that_is_drawn_in_the_line_is_the_one_that_is_told():
    """Behind it the field or the soakaway holds nothing."""
    drawn = sheet("soakaway", "yes").replace(
        "- pipe: 9 m", "- pipe: 8 m\n      - tank: septic tank\n      - pipe: 1 m"
    )
    study = studied(drawn, kit_text(), 20)
    assert {p.holds for p in study.network.pieces.values() if p.kind == "end"} == {None}
