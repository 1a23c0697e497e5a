"""Invented drains for the tests beside the opening, and trackers on them."""

from __future__ import annotations

from advisor.push.track.chart import Chart
from advisor.push.track.track import Tracker
from advisor.push.track.ways import Intent, ways_from
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables

# In at a cleanout in the run; the kitchen and bath lines join towards the street, and beyond the wall of the
# house lies a two-way cleanout that nobody can find any more. The laundry joins the other way.
WALK = """
site: invented
region: north america
built: 1962
map: measured
lines:
  - line: house drain
    kind: drain
    size: 4 in
    material: cast iron
    slope: 1/4 in per ft
    pieces:
      - capped: yes
      - pipe: 3 m
      - joined by: laundry line
        fitting: wye
        side: left
      - pipe: 4 m
      - opening: floor plug
        kind: floor cleanout
        depth: 400 mm
      - pipe: 3 m
      - joined by: kitchen line
        fitting: wye
        side: left
      - pipe: 4 m
      - joined by: bath line
        fitting: wye
        side: right
      - pipe: 2 m
        landmark: outside wall
      - pipe: 1.5 m
      - opening: yard cleanout
        kind: two-way cleanout
        buried: yes
        depth: 900 mm
      - pipe: 12 m
      - end: public sewer
  - line: laundry line
    size: 2 in
    pieces:
      - fixture: laundry tub
      - pipe: 4 m
  - line: kitchen line
    size: 2 in
    pieces:
      - fixture: kitchen sink
      - pipe: 5 m
  - line: bath line
    size: 2 in
    pieces:
      - fixture: bath
      - pipe: 4 m
task: {look at: house drain, complaint: {holding: no}}
"""

# One line without forks, in at its upper end: a chain.
CHAIN = """
site: chain
region: north america
map: sketch
lines:
  - line: long drain
    kind: drain
    size: 4 in
    material: pvc
    pieces:
      - opening: top plug
        kind: end cleanout
        depth: 0.2 m
      - pipe: 4 m
      - bend: 1/8 bend
      - pipe: 3 m
      - joined by: side line
        fitting: wye
        side: left
        drawn: no
      - pipe: 5 m
      - bend: 1/8 bend
      - pipe: 6 m
      - joined by: far line
        fitting: wye
        side: right
        drawn: no
      - pipe: 30 m
      - end: public sewer
task: {look at: long drain, complaint: {holding: no}}
"""


def tracker_on(sheet: str, opening: str, rod: float = 40.0, intent: Intent | None = None) -> Tracker:
    network = network_of(site_of_text(sheet, "site", tables()), tables())
    way_in = next(piece for piece in network.openings() if piece.name == opening)
    ways, cut = ways_from(network, way_in, rod, tables(), intent)
    assert not cut
    return Tracker(Chart(network, ways, tables().where), network.map_quality)


UNKNOWN = Intent(ports=("down", "up"))
