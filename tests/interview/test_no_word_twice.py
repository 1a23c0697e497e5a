"""A question names an opening of a typical building without saying a word of its name again."""

from __future__ import annotations

import re

from advisor.archetype.building import archetypes
from advisor.interview.question import load_questions
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables


def test_no_opening_is_asked_for_as_a_part_of_itself():
    """It asked for the valve of the valve on the stub stack."""
    opens = load_questions(rules_dir(), tables(), rules()).by_id["opening-opens"]
    pieces = [
        piece
        for building in archetypes(rules_dir(), tables())
        for line in building.tree["lines"]
        for piece in line["pieces"]
        if piece.get("kind") in opens.of_kind and "opening" in piece
    ]
    assert pieces
    for piece in pieces:
        text = opens.of_kind[piece["kind"]].format(name=piece["opening"])
        assert not re.search(r"\b(\w+) of the \1\b", text), text
