"""What was worked out for the plan before and still holds, so that a replan does only what changed.

A quantity's stream hangs on its name and its belief alone. So a passage or a route of the same content has
the same outcome, bit for bit, whether it is worked out anew or taken from here.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import TYPE_CHECKING, Generic, TypeVar

from advisor.kit.model import Kit, Loadout
from advisor.outcome.drawn import Drawn
from advisor.outcome.facts import Facts
from advisor.outcome.geometry import Geometry
from advisor.outcome.learned import BOOK, Learned
from advisor.outcome.meeting import Meeting
from advisor.routes.passage import Passage, Route
from advisor.rulebase.load import RuleBase
from advisor.rulebase.reader import Reader
from advisor.site.network import Piece, Wall
from advisor.tables.load import Tables
from advisor.worlds.draws import Worlds

if TYPE_CHECKING:
    from advisor.outcome.assess import RouteOutcome
    from advisor.outcome.rulings import Said

V = TypeVar("V")


class Kept(Generic[V]):
    """Values of this plan and the one before; older ones are dropped."""

    def __init__(self) -> None:
        self._last: dict[Hashable, V] = {}
        self._now: dict[Hashable, V] = {}

    def turn(self) -> None:
        """Another plan begins."""
        self._last, self._now = self._now, {}

    def get(self, key: Hashable, make: Callable[[], V]) -> V:
        """The value under a key, made where neither plan has it."""
        found = self._now.get(key)
        if found is None:
            found = self._last.get(key)
            self._now[key] = found = make() if found is None else found
        return found


class Memory:
    """One planner's memory; the assessor fills what is kept."""

    def __init__(self) -> None:
        self._numbers: dict[Piece | Wall, int] = {}
        self._seen: dict[int, tuple[Piece | Wall, int]] = {}
        self._ways: dict[Hashable, int] = {}
        self._drawn: Drawn | None = None
        self._loadouts: dict[str, Loadout] = {}  # of every kit that the draws were made for
        self._judges: tuple[RuleBase, Reader, Facts] | None = None
        self.shapes: Kept[Geometry] = Kept()
        self.meetings: Kept[Meeting] = Kept()
        self.said: Kept[Said] = Kept()  # by the rules, of each meeting
        self.outcomes: Kept[RouteOutcome] = Kept()

    def drawn(
        self, worlds: Worlds, tables: Tables, wet: bool | None, kit: Kit, learned: Learned = BOOK
    ) -> Drawn:
        """The draws of the plan before, where nothing that all draws rest on has changed."""
        kept = self._drawn
        wanted = (worlds.seed, worlds.n, worlds.chosen)
        same = kept is not None and (kept.worlds.seed, kept.worlds.n, kept.worlds.chosen) == wanted
        same = same and kept is not None and (kept.wet, kept.learned) == (wet, learned)
        gear = {loadout.name: loadout for loadout in kit.loadouts}
        # What is known of a loadout goes by its name: other loadouts may come and go, it may not change.
        same = same and all(self._loadouts.get(name, gear[name]) == gear[name] for name in gear)
        if kept is None or not same or kept.tables is not tables:
            kept = self._drawn = Drawn(worlds, tables, wet, learned)
            self._loadouts = {}
            self.shapes, self.meetings, self.said, self.outcomes = Kept(), Kept(), Kept(), Kept()
        self._loadouts |= gear
        self._seen = {}
        for each in (self.shapes, self.meetings, self.said, self.outcomes):
            each.turn()
        return kept

    def judge_by(self, base: RuleBase, reader: Reader, site: Facts) -> None:
        """With other rules, another reader or other facts of the whole site all is judged anew."""
        last = self._judges
        if last is None or last[0] is not base or last[1:] != (reader, site):
            self.said, self.outcomes, self._judges = Kept(), Kept(), (base, reader, site)

    def passage_key(self, passage: Passage) -> Hashable:
        """The same for passages of the same content."""
        walls = self._number(passage.wall_in), self._number(passage.wall_out)
        run, more = (tuple(map(self._number, each)) for each in (passage.run, passage.more))
        ports = passage.enters, passage.leaves, passage.by_hand
        return (self._number(passage.piece), *ports, *walls, passage.step_number, run, more)

    def route_key(self, route: Route) -> tuple[Hashable, ...]:
        """The same for routes of the same content."""
        return (*map(self.passage_key, route.passages), route.target_from, route.covers)

    def ways_in(self, route: Route) -> list[int]:
        """For each passage a number of the way in up to it: the same for the same content."""
        found, so_far = [], -1
        for passage in route.passages:
            key = (so_far, self.passage_key(passage))
            so_far = self._ways.setdefault(key, len(self._ways))
            found.append(so_far)
        return found

    def _number(self, part: Piece | Wall) -> int:
        # Content is hashed once a plan; within a plan a part is known by being the same object.
        found = self._seen.get(id(part))
        if found is None:
            found = self._seen[id(part)] = part, self._numbers.setdefault(part, len(self._numbers))
        return found[1]
