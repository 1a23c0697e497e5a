"""A hard spot within the opening itself, on the plan screen."""

from __future__ import annotations

from advisor.terminal.page import Page
from advisor.terminal.way_screen import show_way_in
from tests.card.cards import DEMOS, made


def test_a_spot_within_the_opening_is_told_to_be_there(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "200")
    plan_, units = made(DEMOS[0])
    first = plan_.routes[0]
    zero = {"at_m": 0.0, "at_low_m": 0.0, "at_high_m": 0.0}
    spot = first.passages[0].model_copy(update=zero)
    moved = first.model_copy(update={"passages": (spot, *first.passages[1:])})
    show_way_in(plan_.model_copy(update={"routes": (moved, *plan_.routes[1:])}), units, Page())
    lines = [line.strip() for line in capsys.readouterr().out.splitlines()]
    assert f"At the opening: {spot.name}, {spot.direction} the flow" in lines
    assert not [line for line in lines if "0 in (0 in to 0 in)" in line]
