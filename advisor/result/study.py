"""Everything that planning found, in memory; the Plan is its serialisable projection."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.kit.model import Kit
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.drawn import Drawn
from advisor.outcome.facts import Circumstances, Facts
from advisor.quantity import Units
from advisor.ranking.part import Part
from advisor.ranking.score import Ranked
from advisor.ranking.settle import Settled
from advisor.result.barred import Barred
from advisor.routes.passage import Route
from advisor.rulebase.load import RuleBase
from advisor.rulebase.reader import Reader
from advisor.rulebase.trace import Firing
from advisor.site.looked_for import LookedFor
from advisor.site.network import Network
from advisor.site.suspects import Suspect
from advisor.site.target import Target
from advisor.tables.load import Tables


@dataclass(frozen=True)
class Study:
    """One case, worked through: what was believed, drawn, assessed, ruled and ranked."""

    network: Network
    target: Target
    suspects: tuple[Suspect, ...]
    kit: Kit
    circumstances: Circumstances
    site_facts: Facts
    site_firings: tuple[Firing, ...]
    routes: tuple[Route, ...]
    routes_cut: bool
    outcomes: tuple[RouteOutcome, ...]
    settled: Settled
    drawn: Drawn
    tables: Tables
    base: RuleBase
    reader: Reader
    seed: int
    worlds: int
    preview_of: int | None
    barred: Barred  # what pushes have taken from every plan of the job
    part: Part | None = None  # what is gone for instead of the whole, where nothing pays for all of it
    book: Study | None = None  # the same by the book, where something learned was used
    looked_for: tuple[LookedFor, ...] = ()  # what pushes told of openings that may not be there

    @property
    def units(self) -> Units:
        """The units in which numbers are told."""
        return self.reader.units

    @property
    def wanted(self) -> Target:
        """What the sheet asks to be seen, whether or not the plan goes for all of it."""
        return self.part.of if self.part else self.target

    @property
    def usable(self) -> tuple[RouteOutcome, ...]:
        """The ways with gear that may go in."""
        return tuple(each for each in self.outcomes if self.barred.usable(each.route, each.loadout))

    @property
    def look_into(self) -> str:
        """Where it shows whether the line is holding: what is full far above shows nowhere below."""
        high = self.site_facts["site.stands_high"]
        return f"{high} and the lowest fixture" if high else "the lowest fixture"

    @property
    def chance(self) -> float:
        """The chance that the order of attempts ends the job: a part does where the trouble lies in it."""
        return self.settled.order.chance * (self.part.trouble if self.part else 1.0)

    @property
    def ranked(self) -> tuple[Ranked, ...]:
        """The routes, best first, each with its best loadout."""
        return self.settled.ranked
