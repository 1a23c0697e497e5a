"""From a trial: a bathroom told of in a house of 110 mm pipe was drawn with a branch of 100 mm.

British plastic soil pipe is 110 mm (BS EN 1329); that of 100 mm is clay or iron (BS 416, BS 65): what is put
into a house is as wide as what it joins.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from tests.interview.small_session import answered, session

PLASTIC = {"region": "britain", "built": "1996", "building": "newer-detached"}
CLAY = {"region": "britain", "built": "1930", "building": "semi-external-stack"}


def sizes(house, words):
    """Of the other bathroom, and of the stack that it comes down by, m."""
    of = session()
    begin = tuple(Answer(question, "job", (word,)) for question, word in house.items())
    ask = of.ask(begin, "other-toilet")
    value = next(
        up.value for o in ask.options for up in (o, o.higher_up) if up is not None and words in up.words
    )
    network = of.sheets.drain((*begin, answered(ask, value))).network
    added = [name for name in network.lines if name.startswith("other ")]
    assert added
    return {network.pieces[key].wall.nominal.value for name in added for key in network.lines[name]}


@pytest.mark.parametrize(
    ("house", "words", "size"),
    [
        (PLASTIC, "joins the house drain", 0.110),
        (PLASTIC, "down a stack of its own", 0.110),
        (PLASTIC, "a floor higher up than downstairs toilet", 0.110),
        (CLAY, "joins the back drain", 0.100),
    ],
)
def test_what_is_added_is_as_wide_as_the_house_has_such_pipe(house, words, size):
    assert list(sizes(house, words)) == pytest.approx([size])
