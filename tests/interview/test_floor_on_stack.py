"""From a trial: an en suite joins the stub stack, between its valve and the downstairs toilet.

It was drawn half a metre above that toilet, nobody was asked its floor, and the storey taped was
doubted. By the trade (no source): an air admittance valve stands right above the highest pipe that joins its
stack, and from floor to floor a British house has 2.4 m or more.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.store import values_of
from advisor.site.network import Network
from advisor.terminal.ask_screen import put
from advisor.terminal.page import Page
from tests.interview.small_session import answered, session
from tests.terminal.test_choose import typed

HOUSE = {"region": "britain", "built": "1996", "building": "newer-detached"}
BEGIN = tuple(Answer(question, "job", (word,)) for question, word in HOUSE.items())


@pytest.fixture(scope="module")
def asked():
    of = session()
    ask = of.ask(BEGIN, "other-toilet")
    (option,) = [o for o in ask.options if "between valve on the stub stack and downstairs toilet" in o.words]
    return of, ask, option


def drops(network: Network) -> list[tuple[float, float]]:
    """The drops of the stub stack from its valve down to the lower toilet, m at the least and most."""
    found = []
    for key in network.lines["stub stack"]:
        piece = network.pieces[key]
        if piece.branch == "downstairs toilet branch":
            return found
        if piece.kind == "drop":
            found.append((piece.length.low, piece.length.high))
    raise AssertionError("no lower toilet")


def test_its_floor_is_asked_where_a_valve_stands_less_than_a_storey_above(asked, capsys):
    of, ask, option = asked
    number = ask.options.index(option) - 12 + 1  # on its third page of six
    with typed(f"mm{number}2"):
        said = put(ask, of, BEGIN, Page())
    assert "beside downstairs toilet branch" in " ".join(capsys.readouterr().out.split())
    assert said.values == (option.higher_up.value,)


def test_a_floor_higher_up_a_storey_lies_between_and_the_valve_stands_above_it(asked):
    of, ask, option = asked
    plain = drops(of.sheets.drain(BEGIN).network)
    same = drops(of.sheets.drain((*BEGIN, answered(ask, option.value))).network)
    above = drops(of.sheets.drain((*BEGIN, answered(ask, option.higher_up.value))).network)
    assert sum(high for _, high in same) == pytest.approx(plain[0][1]), "on one floor it is as it was"
    assert above[0] == pytest.approx(plain[0])
    low, high = above[1]
    assert low <= 2.4 <= 2.6 <= high, "a storey that is taped is doubted by nobody"
    assert low >= 2.0


def test_in_a_file_of_answers_too(asked):
    _, ask, option = asked
    words = ask.words_of(option.higher_up.value)
    assert "a floor higher up than downstairs toilet branch" in words
    assert values_of(ask, (words,)) == ((option.higher_up.value,), None)


def test_nobody_is_asked_where_the_stack_goes_on_up_through_a_storey(asked):
    """The main stack goes 3 m and more from the highest toilet to the roof; and what joins between two drawn
    joinings is on their floor."""
    _, ask, _ = asked
    on_main = [o for o in ask.options if "joins the main stack, between" in o.words]
    assert on_main
    assert all(o.higher_up is None for o in on_main)
