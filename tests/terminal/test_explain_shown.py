"""Explanations on the screen where there is nothing, or nothing more, to tell."""

from __future__ import annotations

import pytest

from advisor.explain.change import Cure
from advisor.explain.matters import Matter
from advisor.explain.what_if import WhatIf
from advisor.terminal.explain_screen import show_cures, show_matters, show_what_if
from advisor.terminal.page import Page
from tests.card.cards import DEMOS, made


@pytest.fixture
def said(capsys):
    def run(show, *given) -> str:
        capsys.readouterr()
        show(*given, Page())
        return " ".join(capsys.readouterr().out.split())

    return run


def what_if(after: str, turns_at: str | None) -> WhatIf:
    return WhatIf(
        what="house drain/size = 3 in",
        leader_before="plug",
        leader_after=after,
        turns_at=turns_at,
        changes=(),
    )


def test_a_leader_that_stays_is_told_without_a_turning_point(said):
    told = said(show_what_if, what_if("plug", None))
    assert "plug leads all the same." in told
    assert "instead of" not in told
    assert "The lead changes" not in told


def test_a_leader_that_changes_is_told_with_its_turning_point_where_that_is_known(said):
    told = said(show_what_if, what_if("pit", "3.5 in"))
    assert "pit leads instead of plug." in told
    assert "The lead changes at about 3.5 in." in told
    assert "The lead changes" not in said(show_what_if, what_if("pit", None))


def test_unknowns_that_may_be_chance_are_marked_and_none_is_told(said):
    found = (
        Matter(unknown="the fitting", minutes=12.34, sure=True),
        Matter(unknown="the scale", minutes=0.56, sure=False),
    )
    told = said(show_matters, found, ())
    assert "12.3 the fitting 0.6 the scale may be chance" in told
    assert "Nothing:" not in told
    told = said(show_matters, (), ())
    assert "together" not in told
    assert "No single unknown could change what to do by half a minute." in told
    assert "minutes unknown" not in told


def test_openings_that_nobody_looked_at_may_matter_together(said):
    told = said(show_matters, (), ("yard cleanout", "floor plug"))
    assert "whether they are there, or of which kind: yard cleanout, floor plug." in told
    assert "Two such answers together may change what to do" in told


def test_a_change_is_told_with_both_chances_and_none_is_told(said):
    words = made(DEMOS[0])[0].chance_words
    cure = Cure(
        what="a smaller head", chance_before=0.1, chance_after=0.9, minutes_after=42.4, opening_after="pit"
    )
    told = said(show_cures, (cure,), words)
    assert f"a smaller head: {words.say(0.9)} instead of {words.say(0.1)}" in told
    assert "then first by pit, about 42 minutes in all" in told
    assert "None of the small changes" not in told
    assert "None of the small changes looked at adds a twentieth" in said(show_cures, (), words)
