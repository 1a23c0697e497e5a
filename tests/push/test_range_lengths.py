"""A pipe with a range is as unsure for the head's place as for the plan and its card.

A kitchen line in from the sink, as a session drew it on a map that is a guess: two bends, the second behind
1 to 2 ft and 1 to 3 ft of drop. By hand, triangles between those ends: the sink's own tee (0.6 ft by the
tables), then 2 ft to the first bend and 3.5 ft more to the sweep: it comes 6.1 ft in, in 80 of 100 cases from
5.3 to 6.9 ft (variance (2^2 + 1^2 + 2^2)/24 ft2). The card said 5.6 to 7.1 ft.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import SIGHTING
from advisor.push.now.ahead import next_hard
from advisor.push.now.now import Now
from advisor.push.track.fix import named
from tests.terminal.test_now_shown import pushed

FT = 0.3048
KITCHEN = """
site: invented
region: north america
built: 1994
map: guess
lines:
  - line: house drain
    kind: drain
    size: 3 in
    pieces:
      - fixture: toilet
      - pipe: assumed 20 to 60 ft
      - joined by: kitchen line
        fitting: wye
      - pipe: assumed 5 to 12 ft
      - end: public sewer
  - line: kitchen line
    kind: branch
    size: 2 in
    pieces:
      - fixture: kitchen sink
      - pipe: assumed 1 to 3 ft
      - bend: assumed 1/4 bend
      - drop: assumed 1 to 2 ft
      - opening: wall plug
        kind: wall cleanout
        opens: no
        size: 2 in
      - drop: assumed 1 to 3 ft
      - bend: assumed long sweep
      - pipe: assumed 8 to 25 ft
task:
  look at: kitchen line
  complaint: {slow: [kitchen sink], holding: no, chemicals: no}
"""


def after(*readings: tuple[float, str]) -> Now:
    told = [(SIGHTING, feet * FT, {"what": what}) for feet, what in readings]
    return pushed(KITCHEN, "kitchen sink", *told, direction="downstream")


def test_a_bend_in_the_span_of_the_card_is_the_one_that_stands_there():
    now = after((2.8, "bend"), (6.9, "bend"))
    found = named(now.push.tracker, now.belief, now.sightings[-1])
    assert found[0].landmark.at == pytest.approx(6.1 * FT, abs=0.1 * FT)
    assert found[0].chance > now.push.tracker.chart.where.sure.name_landmark.value


def test_what_was_seen_there_and_left_behind_comes_no_more():
    now = after((2.8, "bend"), (6.9, "bend"), (12.5, "nothing"))
    hard = next_hard(now.push.tracker, now.belief, now.push.course.hard, frozenset())
    assert hard is None or hard.met.along(now.push.tracker.chart.ways[0]) > 20 * FT
    assert now.along == pytest.approx((6.1 + 12.5 - 6.9) * FT, abs=0.5 * FT)
