"""One push from one opening: what does not change while sightings come in."""

from __future__ import annotations

from copy import copy

from advisor.errors import BadInput, Fault
from advisor.kit.model import Loadout
from advisor.push.log.log import Entry
from advisor.push.now.across import faced
from advisor.push.now.course import Course
from advisor.push.now.drains import laundry_that_comes_up
from advisor.push.now.smallest import smallest_first
from advisor.push.now.way_gone import mouth_told, taken_as
from advisor.push.track.chart import Chart
from advisor.push.track.track import Tracker
from advisor.push.track.ways import ways_from
from advisor.result.study import Study
from advisor.site.looked_for import LookedFor, with_looks
from advisor.site.network import Network, Piece
from advisor.site.reached_in import with_chambers
from advisor.strict_yaml.model import nearest
from advisor.worlds.spread import middle


class Push:
    """What the push began with, the ways the rod may take and the chart of them."""

    def __init__(self, study: Study, start: Entry, begun: Study | None = None) -> None:
        """Raises BadInput where the sheet has no longer what the push began with.

        `begun` is the plan that it began with, by which it is followed, where `study` knows more by now.
        """
        self.study, self.began = study, start
        self.opening = _opening(study, str(start.data["opening"]))
        told = start.data.get("loadout")
        self.loadout = _loadout(study, told)
        # A kit may change while a push is open: it can still be followed and ended, but not without a word.
        self.gone = None if told in (None, self.loadout.name) else str(told)
        self.direction = taken_as(start)
        self.mouth = mouth_told(start, study.network, study.tables)
        self.course = Course(study, self.opening, self.loadout)
        rod = middle(study.drawn.kit(self.loadout).reel)
        followed = self.course if begun is None else Course(begun, self.opening, self.loadout)
        intent = followed.intent(self.direction, self.mouth)
        # A start with no number is none of the log: it begins now.
        self.looked_for = tuple(e for e in study.looked_for if not start.number or e.push < start.number)
        network = _as_it_began(study, self.looked_for)
        ways, self.cut = ways_from(network, self.opening, rod, study.tables, intent)
        if not ways:
            raise BadInput([Fault("push", 0, f"no pipe leads on from {self.opening.name} on this sheet")])
        chart = Chart(network, ways, study.tables.where)
        self.tracker = Tracker(chart, study.network.map_quality)
        self.smallest = smallest_first(chart.fixtures, study.network, study.tables)
        self.laundry = laundry_that_comes_up(study)  # nobody is told to run these
        self.faced = faced(study.network, self.opening, chart.fixtures, study.tables)

    def begun(self, start: Entry) -> Push:
        """The same ways from the same opening, begun with another start."""
        other = copy(self)
        other.began = start
        return other


def _as_it_began(study: Study, known: tuple[LookedFor, ...]) -> Network:
    """The drain without what this push and later ones saw of openings that may not be there."""
    if known == study.looked_for:
        return study.network
    return with_chambers(with_looks(study.network, known), study.tables)


def _opening(study: Study, name: str) -> Piece:
    found = [piece for piece in study.network.openings() if piece.name == name]
    if not found:
        known = [piece.name for piece in study.network.openings()]
        message = f"the push began at {name!r}, which is no opening of the sheet now{nearest(name, known)}"
        raise BadInput([Fault("push", 0, message)])
    return found[0]


def _loadout(study: Study, name: object) -> Loadout:
    """The gear of that name; where the kit has it no more, the first that is there."""
    return next((each for each in study.kit.loadouts if each.name == name), study.kit.loadouts[0])
