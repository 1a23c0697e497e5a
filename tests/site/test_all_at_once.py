"""Faults of every sort are told together, and one slip is told once."""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.routes.enumerate import routes_to
from advisor.site.build import network_of
from advisor.site.network import likely
from advisor.site.sheet import site_of_text
from advisor.site.target import target_of
from tests.cases.jobs import tables

SHEET = """\
site: a small house
region: north america
built: 1960
lines:
  - line: drain
    size: 4 in
    material: pvc
    pieces:
      - opening: upper plug
        kind: end cleanout
      - pipe: 10 ft
      - joined by: side line
        fitting: wye
        side: left
      - pipe: 10 ft
      - end: public sewer
  - line: side line
    size: 3 in
    pieces:
      - fixture: basin
      - pipe: 6 ft
task:
  look at: drain
  complaint: {slow: [basin], holding: no}
"""


def faults(*changes: str) -> list[tuple[int, str]]:
    text = SHEET
    for old, new in zip(changes[::2], changes[1::2], strict=True):
        assert old in text
        text = text.replace(old, new)
    with pytest.raises(BadInput) as caught:
        site_of_text(text, "site", tables())
    return [(fault.line, fault.message) for fault in caught.value.faults]


def test_five_faults_of_five_sorts_are_five_lines():
    found = faults(
        "built: 1960", "built: no",
        "material: pvc", "material: pvd",
        "fitting: wye", "fitting: wey",
        "pipe: 6 ft", "pipe: 6",
        "slow: [basin]", "slow: [basim]",
    )  # fmt: skip
    assert [line for line, _ in found] == [3, 7, 13, 21, 24]
    for (_, message), words in zip(found, ["'no'", "'pvc'", "'wye'", "no unit", "'basin'"], strict=True):
        assert words in message


def test_a_wrong_choice_and_a_wrong_name_together():
    found = faults("side: left", "side: lefft", "joined by: side line", "joined by: side lime")
    assert (14, "side: got 'lefft'; did you mean 'left'?") in found
    assert any(line == 12 and "did you mean 'side line'" in message for line, message in found)


def test_a_name_in_two_lists_at_odds_is_not_taken_out_of_one_to_be_missed_in_the_third():
    ((line, message),) = faults("slow: [basin]", "slow: [basin], fine: [basin], tested with volume: [basin]")
    assert line == 24
    assert "cannot run fine and be slow" in message


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("region: north america", "regoin: north america", 2, "did you mean 'region'"),
        ("- pipe: 6 ft", "- pip: 6 ft", 21, "did you mean 'pipe'"),
        ("fitting: wye", "fiting: wye", 13, "did you mean 'fitting'"),
        ("kind: end cleanout", "kynd: end cleanout", 10, "did you mean 'kind'"),
        ("line: side line", "lines: side line", 17, "did you mean 'line'"),
        ("- opening: upper plug", "- openning: upper plug", 9, "did you mean 'opening'"),
    ],
)
def test_one_slip_is_one_line(old, new, line, words):
    (found,) = faults(old, new)
    assert found[0] == line
    assert words in found[1]


def test_two_fixtures_of_one_kind_without_labels_have_an_arm_each():
    text = SHEET.replace(
        "      - pipe: 10 ft\n      - end",
        "      - fixture: bath\n      - pipe: 10 ft\n      - fixture: bath\n      - pipe: 10 ft\n      - end",
    )
    sheet = site_of_text(text, "site", tables())
    network, target = target_of(sheet, network_of(sheet, tables()))
    assert all(network.links[other] == one for one, other in network.links.items())
    # Each arm runs into its own junction, 10 ft apart, on a drain of 10 + 10 + 10 ft (1 ft = 0.3048 m).
    covers = {
        r.opening.id: r.covers
        for r in routes_to(network, target, tables())[0]
        if r.passages[-1].enters == "up" and r.opening.name == "bath"
    }
    assert sorted(covers.values()) == pytest.approx([1 / 3, 2 / 3])
    assert sum(likely(network.pieces[key].length) for key in network.lines["drain"]) == pytest.approx(
        30 * 0.3048
    )
