"""Conditions: three values, no surprise at equality, each line with its own numbers."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.quantity import Dimension, Units
from advisor.rulebase.condition import All, Any, Compare, Condition, Is, IsUnknown, ShareIs
from advisor.rulebase.facts import Fact, Kind, Value
from advisor.rulebase.reader import Reader

FLAGS = [Fact(f"site.f{i}", f"flag {i}", Kind.FLAG) for i in range(3)]
LENGTH = Fact("passage.stroke", "stroke that arrives", Kind.QUANTITY, Dimension.LENGTH)
LIMIT = Fact("limits.run_up", "run-up", Kind.QUANTITY, Dimension.LENGTH)
SHARE = Fact("passage.jams", "the head jams", Kind.SHARE, Dimension.SHARE)
SHARES: dict[str, Value] = {"limits.likely_share": 0.6, "limits.unlikely_share": 0.4}


def flag(index: int) -> Condition:
    return Is(FLAGS[index], (True,))


# Kleene's strong three-valued logic (Introduction to Metamathematics, 1952, section 64; from memory).
AND = {
    (True, True): True, (True, None): None, (True, False): False,
    (None, True): None, (None, None): None, (None, False): False,
    (False, True): False, (False, None): False, (False, False): False,
}  # fmt: skip


@pytest.mark.parametrize(("pair", "expected"), AND.items())
def test_all_any_not_follow_kleenes_tables(
    pair: tuple[bool | None, bool | None], expected: bool | None
) -> None:
    values = {"site.f0": pair[0], "site.f1": pair[1]}
    both = All((flag(0), flag(1)))
    turned = {True: False, False: True, None: None}
    assert both.evaluate(values) is expected
    assert both.negated().evaluate(values) is turned[expected]
    # a or b = not (not a and not b)
    either = Any((flag(0).negated(), flag(1).negated()))
    assert either.evaluate(values) is turned[expected]


conditions: st.SearchStrategy[Condition] = st.recursive(
    st.builds(flag, st.integers(0, 2)),
    lambda inner: st.one_of(
        st.builds(lambda parts: All(tuple(parts)), st.lists(inner, min_size=1, max_size=3)),
        st.builds(lambda parts: Any(tuple(parts)), st.lists(inner, min_size=1, max_size=3)),
        st.builds(lambda part: part.negated(), inner),
    ),
    max_leaves=8,
)


@given(conditions, st.tuples(*[st.sampled_from([True, False, None])] * 3))
def test_what_is_decided_stays_so_whatever_the_unknown_turns_out_to_be(
    condition: Condition, known: tuple[bool | None, ...]
) -> None:
    names = [fact.name for fact in FLAGS]
    outcome = condition.evaluate(dict(zip(names, known, strict=True)))
    completions = product(*[(value,) if value is not None else (True, False) for value in known])
    finished = {condition.evaluate(dict(zip(names, one, strict=True))) for one in completions}
    assert None not in finished
    if outcome is not None:
        assert finished == {outcome}


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.39, {"unlikely"}),
        (0.4, {"unlikely"}),
        (0.41, {"even", "possible"}),
        (0.59, {"even", "possible"}),
        (0.6, {"likely", "possible"}),
        (1.0, {"likely", "possible"}),
    ],
)
def test_words_for_shares_divide_at_the_limits(share: float, words: set[str]) -> None:
    fired = {
        word
        for word in ("likely", "even", "unlikely", "possible")
        if ShareIs(SHARE, word).evaluate({**SHARES, SHARE.name: share})
    }
    assert fired == words


@pytest.mark.parametrize(("sign", "at_equality"), [("<", False), ("<=", True), (">", False), (">=", True)])
def test_comparisons_at_equality(sign: str, at_equality: bool) -> None:
    line = Compare(LENGTH, sign, LIMIT)
    assert line.evaluate({LENGTH.name: 0.3, LIMIT.name: 0.3}) is at_equality
    assert line.evaluate({LENGTH.name: 0.2, LIMIT.name: 0.3}) is ("<" in sign)
    assert line.evaluate({LIMIT.name: 0.3}) is None


def test_nothing_known_is_itself_a_decided_matter() -> None:
    assert IsUnknown(FLAGS[0]).evaluate({}) is True
    assert IsUnknown(FLAGS[0]).evaluate({"site.f0": False}) is False


def test_each_line_tells_its_own_numbers_even_after_a_settled_one() -> None:
    condition = All((flag(0), Compare(LENGTH, "<", LIMIT).negated(), ShareIs(SHARE, "likely")))
    values = {**SHARES, "site.f0": False, LENGTH.name: 0.1016, LIMIT.name: 0.3048}
    first, second, third = condition.checks(values, Reader(Units.INCH))
    assert (first.text, first.left, first.outcome) == ("flag 0: yes", "no", False)
    assert second.text == "not: stroke that arrives < run-up"
    assert (second.left, second.right, second.outcome) == ("4 in", "12 in", False)
    assert (third.left, third.right, third.outcome) == ("unknown", "likely", None)


def test_the_facts_of_a_condition_are_those_of_all_its_lines_in_their_order() -> None:
    """Nested lines, turned lines and both sides of a comparison: what is not known must be asked for."""
    nested = All((Any((flag(1), Compare(LENGTH, "<", LIMIT))), flag(0).negated(), Compare(LENGTH, ">", 0.1)))
    told = ["site.f1", "passage.stroke", "limits.run_up", "site.f0", "passage.stroke"]
    assert list(nested.names()) == told
    assert list(nested.negated().names()) == told
