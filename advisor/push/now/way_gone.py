"""Which way a push went: as it was told, until what was passed shows it to be the other way.

Whoever looks into a cleanout may take the one throat for the other, and all that is written of that push is
read by which way it went: where gear lies, where somebody digs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from advisor.push.log.kinds import AS_PLANNED, DOWN, PORTS, UNKNOWN, UP
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.sighting import Sighting, sighting_of
from advisor.push.track.chart import Chart
from advisor.push.track.contrary import contrary
from advisor.push.track.track import Belief, Tracker
from advisor.push.track.ways import Intent, ways_from
from advisor.site.mouths import Mouth, up_mouths
from advisor.site.network import Network
from advisor.tables.in_the_pipe import InPipeFile
from advisor.tables.load import Tables
from advisor.tables.where import number

OPEN = (UNKNOWN, AS_PLANNED)  # which way was meant is not told: it may be the same


@dataclass(frozen=True)
class WayGone:
    """As it was `told`, and the way that is believed: UNKNOWN where the way told is not sure and no other."""

    told: str
    way: str

    @property
    def doubted(self) -> Literal["", "other", "unsure"]:
        """How the way that was told stands: it holds, it is most likely the other one, or neither is sure."""
        if self.told in OPEN or self.way == self.told:
            return ""
        return "other" if self.way in (DOWN, UP) else "unsure"


def taken_as(start: Entry) -> str:
    """Which way a push is taken to go as it begins: as its opening, that has one throat, was found to lead by
    what an earlier one passed; else as it was told."""
    return str(start.data.get("found") or start.data.get("direction") or UNKNOWN)


def mouth_told(start: Entry, network: Network, tables: Tables) -> Mouth | None:
    """Into which mouth of the channel of its opening the head was told to be led; None where nobody told one,
    or the sheet has none of that name."""
    opening = next((each for each in network.openings() if each.name == start.data.get("opening")), None)
    name = entry_text(start, "mouth")
    return up_mouths(network, opening, tables).get(name) if opening is not None and name else None


def doubt_words(gone: WayGone, opening: str, words: InPipeFile) -> tuple[str, str]:
    """How the way told stands where it is in doubt, to be said behind the opening, and what is to be done of
    what lies there; nothing of one that holds."""
    if not gone.doubted:
        return "", ""
    row = words.other_way
    says = row.other if gone.doubted == "other" else row.unsure
    return says.format(told=gone.told, way=gone.way), row.locate.format(opening=opening)


def beliefs_of(tracker: Tracker, start: Entry, sightings: Sequence[Sighting]) -> tuple[Belief, ...]:
    """Where the head may have been before the first sighting and after each."""
    belief, shown = tracker.start(0.0), start.counter or 0.0
    if shown:  # the counter did not begin at nothing: it shows so much with the head at the opening
        belief = Belief(belief.mass, belief.gone, 0.0, -shown, 0.0, backed=False)
    found = [belief]
    for sighting in sightings:
        found.append(tracker.after(found[-1], sighting))
    return tuple(found)


def share_elsewhere(tracker: Tracker, belief: Belief, way: str) -> float:
    """How likely the head did not leave its opening that way; 1 where it is nowhere on the map."""
    mass = belief.mass.sum(axis=(0, 2))
    other = np.array([each.port not in PORTS[way] for each in tracker.chart.ways])
    whole = float(mass.sum())
    return float(mass[other].sum()) / whole if whole > 0 else 1.0


def mouth_gone(tracker: Tracker, run: Sequence[Entry]) -> str | None:
    """Into which mouth of a channel with several upstream a push went, by the line that begins there, by what
    it was told and passed up to where it was farthest in; None where that is not sure, or it has none."""
    chart = tracker.chart
    if len({way.mouth for way in chart.ways if way.port == "up"}) < 2:
        return None
    shares: dict[str, float] = {}
    for way, share in zip(chart.ways, _farthest(tracker, run).mass.sum(axis=(0, 2)), strict=True):
        if way.port == "up":
            joins = chart.network.pieces.get(way.mouth.junction)
            line = way.legs[0].line if joins is None else joins.branch or joins.name
            shares[line] = shares.get(line, 0.0) + float(share)
    likeliest = max(shares, key=lambda line: shares[line])
    return likeliest if shares[likeliest] > number(chart.where.sure.check_below) else None


def _farthest(tracker: Tracker, run: Sequence[Entry]) -> Belief:
    """Where the head may have been when it was farthest in, the last time."""
    beliefs = beliefs_of(tracker, run[0], tuple(filter(None, map(sighting_of, run[1:]))))
    return max(reversed(beliefs), key=lambda belief: belief.rod)


def way_gone(tracker: Tracker, run: Sequence[Entry]) -> WayGone:
    """Of a push, its start first: by what it passed up to where it was farthest in, and last so."""
    told = str(run[0].data.get("direction") or UNKNOWN)
    ports = [way.port for way in tracker.chart.ways]
    if told not in OPEN and PORTS[told][0] not in ports:
        return WayGone(told, told)  # the sheet draws nothing there: that is no proof of anything
    sightings = tuple(found for found in map(sighting_of, run[1:]) if found is not None)
    beliefs = beliefs_of(tracker, run[0], sightings)
    last = max(range(len(beliefs)), key=lambda count: (beliefs[count].rod, count))
    sure = tracker.chart.where.sure
    against = number(sure.other_way) if told in OPEN else 1 - number(sure.check_below)
    if told not in OPEN and contrary(tracker, sightings[:last], lambda count: beliefs[count]) is not None:
        return WayGone(told, UNKNOWN)
    for way in (DOWN, UP):
        if share_elsewhere(tracker, beliefs[last], way) < against:
            return WayGone(told, way)
    return WayGone(told, told if told in OPEN else UNKNOWN)


def way_by_map(run: Sequence[Entry], network: Network, tables: Tables) -> tuple[WayGone, str | None]:
    """The same where no plan is made yet, and into which mouth of a channel: by what the sheet draws alone;
    as told where it has not that opening."""
    told = str(run[0].data.get("direction") or UNKNOWN)
    opening = next((each for each in network.openings() if each.name == run[0].data["opening"]), None)
    if opening is None or told in OPEN:
        return WayGone(told, told), None
    intent = Intent(PORTS[taken_as(run[0])], mouth=mouth_told(run[0], network, tables))
    ways, _ = ways_from(network, opening, float("inf"), tables, intent)
    if not ways:
        return WayGone(told, told), None
    tracker = Tracker(Chart(network, ways, tables.where), network.map_quality)
    gone = way_gone(tracker, run)
    return gone, mouth_gone(tracker, run) if gone.way == UP else None
