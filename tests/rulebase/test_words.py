"""What a condition, a conclusion and a fault say, word for word, written down by hand."""

from __future__ import annotations

import pytest
from small_base import Small

from advisor.errors import BadInput
from advisor.quantity import Dimension, Units
from advisor.rulebase import Value, infer
from advisor.rulebase.condition import Any, Compare, Condition, Is, IsUnknown, ShareIs
from advisor.rulebase.facts import Fact, Kind
from advisor.rulebase.reader import Reader
from advisor.rulebase.rule import Caution, Conclusion
from advisor.rulebase.trace import Check
from tests.cases.jobs import rules

LENGTH = Fact("passage.stroke", "stroke that arrives", Kind.QUANTITY, Dimension.LENGTH)
SHAPE = Fact("passage.shape", "the shape", Kind.NAME, options=("bend", "wye", "tee"))
ROUGH = Fact("passage.rough", "the wall is rough", Kind.FLAG)
JAMS = Fact("passage.jams", "the head jams", Kind.SHARE, Dimension.SHARE)
SHARES: dict[str, Value] = {"limits.likely_share": 0.6, "limits.unlikely_share": 0.4}


def told(condition: Condition, **values: Value) -> Check:
    (check,) = condition.checks(
        {**SHARES, **{f"passage.{name}": value for name, value in values.items()}}, Reader(Units.INCH)
    )
    return check


@pytest.mark.parametrize(
    ("condition", "values", "check"),
    [
        (
            Is(SHAPE, ("bend", "wye")),
            {"shape": "wye"},
            ("the shape: bend or wye", "wye", "bend or wye", True),
        ),
        (Is(ROUGH, (False,)), {"rough": True}, ("the wall is rough: no", "yes", "no", False)),
        (IsUnknown(ROUGH), {}, ("the wall is rough: not known", "unknown", "unknown", True)),
        (
            IsUnknown(ROUGH).negated(),
            {"rough": False},
            ("not: the wall is rough: not known", "no", "unknown", True),
        ),
        # A stated number is shown in the units of the fact: 0.1016 m is 4 in.
        (
            Compare(LENGTH, "<", 0.1016),
            {"stroke": 0.0508},
            ("stroke that arrives < 4 in", "2 in", "4 in", True),
        ),
        (
            Any((Is(ROUGH, (True,)),)),
            {"rough": None},
            ("either: the wall is rough: yes", "unknown", "yes", None),
        ),
        # The words divide at the limits, 0.6 and 0.4, and at a limit the word beyond it holds.
        (ShareIs(JAMS, "even"), {"jams": 0.6}, ("the head jams: even", "likely (60 %)", "even", False)),
        (
            ShareIs(JAMS, "even"),
            {"jams": 0.5},
            ("the head jams: even", "an even chance (50 %)", "even", True),
        ),
        (ShareIs(JAMS, "even"), {"jams": 0.4}, ("the head jams: even", "unlikely (40 %)", "even", False)),
    ],
)
def test_a_line_says_its_fact_what_stood_there_and_what_was_wanted(condition, values, check):
    assert told(condition, **values) == Check(*check)


@pytest.mark.parametrize(
    ("value", "shown"),
    # `an` before the sound of a vowel: eight, eleven, eighteen, unknown.
    [
        ({"passage.stroke": 0.2032}, "An 8 in"), ({"passage.stroke": 0.2794}, "An 11 in"),
        ({"passage.stroke": 0.4572}, "An 18 in"), ({"passage.stroke": 0.1016}, "A 4 in"),
        ({"passage.stroke": 0.254}, "A 10 in"), ({}, "An unknown"),
    ],
)  # fmt: skip
def test_the_article_before_a_number_goes_by_its_sound(small: Small, value, shown):
    small.replace("technique/push.yaml", "because: Only {passage.stroke}", "because: A {passage.stroke}")
    (firing,) = infer(small.load(), "technique", "passage", value, Reader(Units.INCH))
    assert firing.because == f"{shown} of 11-3/4 in arrives."


@pytest.mark.parametrize("word", ["apron", "elbow", "inlet", "offset"])
def test_the_article_before_a_name_goes_by_its_sound(small: Small, word):
    small.replace("facts.yaml", "options: [bend, wye]", f"options: [bend, {word}]")
    small.replace(
        "technique/push.yaml", "because: Only", "because: In a {passage.shape}, via {passage.shape};"
    )
    base = small.load()

    def said(shape: str) -> str:
        (firing,) = infer(base, "technique", "passage", {"passage.shape": shape}, Reader(Units.INCH))
        return firing.because.partition(";")[0]

    assert said(word) == f"In an {word}, via {word}"
    assert said("bend") == "In a bend, via bend", "the last letter of another word is no article"


def test_filling_in_numbers_changes_texts_and_nothing_else():
    caution = Caution("shaft", "danger", "mind it")
    techniques = {"string": "rejected"}
    made = Conclusion(
        techniques, {"string": ("tie",)}, ("jams",), caution, "decline", ("look",), ("zero",), ("cord",), True
    )
    assert made.mapped(str.upper) == Conclusion(
        techniques, {"string": ("TIE",)}, ("jams",), Caution("shaft", "danger", "MIND IT"),
        "decline", ("LOOK",), ("ZERO",), ("CORD",), True,
    )  # fmt: skip
    assert made.texts() == ("tie", "mind it", "look", "zero", "cord")
    silent = Conclusion({}, {}, (), None, None, (), (), (), False)
    assert silent.mapped(str.upper) == silent
    assert silent.texts() == ()


@pytest.mark.parametrize(
    ("when", "message"),
    [
        ("{}", "got nothing; expected one of all, any, not"),
        ("{any: passage.rough is true}", "any: expected a list of conditions"),
        ("{al: [passage.rough is true]}", "unknown entry 'al'; did you mean 'all'?"),
        ("{ani: [passage.rough is true]}", "unknown entry 'ani'; did you mean 'any'?"),
        ("{nott: passage.rough is true}", "unknown entry 'nott'; did you mean 'not'?"),
        ("[passage.rough is true]", "got a bare list; expected all:, any: or not: above it"),
        (
            "passage.stroke < passage.force",
            "passage.stroke is a length, passage.force a force: not comparable",
        ),
        (
            "passage.stroke < passage.rough",
            "passage.stroke is a length, passage.rough a flag: not comparable",
        ),
        ("passage.stroke is 3 in", "passage.stroke is a number; expected <, <=, > or >="),
        ("passage.rough > 3", "passage.rough is a flag; > goes with numbers only"),
        ("passage.rough in [yes]", "passage.rough is not a name; `in` goes with names only"),
        ("passage.shape in bend", "got 'bend'; expected a list such as [bend, wye]"),
        ("site.rough is true", "unknown fact 'site.rough'; did you mean 'passage.rough'?"),
    ],
)
def test_a_fault_in_a_condition_is_one_sentence_with_the_cure(small: Small, when, message):
    small.replace("technique/push.yaml", "passage.stroke < limits.run_up", when)
    with pytest.raises(BadInput) as caught:
        small.load()
    assert f"push.yaml:5: no-run-up: {message}" in [
        line.rpartition("/")[2] for line in str(caught.value).splitlines()
    ]


def test_two_values_that_differ_never_look_the_same():
    """A pit 2 ft down beside an arm of 0.6 m, which is 1.97 ft: at a tenth of a foot both are 2 ft."""
    rule = next(r for r in rules().all_rules if r.id == "rim-out-of-hands-reach")
    values = {**rules().limits, "limits.arm_reach": 0.6, "opening.depth": 2 * 0.3048}
    said = rule.fill(rule.because, values, Reader(Units.INCH))
    assert "lies 2 ft down" in said
    assert "(1.97 ft)" in said
    assert "(2 ft)" in rule.fill(rule.because, {**values, "opening.depth": 3 * 0.3048}, Reader(Units.INCH))
    same = rule.fill(rule.because, {**values, "opening.depth": 0.6}, Reader(Units.METRIC))
    assert same.count("600 mm") == 2, "what is the same may look so"


def test_of_several_places_every_reading_is_told():
    """3 m and 5 m are 9.84 ft and 16.4 ft; a counter in feet shows tenths under ten feet."""
    rule = next(r for r in rules().all_rules if r.id == "wedged-head")
    caution = rule.conclusion.caution
    assert caution is not None
    near, again, far = ({**rules().limits, "passage.at": at} for at in (3.0, 3.0, 5.0))
    for units, told in ((Units.METRIC, "At 3 m and 5 m stop"), (Units.INCH, "At 9.8 ft and 16 ft stop")):
        assert told in rule.fill(caution.text, near, Reader(units), [again, far])
        assert "At 3 m stop" in rule.fill(caution.text, near, Reader(Units.METRIC), [again])


@pytest.mark.parametrize(
    ("share", "shown"), [(1.0, "over 99 %"), (0.996, "over 99 %"), (0.99, "99 %"), (0.0, "under 1 %")]
)
def test_no_share_of_cases_is_told_as_sure(share, shown):
    fact = rules().facts["passage.rod_too_tight"]
    assert f"({shown})" in fact.show({**rules().limits, fact.name: share}, Reader(Units.METRIC))
