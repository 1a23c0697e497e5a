"""What a caution says to have at hand stands among what to bring."""

from __future__ import annotations

from tests.card.cards import DEMOS, made


def test_a_plug_to_have_at_hand_is_brought():
    routes = [route for stem in DEMOS for route in made(stem)[0].routes]
    asked = [route for route in routes if any("plug at hand" in each.text for each in route.cautions)]
    assert asked
    for route in asked:
        assert "expanding test plug" in route.bring, route.opening
