"""What can hurt somebody, from a plan to the screen and the card: each in its place, none lost or doubled.

The cautions are invented; where each must stand follows from its signal word alone (ANSI Z535: danger,
warning and caution are for injury, a notice is not), so no plan's own words are what is expected.
"""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from advisor.card import worth
from advisor.card.build import card_of
from advisor.card.hazards import MOST_BOXED, MOST_WARNINGS
from advisor.quantity import Units
from advisor.result.before import BeforePush
from advisor.result.build import plan_of
from advisor.result.model import AskNote, CautionNote, OpenNote, Plan
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from advisor.terminal.push import begin, gates
from tests.card.cards import DATE, DEMOS, made
from tests.cases.jobs import tables
from tests.cases.test_every_rule import studied


def note(word: str, name: str) -> CautionNote:
    return CautionNote(id=name, word=word, text=f"Mind the {name}.")


SITE = (note("danger", "vapour"), note("warning", "ladder"), note("caution", "lid"), note("notice", "paint"))
WAY = (note("danger", "shaft"), note("warning", "ladder"), note("caution", "edge"), note("notice", "hose"))
# Under each word what is told of the site and of the leading way, the same hazard once.
BOXES = {
    "DANGER": ["Mind the vapour.", "Mind the shaft."],
    "WARNING": ["Mind the ladder."],
    "CAUTION": ["Mind the lid.", "Mind the edge."],
}


@pytest.fixture
def plan_() -> Plan:
    whole = made(DEMOS[0])[0]
    first, *others = whole.routes
    leader = first.model_copy(update={"cautions": WAY, "passages": ()})
    asked = (AskNote(about=("the pit is deep", "it is open"), caution=note("danger", "pit")),)
    routes = (leader, *(r.model_copy(update={"cautions": (note("danger", "elsewhere"),)}) for r in others))
    return whole.model_copy(update={"cautions": SITE, "routes": routes, "ask": asked, "how": ("Wait.",)})


@pytest.fixture
def screen(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "90")

    def shown(plan_: Plan) -> list[str]:
        capsys.readouterr()
        show_plan(plan_, Units.INCH, Page())
        return capsys.readouterr().out.splitlines()

    return shown


def test_what_can_hurt_stands_before_what_is_to_be_done(screen, plan_):
    """Common practice, no source: whoever does as he reads has read the danger before the step."""
    plug = {"opening": "plug", "kind": "plug", "place": "floor", "ask": (), "cautions": ()}
    opened = OpenNote(**plug, steps=("Crack it open.",))
    told = screen(plan_.model_copy(update={"camera_now": False, "to_open": (opened,)}))
    hurts = max(at for at, line in enumerate(told) if "Mind the vapour." in line)
    does = [at for at, line in enumerate(told) if "Wait." in line or "Crack it open." in line]
    assert len(does) == 2
    assert hurts < min(does)


def boxes(lines: list[str]) -> dict[str, list[str]]:
    """What stands in each box, by the word on its upper edge."""
    found: dict[str, list[str]] = {}
    inside = None
    for line in (each.strip() for each in lines):
        if line[:1] in ("┏", "┌", "+") and (words := line.strip("┏━┓┌─┐+- ")):
            inside = found.setdefault(words, [])
        elif line[:1] in ("┗", "└"):
            inside = None
        elif inside is not None:
            inside.append(line.strip("┃│| "))
    return found


def test_each_caution_stands_once_in_the_box_of_its_word_the_gravest_first(screen, plan_):
    found = boxes(screen(plan_))
    assert found == BOXES
    assert list(found) == list(BOXES)


def test_before_a_push_is_allowed_only_the_site_is_told_and_what_to_do_about_it(screen, plan_):
    told = screen(plan_.model_copy(update={"camera_now": False}))
    assert boxes(told) == {
        "DANGER": BOXES["DANGER"][:1],
        "WARNING": ["Mind the ladder."],
        "CAUTION": ["Mind the lid."],
    }
    assert "1. Wait." in [line.strip() for line in told]
    assert "1. Wait." not in [line.strip() for line in screen(plan_)], "the way in tells it there"


def test_what_nobody_said_is_asked_with_its_caution(screen, plan_):
    told = screen(plan_)
    at = told.index("NOBODY HAS SAID")
    assert (
        told[at + 1].strip() == "- Ask whether the pit is deep and it is open. If so, DANGER: Mind the pit."
    )
    assert "NOBODY HAS SAID" not in screen(plan_.model_copy(update={"ask": ()}))


def test_no_box_where_there_is_nothing_to_say(screen, plan_):
    bare = plan_.model_copy(
        update={"cautions": (), "routes": (plan_.routes[0].model_copy(update={"cautions": ()}),)}
    )
    assert boxes(screen(bare)) == {}


@pytest.mark.parametrize("until", [None, "the pit is dry"])
def test_beside_the_opening_the_gravest_are_told_before_anything_is_asked(plan_, monkeypatch, capsys, until):
    no = until is not None
    told, asked = plan_.model_copy(update={"camera_now": not no, "no_plan": no, "until": until}), []
    monkeypatch.setenv("COLUMNS", "90")
    monkeypatch.setattr(begin, "plan_of", lambda study, found: told)
    monkeypatch.setattr(gates, "choose", lambda page, question, *_: asked.append(question) or "n")
    monkeypatch.setattr(begin, "openings", lambda study: [])
    settled = SimpleNamespace(
        circumstances=SimpleNamespace(chemicals=False, gas_smell=False),
        kit=SimpleNamespace(loadouts=()),
        usable=(),
        tables=tables(),
        settled=None,
        part=None,
    )
    asks = SimpleNamespace(one_of=lambda *asked: None)
    assert begin.begin(settled, Page(), asks, (), None, lambda _: settled) is None
    lines = [line.strip() for line in capsys.readouterr().out.splitlines()]
    assert boxes(lines) == {"DANGER": ["Mind the vapour."], "WARNING": ["Mind the ladder."]}
    pit = "Not known whether the pit is deep and whether it is open. Until it is known, DANGER: Mind the pit."
    assert pit in " ".join(lines)
    assert asked == ([] if until is None else ["Is it so now: the pit is dry?"])
    assert " ".join(lines).startswith(told.first_step), "what to do first, first"


def test_a_card_boxes_the_gravest_and_tells_the_rest_as_lines(plan_):
    """More than its boxes hold: what is over stands first among the lines; a notice is never in a box."""
    site = tuple(
        note(word, f"{word} {i}") for word in ("danger", "warning", "caution", "notice") for i in range(5)
    )
    many = plan_.model_copy(update={"cautions": site[:3] + site[5:8], "ask": ()})
    leader = many.routes[0].model_copy(update={"cautions": (site[0], *site[8:]), "sights": ()})
    made_ = card_of(many, leader, tables().card, Units.INCH, DATE, log=True)
    kept = [x.text for block in made_.short().blocks for x in block.lines if block.title != "Before"]
    assert all(text.startswith("Warning") for text in kept)
    assert len(kept) == 3
    assert [(b.word, b.text) for b in made_.boxes] == [
        *(("DANGER", f"Mind the danger {i}.") for i in range(3)),
        *(("WARNING", f"Mind the warning {i}.") for i in range(2)),
    ]
    few = made_.limited()
    rest = next(block for block in few.blocks if block.title == "Mind as well")
    over = ["Warning: Mind the warning", "Caution: Mind the caution", "Notice: Mind the notice"]
    assert [line.text.rsplit(" ", 1)[0] for line in rest.lines] == [over[0]] * 3 + [over[1]] * 5 + [over[2]]
    # Nine lines are read; the other notices are counted as left out.
    assert few.left_out >= 4


@pytest.mark.parametrize("dangers", range(6))
def test_no_danger_stands_outside_the_boxes_while_a_warning_stands_in_one(plan_, dangers):
    """However many there are; and no more warnings than make five with them, or three."""
    told = tuple(note("danger", f"danger {i}") for i in range(dangers))
    told += tuple(note("warning", f"warning {i}") for i in range(4))
    plan_ = plan_.model_copy(update={"cautions": told, "ask": ()})
    leader = plan_.routes[0].model_copy(update={"cautions": (), "sights": ()})
    made_ = card_of(plan_, leader, tables().card, Units.INCH, DATE, log=True)
    words = [box.word for box in made_.boxes]
    assert words == ["DANGER"] * dangers + ["WARNING"] * min(MOST_WARNINGS, MOST_BOXED - dangers)
    assert not any(line.text.startswith("Danger") for block in made_.blocks for line in block.lines)


def test_what_can_hurt_at_a_hard_spot_stands_at_that_spot(plan_, screen):
    """Danger and warning in words beside the spot; lesser ones stand in the boxes and lists of the way."""
    whole = made(DEMOS[0])[0].routes[0]
    spot = whole.passages[0].model_copy(update={"cautions": (*SITE, note("danger", "void"))})
    leader = plan_.routes[0].model_copy(update={"passages": (spot,)})
    lines = screen(plan_.model_copy(update={"routes": (leader, *plan_.routes[1:])}))
    way = lines[next(i for i, line in enumerate(lines) if line.startswith("THE WAY IN FROM")) :]
    told = [
        line.strip()
        for line in way
        if line.strip().startswith(("DANGER:", "WARNING:", "CAUTION:", "NOTICE:"))
    ]
    assert told == ["DANGER: Mind the vapour.", "WARNING: Mind the ladder.", "DANGER: Mind the void."]


@pytest.mark.parametrize(
    ("hazard", "so", "word"),
    [
        ("gas", "Is it so now: the gas utility has been here and says that it is safe?", "DANGER"),
        ("chemicals", "Is it so now: it is known what was poured in, and its maker's sheet", "WARNING"),
        ("holding", "Does the line drain now, down to what its trap always holds?", "WARNING"),
    ],
)
@pytest.mark.parametrize("said", ["y", "n"])
def test_nothing_is_begun_before_what_stands_before_it(hazard, so, word, said, capsys, monkeypatch):
    """As docs/safety.md has it; whoever says that it is so may go on, and the log says so.

    That a full line was cleared nobody is believed: "Is it so now ... I have it from them or saw it" was
    answered on a customer's word, and a full chamber opened. It is looked at, last, hands off till then.
    """
    asked, reached = [], []

    def answer(page, question, *_):
        asked.append(question)
        return said if so in question else "n"

    monkeypatch.setattr(gates, "choose", answer)
    asks = SimpleNamespace(one_of=lambda *_: reached.append(True))
    of = studied(hazard)
    assert begin.begin(of, Page(), asks, (), None, lambda _: of) is None
    told = " ".join(capsys.readouterr().out.split())
    # Of the other two nobody has said whether anything was poured in: that is asked as well, once, as is gas.
    poured = ["Ask everybody. Has anybody poured"] * (hazard != "chemicals")
    before = {"gas": [so, *poured], "chemicals": [so], "holding": [*poured, so]}[hazard]
    expected = before if said == "y" else before[: before.index(so) + 1]
    rest = [each for each in asked if "gas?" not in each]
    assert len(rest) == len(expected)
    assert all(part in each for part, each in zip(expected, rest, strict=True))
    assert sum("gas?" in each for each in asked) == (hazard != "gas")
    assert bool(reached) == (said == "y")
    assert ("Nothing is begun." in told) == (said == "n")
    assert word in told


@pytest.mark.parametrize(("hazard", "planned"), [("gas", False), ("chemicals", False), ("holding", True)])
def test_there_is_no_plan_where_nobody_is_to_work(hazard, planned, screen):
    """docs/safety.md: of gas there is no plan until the gas utility has been, of chemicals hands off."""
    lines = screen(plan_of(studied(hazard)))
    assert ("OPENINGS, BEST FIRST" in lines) == planned
    assert any(line.startswith("THE WAY IN FROM") for line in lines) is False
    assert ("There is no plan until" in " ".join(lines)) is not planned


def test_notices_of_the_way_stand_in_their_list_and_injuries_do_not(plan_, screen):
    lines = [line.strip() for line in screen(plan_)]
    assert lines[1] == "DO THIS FIRST"
    listed = lines[lines.index("TAKE NOTE") + 1 :]
    assert listed[0] == "- Mind the hose."
    assert not listed[1].startswith("- ")
    without = plan_.routes[0].model_copy(update={"cautions": WAY[:3]})
    assert "TAKE NOTE" not in "".join(screen(plan_.model_copy(update={"routes": (without,)})))


@pytest.mark.parametrize(("hazard", "stands"), [("holding", True), ("gas", False)])
def test_without_a_push_the_notices_of_the_job_are_told_all_the_same(hazard, stands, screen):
    """Roots, a machine or the neighbours, told to `ask`, hold for whoever only relieves the line; in gas
    nobody is to read on."""
    told = plan_of(studied(hazard))
    notes = (*told.cautions, note("notice", "hose"))
    lines = [line.strip() for line in screen(told.model_copy(update={"cautions": notes}))]
    assert ("- Mind the hose." in lines) is stands
    if stands:
        assert lines.index("TAKE NOTE") < lines.index("- Mind the hose.") < lines.index("WHAT IS TO BE SEEN")


def test_what_nobody_said_is_a_question_on_the_card(plan_):
    """The gravest first; a danger with its word and whole text, and it stays with the warnings."""
    text = "Mind it. Leave at once."
    lesser = AskNote(
        about=("it drains",), caution=CautionNote(id="x", word="warning", text=text), if_not=True
    )
    graver = AskNote(about=("it smells",), caution=CautionNote(id="y", word="danger", text=text))
    leader = plan_.routes[0].model_copy(update={"ask": (lesser, graver), "sights": ()})
    made_ = card_of(plan_, leader, tables().card, Units.INCH, DATE, True)
    title = "Not known: ask first"
    (asked,) = [block for block in made_.blocks if block.title == title]
    dangers = [
        "The pit is deep and it is open? If so, DANGER: Mind the pit.",
        "It smells? If so, DANGER: Mind it. Leave at once.",
    ]
    assert [line.text for line in asked.lines] == [*dangers, "It drains? If not, WARNING: Mind it."]
    (kept,) = [block for block in made_.short().blocks if block.title == title]
    assert [line.text for line in kept.lines] == dangers
    for most, left in ((worth.STUCK_HEAD, asked.lines), (worth.WARNING_ASKED, asked.lines[:2])):
        gone = [part for part in made_.parts() if part[0] <= most]
        (kept,) = [block for block in made_.without(gone).blocks if block.title == title]
        assert kept.lines == left, "a warning outlasts every step, a danger all but warnings and dangers"


def test_a_hazard_that_is_graver_at_the_opening_is_boxed_though_the_site_told_a_lesser_word(
    monkeypatch, capsys
):
    """The site's note of gas is a caution and in no box; at this opening it is a danger."""
    here = (note("danger", "vapour"), note("warning", "ladder"))
    monkeypatch.setattr(begin, "before_push", lambda *_: BeforePush(here, (), (), ()))
    lesser = (here[0].model_copy(update={"word": "caution"}), here[1])
    asked = begin._Begin(None, Page(), None, (), lesser)
    assert asked._ready() is None
    lines = [line.strip() for line in capsys.readouterr().out.splitlines()]
    assert boxes(lines) == {"DANGER": ["Mind the vapour."]}
