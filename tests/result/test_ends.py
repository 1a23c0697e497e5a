"""Where the pushes of a way in end: with those that arrive, every case is counted once."""

from __future__ import annotations

from itertools import islice

import pytest

from advisor.result.ends import ends_of
from tests.cases.jobs import kit_text, studied
from tests.practice.school import school

STRAIGHT = """
site: straight
region: britain
built: 1995
lines:
  - line: main
    kind: drain
    size: 100 mm
    material: pvc
    pieces:
      - opening: plug
        kind: end cleanout
{told}
      - pipe: {long}
      - end: public sewer
task: {{look at: main}}
"""


def test_the_shares_and_the_chance_are_one():
    looked = 0
    for study in islice(school().sites(3), 6):
        for ranked in study.ranked:
            if ranked.outcome.route.covers < 1:
                continue
            looked += 1
            ends = ends_of(ranked.outcome, study.reader)
            told = sum(end.share for end in ends) + ranked.outcome.chance
            # Told in whole per cent: each of some eight places may hide a half.
            assert 1 - 8 * 0.005 <= told <= 1 + 1e-6
            assert list(ends) == sorted(ends, key=lambda end: -end.share)
    assert looked > 10


@pytest.mark.parametrize(
    ("told", "least", "most", "why"),
    [
        (
            "        there: 30 %",
            0.66,
            1.0,
            "the opening may not be there, or may not open",
        ),  # 0.7 less 1,500 cases' luck
        ("        there: yes", 0.0, 0.5, "the opening may not open: nobody has tried it"),
        ("        opens: no", 1.0, 1.0, "it does not open"),
    ],
)
def test_what_the_sheet_says_of_the_opening_ends_that_share(told, least, most, why):
    study = studied(STRAIGHT.format(told=told, long="10 m"), kit_text())
    (end,) = [e for e in ends_of(study.ranked[0].outcome, study.reader) if e.where == "the opening"]
    assert least <= end.share <= most
    assert end.why == why


def test_what_was_opened_before_is_not_told_as_untried():
    """It was opened to run a machine from it: it opens more often, and nobody says that none has tried it."""
    shares = []
    for run in ("", "\n  history: {{machine runs: [{{on: 2024, in at: plug, to: 8 m}}]}}"):
        site = STRAIGHT.replace("task: {{look at: main}}", f"task:\n  look at: main{run}")
        study = studied(site.format(told="        there: yes", long="10 m"), kit_text())
        (end,) = [e for e in ends_of(study.ranked[0].outcome, study.reader) if e.where == "the opening"]
        shares.append(end.share)
        assert ("nobody has tried it" in end.why) == (not run)
        assert ("opened before" in end.why) == bool(run)
    assert shares[1] < 0.7 * shares[0]  # a quarter to a half of it, by the limit seized_again


def test_a_way_longer_than_the_rod_ends_at_its_length():
    study = studied(STRAIGHT.format(told="        opens: yes", long="400 m"), kit_text())
    (end,) = ends_of(study.ranked[0].outcome, study.reader)
    assert (end.where, end.share) == ("the length of the way", pytest.approx(1))
