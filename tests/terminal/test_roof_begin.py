"""Going up: while nobody has told of a safe way onto the roof, that is told beside the opening, boxed."""

from __future__ import annotations

from functools import cache

import pytest

from advisor.card.build import card_of
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.study import Study
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from advisor.terminal.push import begin
from advisor.terminal.push.asks import Asks
from advisor.terminal.push.gates import Gates
from advisor.terminal.push.remind import remind
from tests.cases.jobs import kit_text, rules, tables
from tests.terminal.test_cautions_shown import boxes
from tests.terminal.test_gear_begin import KIT

HOUSE = """
site: invented
region: north america
{SAFE}map: measured
lines:
  - line: house drain
    size: 3 in
    material: pvc
    pieces:
      - opening: roof hole
        kind: roof vent
      - drop: 4 m
      - bend: long sweep
      - pipe: 5 m
      - opening: yard plug
        kind: end cleanout
      - pipe: 5 m
      - end: public sewer
task: {look at: house drain, complaint: {holding: no, chemicals: no}}
"""
NOBODY = "Nobody goes up until a safe way is seen."


@cache
def study(safe: str = "", region: str = "north america", gear: str = "") -> Study:
    text = HOUSE.replace("{SAFE}", safe and f"roof safe: {safe}\n").replace("north america", region)
    kit = kit_of(kit_of_text(gear or kit_text(), "kit"), tables())
    return plan(Case(site_of_text(text, "site", tables()), kit, Units.INCH, 200), tables(), rules())


@pytest.fixture
def ready(monkeypatch, capsys):
    """What is boxed once the opening and the gear are chosen."""
    monkeypatch.setenv("COLUMNS", "90")
    monkeypatch.setattr(begin, "choose", lambda *_: "b")

    def run(of: Study, opening: str) -> dict[str, str]:
        asked = begin._Begin(of, Page(), None, (), plan_of(of).cautions)
        asked.opening, asked.loadout = opening, of.kit.loadouts[0].name
        capsys.readouterr()
        assert asked._ready() is False
        found = boxes(capsys.readouterr().out.splitlines())
        return {word: " ".join(lines) for word, lines in found.items()}

    return run


@pytest.mark.parametrize("region", ["north america", "britain"])
def test_before_going_up_it_is_told_that_nobody_has_seen_a_safe_way(ready, region):
    told = ready(study("", region), "roof hole")["WARNING"]
    assert "Not known whether there is a safe way onto the roof." in told
    assert NOBODY in told
    assert "A fall from the roof can kill." in told


def test_a_roof_that_is_told_unsafe_keeps_its_caution(ready):
    """Pushed there all the same, against the plan: the caution stands."""
    told = ready(study("no"), "roof hole")["WARNING"]
    assert NOBODY in told
    assert "Not known" not in told


def test_a_roof_that_is_told_safe_keeps_the_caution_of_a_fall_and_asks_no_more(ready):
    told = ready(study("yes"), "roof hole")["WARNING"]
    assert "A fall from the roof can kill. Fall protection on." in told
    assert NOBODY not in told


def test_nothing_of_a_roof_where_nobody_goes_up(ready):
    assert " roof" not in " ".join(ready(study(), "yard plug").values())


@pytest.mark.parametrize(("opening", "boxed"), [("roof hole", True), ("yard plug", False)])
def test_whoever_goes_on_with_an_open_push_is_told_again(opening, boxed, capsys, monkeypatch):
    """It may be somebody else, on another day."""
    monkeypatch.setenv("COLUMNS", "90")
    of = study()
    remind(of, opening, of.kit.loadouts[0].name, (), asked=False, page=Page())
    said = capsys.readouterr().out
    warned = " ".join(boxes(said.splitlines()).get("WARNING", []))
    assert (NOBODY in warned) == boxed
    assert ("A fall from the roof can kill." in warned) == boxed
    grave = [note.text for note in plan_of(of).cautions if note.word in ("danger", "warning")]
    assert grave
    for text in grave:
        assert text in " ".join(" ".join(lines) for lines in boxes(said.splitlines()).values())


def test_the_plan_asks_for_it_the_right_way_round(capsys):
    """The hazard is there if the answer is no; of gas it is there if the answer is yes."""
    made = plan_of(study())
    assert made.routes[0].opening == "roof hole"
    show_plan(made, Units.INCH, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "Ask whether there is a safe way onto the roof. If not, WARNING: A fall" in said
    assert "Ask whether it smells of gas. If so, DANGER" in said
    assert not plan_of(study("yes")).routes[0].ask


def test_the_card_of_the_way_from_the_roof_asks_for_it_and_no_other():
    made = plan_of(study())
    for route in made.routes:
        card = card_of(made, route, tables().card, Units.INCH, "2026-03-04", True)
        asked = [line.text for b in card.blocks if b.title == "Not known: ask first" for line in b.lines]
        up = [
            text
            for text in asked
            if text.startswith("There is a safe way onto the roof? If not, WARNING: A fall")
        ]
        assert bool(up) is (route.opening == "roof hole")


@pytest.fixture
def begun(monkeypatch, capsys):
    """What a push from the roof begins with, as it is answered; None where nothing is begun."""

    def run(of: Study, opening: str, no_longer: str = "n", who: str | None = None):
        keys = {"Is that no longer so?": no_longer, "Done what comes before": "y", "Is it open now?": "y"}
        asks, left = Asks(Page(), Units.INCH), iter((opening, None))  # asked once more, it is left
        gear = of.kit.loadouts[0].name
        monkeypatch.setattr(
            begin, "choose", lambda _, asked, *__: next((k for q, k in keys.items() if q in asked), "s")
        )
        monkeypatch.setattr(begin, "type_in", lambda _, asked, *__: who if "Who saw" in asked else "")

        def one_of(question: str, names, *_):
            print(question)
            if "What goes in" in question:
                return next(name for name in names if name.startswith(gear))
            wanted = next(left)
            return wanted and next(name for name in names if name.startswith(wanted))

        monkeypatch.setattr(asks, "one_of", one_of)
        monkeypatch.setattr(asks, "counter", lambda *_: 0.0)
        capsys.readouterr()
        found = begin.begin(of, Page(), asks, (), Gates("nobody smells gas", None), lambda _: of)
        return found, " ".join(capsys.readouterr().out.split())

    return run


@pytest.mark.parametrize("who", [None, "Pip: dry, ladder tied"])
def test_what_is_ruled_out_for_safety_is_begun_only_once_somebody_has_seen_otherwise(begun, who):
    found, said = begun(study("no", gear=KIT), "roof hole", "y" if who else "n", who)
    assert "roof hole is ruled out: nobody goes on the roof" in said
    if who is None:
        assert found is None
        assert "Nothing is begun at roof hole." in said
        return
    _, start = found
    assert start["opening"] == "roof hole"
    assert "nobody smells gas; roof hole was ruled out" in start["told"]
    assert who in start["told"]
    assert "None is planned here." in said
    assert "The first is planned." not in said


def test_a_yes_that_nobody_signs_begins_nothing(begun):
    found, _ = begun(study("no"), "roof hole", "y", None)
    assert found is None


def test_what_is_not_ruled_out_is_asked_nothing_of_the_kind(begun):
    (_, start), said = begun(study("no", gear=KIT), "yard plug")
    assert start["told"] == "nobody smells gas"
    assert "is ruled out:" not in said
    assert "The first is planned." in said
