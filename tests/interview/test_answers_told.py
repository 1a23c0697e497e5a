"""What an answer does to the sheet and its chances."""

from __future__ import annotations

import numpy as np
import pytest

from advisor.interview.answers import NONE, Answer
from advisor.interview.leading import standing
from advisor.interview.question import DONT_KNOW
from advisor.quantity import Chances
from advisor.result.build import plan_of
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.interview.small_session import HOUSE, answered, session, walk
from tests.interview.test_dialogue import CALM, calm


def put(question: str, *values: str, about: str = "job") -> str:
    return session(sheet=HOUSE).sheets.text((Answer(question, about, values),))


def test_answers_replace_what_was_assumed():
    said = put("run", "12 ft", about="laundry line/after washing machine/pipe 1")
    assert "- pipe: 12 ft\n" in said
    assert "fitting: wye" in put("joining", "wye", about="house drain/junction:vent")
    assert "there: no" in put("opening-there", "no", about="house drain/opening:yard pit")
    assert (
        "      - change:\n          kind: sewer\n          size: assumed 4 in\n          material: clay\n"
        in put("pipe-material", "clay", about="wall house drain/from yard pit (1)")
    )


def test_what_came_back_makes_a_condition_likelier_by_bayes_rule():
    # By hand: prior odds times the likelihood ratio of the sign.
    def chances(came_back: str) -> dict[str, float]:
        text = HOUSE.replace("kind: drain", "kind: drain\n    material: clay")
        text += f"  history: {{came back: [{came_back}]}}\n"
        network = network_of(site_of_text(text, "x", tables()), tables())
        wall = next(p.wall for p in network.pieces.values() if p.line == "house drain")
        assert isinstance(wall.condition, Chances)
        return dict(wall.condition.options)

    plain, roots = chances(""), chances("roots")
    ratio = tables().signs["roots, there"].likely / tables().signs["roots, not there"].likely
    odds = plain["roots"] / (1 - plain["roots"]) * ratio
    assert roots["roots"] == pytest.approx(odds / (1 + odds))
    assert chances("soil or pipe") == plain


def test_worse_on_laundry_days_points_below_the_laundry():
    of = session(sheet=HOUSE.replace("look at: house drain", "look at: suspect section"))
    slow = (Answer("slow", "job", ("toilet",)),)
    laundry = (*slow, Answer("history", "job", ("it is worse on laundry days",)))
    for line in ("laundry line",):
        before, after = (
            sum(s.share for s in of.study(a).suspects if s.line == line) for a in (slow, laundry)
        )
        assert after > before


def test_who_backs_up_is_not_fine_whatever_the_order_of_answering():
    both = (Answer("fine", "job", ("toilet",)), Answer("backs-up", "job", ("toilet",)))
    said = session(sheet=HOUSE).sheets.text(both)
    assert "backs up:" in said
    assert "fine" not in said
    assert session(sheet=HOUSE).sheets.text(both[::-1]) == said


def test_the_line_that_moves_is_that_of_the_plan():
    of = session(sheet=HOUSE)
    answers = walk(of, calm, most=40)
    words = standing(of.study(answers)).words()
    first = plan_of(of.study(answers)).routes[0]
    assert first.opening in words
    assert f"({100 * min(first.chance, 0.99):.0f} %)" in words


def test_a_dont_know_leaves_every_chance_as_it_was():
    """The minutes of each way are the same ones in the same worlds, whichever answer came before it."""
    of = session(sheet=HOUSE, worlds=1000)
    answers = tuple(Answer(name, "job", (word,)) for name, word in CALM.items())
    length, other = [ask for ask in of.open(answers) if ask.quantity == "length"][:2]
    answers = (*answers, answered(length, "12 ft"))
    before = of.standing(answers)
    for nothing in (DONT_KNOW, NONE):
        after = of.standing((*answers, answered(other, nothing), Answer("history", "job", (nothing,))))
        assert after.words() == before.words()
        assert np.array_equal(after.costs, before.costs)
