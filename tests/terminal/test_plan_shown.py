"""What a plan says on the screen where something is missing, cut short or beyond reach."""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.quantity import Units
from advisor.result.model import AssumedNote, Plan, Stopped
from advisor.result.target_model import PartNote, RestNote
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import SHOWN_ROUTES, show_plan
from tests.card.cards import DATE, DEMOS, made
from tests.cases.jobs import tables
from tests.terminal.test_push_turns import UNSAFE

STOPS = (
    Stopped(opening="stack plug", passage="house trap", at_m=3.048, why="It is always full of water."),
    Stopped(opening="roof vent", passage="the roof", at_m=0.0, why="Nobody goes up there today."),
)


@pytest.fixture
def whole() -> Plan:
    return made(DEMOS[0])[0]


@pytest.fixture
def shown(capsys, whole):
    """What the screen says of the plan with these changes."""

    def run(**changes: object) -> str:
        capsys.readouterr()
        show_plan(whole.model_copy(update=changes), Units.INCH, Page())
        return " ".join(capsys.readouterr().out.split())

    return run


def test_where_nothing_reaches_it_each_stop_is_told_and_no_way_in(shown):
    said = shown(routes=(), attempts=(), cannot=STOPS)
    # 3.048 m are ten feet; what is stopped at the opening itself has no distance.
    assert "stack plug: house trap at 10 ft: it is always full of water." in said
    assert "roof vent: the roof: nobody goes up there today." in said
    assert "THE WAY IN FROM" not in said
    assert "OPENINGS, BEST FIRST" not in said


def test_no_way_in_is_told_only_where_there_is_such_an_opening(shown):
    said = shown(no_way_in=STOPS[:1])
    assert "NO WAY IN stack plug: It is always full of water." in said
    assert "NO WAY IN" not in shown(no_way_in=())


def test_a_line_that_holds_has_no_way_in_shown(shown, whole):
    said = shown(camera_now=False, how=("Wait until it has run off.",))
    assert "1. Wait until it has run off." in said
    assert "THE WAY IN FROM" not in said
    assert whole.routes[0].opening in said, "the openings may be compared all the same"


def test_a_first_look_says_that_it_is_one(shown):
    assert "A first look: the whole plan works through 2,000 cases." in shown(preview_of=2000)
    assert "A first look" not in shown(preview_of=None)


def test_a_list_that_was_cut_says_so(shown, whole):
    names = ["door"] * SHOWN_ROUTES + ["attic vent", "far gully"]
    many = tuple(
        whole.routes[0].model_copy(update={"rank": i, "opening": name}) for i, name in enumerate(names, 1)
    )
    said = shown(routes=many, routes_cut=True)
    assert "Behind these: attic vent, far gully." in said
    assert "the list was cut short" in said
    assert "Behind these" not in shown(routes=many[:SHOWN_ROUTES], routes_cut=False)


def test_where_leaving_it_costs_least_no_order_is_made_up(shown):
    said = shown(attempts=())
    assert "None: leaving the job undone costs less than any of these." in said
    assert "In all:" not in said


def test_nothing_to_bring_is_no_heading(shown, whole):
    leader, *others = whole.routes
    without = (leader.model_copy(update={"bring": ()}), *others)
    assert "BRING" in shown()
    assert "BRING" not in shown(routes=without)


def test_a_plan_without_guesses_says_so_and_one_of_other_lines_counts_them(shown, whole):
    first = whole.routes[0]
    here = AssumedNote(about=first.opening, taken="opens", grade="judgement", weak=True)
    off = AssumedNote(about="some other line", taken="4 in", grade="judgement", weak=False)
    said = shown(assumed=(), weak=())
    assert "Nothing: every value was on the sheets." in said
    assert "* Weak ground" not in said
    said = shown(assumed=(here,), weak=("the fall",))
    assert f"Judgement * - {first.opening}: opens" in said
    assert "off the first way in" not in said
    assert "* Weak ground. The first way also rests on: the fall." in said
    said = shown(assumed=(here, off, off), weak=())
    assert "And 2 values of lines and openings off the first way in" in said
    assert "some other line: 4 in" not in said


def test_without_a_way_in_every_guess_matters(shown):
    off = AssumedNote(about="some other line", taken="4 in", grade="judgement", weak=False)
    assert "some other line: 4 in" in shown(routes=(), attempts=(), cannot=STOPS, assumed=(off,))


def test_a_part_is_told_as_a_part_with_what_is_left(shown, whole):
    rest = RestNote(words="drain, from the top to plug", opening="plug", covers=0.25, chance=0.9)
    part = PartNote(of="drain", of_length_m=12.192, covers=0.75, trouble=0.9, points=0.6, rest=(rest,))
    target = whole.target.model_copy(
        update={"words": "drain, from plug to sewer", "length_m": 9.144, "part": part}
    )
    said = shown(target=target)
    # 12.192 m are 40 ft, 9.144 m are 30 ft.
    assert ": drain (40 ft) This plan looks at a part of it: drain, from plug to sewer (30 ft)." in said
    assert "That is 75% of the length. The complaint points there with 60%." in said
    assert (
        "Then the rest, from plug: likely (90 %). On the sheet: look at: drain, from the top to plug" in said
    )
    alone = shown(target=target.model_copy(update={"part": part.model_copy(update={"rest": ()})}))
    assert "Then the rest" not in alone
    assert "points there with" not in shown(target=target, suspects=())
    assert "looks at a part" not in shown()
    plan_ = whole.model_copy(update={"target": target})
    card = card_of(plan_, plan_.routes[0], tables().card, Units.INCH, DATE, True)
    said = f"{card.target}{card.gets_there}"  # printed one behind the other
    assert said.startswith("drain, from plug to sewer (75% of drain). Getting there: ")


def test_an_opening_with_two_ways_says_which_way_each_goes(shown, whole):
    """Two-way openings stand twice in a list; what stops both ways alike is told once."""
    down, up = (
        whole.routes[0].model_copy(update={"rank": i, "opening": "yard plug", "direction": direction})
        for i, direction in enumerate(("with", "against"), 1)
    )
    said = shown(routes=(down, up), attempts=(), part=None)
    assert "1 yard plug (downstream)" in said
    assert "2 yard plug (upstream)" in said
    stop = Stopped(opening="yard plug", passage="the trap", at_m=0.0, why="It is full.", direction="with")
    other = stop.model_copy(update={"direction": "against"})
    both = shown(routes=(), attempts=(), cannot=(stop, other))
    assert both.count("yard plug: the trap: it is full.") == 1
    assert "stream" not in both.partition("WHAT STOPS EACH WAY")[2].partition("WHAT WAS ASSUMED")[0]
    apart = shown(routes=(), attempts=(), cannot=(stop, other.model_copy(update={"passage": "the bend"})))
    assert "yard plug (downstream): the trap: it is full." in apart
    assert "yard plug (upstream): the bend: it is full." in apart


def test_the_hardest_spot_is_the_one_harder_to_begin_with_where_all_tries_leave_them_alike(shown, whole):
    """97 % with all that can be tried at both; the gentle push of one is 97 %, of the other 88 %."""
    spot = whole.routes[0].passages[0]
    easy = spot.model_copy(update={"name": "easy roots", "chance": 0.9698, "chance_plain": 0.97})
    hard = spot.model_copy(update={"name": "hard roots", "chance": 0.9734, "chance_plain": 0.88})
    route = whole.routes[0].model_copy(update={"passages": (easy, hard), "blocked_by": None})
    said = shown(routes=(route,)).partition("OPENINGS, BEST FIRST")[2].partition("ORDER OF")[0]
    assert "hard roots" in said
    assert "easy roots" not in said


def test_what_is_barred_for_safety_has_neither_rank_nor_chance_nor_minutes(capsys):
    """It ranked eighth with `under 1 %` and 49 minutes, while its explanation said `left out`."""
    show_plan(made(UNSAFE)[0], Units.INCH, Page())
    said = " ".join(capsys.readouterr().out.partition("OPENINGS, BEST FIRST")[2].split())
    assert "- roof vent left out - mostly ends: nobody goes on the roof" in said
