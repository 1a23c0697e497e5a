"""The strip drawing: to scale, and no label ever touches another or leaves the page."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import pairwise

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from advisor.card.labels import Label, placed, width_of
from advisor.card.scale import Scale, ticks
from advisor.card.strip import EDGE, ROWS, SIZE, WIDTH, strip_signs, strip_svg
from advisor.paper.typeset import FONTS
from advisor.quantity import Dimension, Units, parse, show
from tests.card.cards import DEMOS, made
from tests.cases.jobs import tables

BOLD = TTFont(FONTS / "DejaVuSansCondensed-Bold.ttf")
NAMES, METRICS, EM = BOLD.getBestCmap(), BOLD["hmtx"], BOLD["head"].unitsPerEm


def true_width(text: str) -> float:
    """From the font's own table of advances."""
    return sum(METRICS[NAMES[ord(c)]][0] for c in text) * SIZE / EM


LENGTHS = st.floats(0, 90).map(lambda m: show(m, Dimension.LENGTH, Units.INCH)) | st.floats(0, 90).map(
    lambda m: show(m, Dimension.LENGTH, Units.METRIC)
)


@given(LENGTHS)
def test_a_label_is_never_wider_than_it_is_taken_for(text):
    assert true_width(text) <= width_of(text, SIZE)


@given(st.lists(st.tuples(st.floats(0, WIDTH), LENGTHS, st.booleans()), max_size=25))
def test_no_two_labels_touch_and_all_lie_inside(given_labels):
    found = placed([Label(at, text, strong) for at, text, strong in given_labels], WIDTH, ROWS, SIZE)
    boxes = [(label.row, label.left, label.left + true_width(label.text)) for label in found]
    for row, left, right in boxes:
        assert 0 <= row < ROWS
        assert left >= 0
        assert right <= WIDTH
    for i, (row, left, right) in enumerate(boxes):
        for other_row, other_left, other_right in boxes[:i]:
            assert row != other_row or right < other_left or other_right < left


@pytest.mark.parametrize("stem", DEMOS)
def test_what_is_drawn_is_to_scale(stem):
    plan_, units = made(stem)
    for route in plan_.routes[:3]:
        root = ET.fromstring(strip_svg(route, units))
        scale = Scale(route.length_m, WIDTH, EDGE)
        for text in root.iter("{http://www.w3.org/2000/svg}text"):
            assert 0 <= float(text.attrib["x"]) <= WIDTH
            words = text.text or ""
            if "text-anchor" in text.attrib and words != "0":
                # An axis label stands at its own reading: read back by the quantity parser.
                assert float(text.attrib["x"]) == pytest.approx(
                    scale.x(parse(words, Dimension.LENGTH)), abs=0.06
                )
        colours = set(re.findall(r'(?:stroke|fill)="([a-z]+)"', strip_svg(route, units)))
        assert colours <= {"black", "white", "none"}


@pytest.mark.parametrize("stem", DEMOS)
def test_every_sign_that_is_drawn_is_told_and_no_other(stem):
    plan_, units = made(stem)
    words = tables().card.signs
    for route in plan_.routes:
        told, svg = strip_signs(route, tables().card).lower(), strip_svg(route, units)
        sights = {note.sight for note in route.sights}
        assert (words["hard"] in told) == ('fill="black" stroke="none"' in svg)
        assert (words["turn"] in told) == ("h 7 v 7" in svg)
        assert (words["water"] in told) == ("q 3 -5 6 0" in svg)
        assert (words["fall"] in told) == ("l 4 5 l 4 -5" in svg)
        assert (words["target"] in told) == ("l 5 4 l -5 4" in svg)
        assert (words["opening"] in told) == ("<circle" in svg)
        assert (words["joins"] in told) == bool(sights & {"joins", "fork"})
        assert (words["bar"] in told) == bool(sights & {"end", "drain end", "stop", "step", "other pipe"})
        assert (words["bore"] in told) == (len({run.nominal_m for run in route.runs}) > 1)


@given(st.floats(0.5, 120), st.sampled_from(list(Units)))
def test_axis_is_round_and_never_crowded(length, units):
    marks = ticks(length, units)
    assert marks[0][0] == 0
    assert len(marks) <= 9
    scale = Scale(length, WIDTH, EDGE)
    ends = [(scale.x(at) - true_width(words) / 2, scale.x(at) + true_width(words) / 2) for at, words in marks]
    assert all(right < left for (_, right), (left, _) in pairwise(ends))


@given(
    given_labels=st.lists(
        st.tuples(
            st.floats(0, WIDTH), st.sampled_from(["2.5 ft", "12 m", "opening", "0.4 ft"]), st.booleans()
        ),
        max_size=8,
    )
)
def test_no_leader_runs_through_a_label(given_labels):
    """A reading with a line through it is read wrongly: 2.5 ft just before 2.8 ft on a printed card."""
    found = placed([Label(at, text, strong) for at, text, strong in given_labels], WIDTH, ROWS, SIZE)
    for upper in found:
        for lower in found:
            if lower.row < upper.row:
                inside = lower.left <= upper.at <= lower.left + width_of(lower.text, SIZE)
                assert not inside, (upper, lower)


def test_two_readings_side_by_side_both_find_room():
    found = placed([Label(100, "2.5 ft"), Label(106, "2.8 ft")], WIDTH, ROWS, SIZE)
    assert [label.text for label in found] == ["2.5 ft", "2.8 ft"]
