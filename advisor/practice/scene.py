"""A site to practise on: made from a seed, planned as the advisor plans it, with one truth hidden in it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from advisor.archetype import Archetype, plausible_site
from advisor.errors import BadInput
from advisor.kit.model import Kit
from advisor.plan import Case, plan
from advisor.practice.marks import Marks, marks_of
from advisor.quantity import Units
from advisor.result.study import Study
from advisor.rulebase.load import RuleBase
from advisor.rulebase.trace import Firing
from advisor.site.sheet import SiteSheet, site_of_text, usual_units
from advisor.strict_yaml import Sheet, plain, written
from advisor.tables.load import Tables
from advisor.worlds.draws import Worlds

WORLDS = 300  # of one practice site: enough to rank, few enough that nobody waits
SITES = 50  # looked through for one that suits a drill
STRIDE = 1000  # seeds of sites do not meet those of the next drill
SIGNS = ("holding", "chemicals", "gas smell")
_SAFE = {"chemicals": "no", "gas smell": "no"}
Suits = Callable[[Study], bool]


@dataclass(frozen=True)
class School:
    """What every drill is made from: the rules, the typical buildings and a kit."""

    tables: Tables
    base: RuleBase
    buildings: tuple[Archetype, ...]
    kit: Kit
    units: Units | None = None  # of a job; without them those of each site's region

    @property
    def marks(self) -> Marks:
        """How answers are marked."""
        return marks_of(self.tables)

    def studied(self, text: str, name: str, seed: int, worlds: int = WORLDS) -> Study:
        """A site sheet planned for practice; raises BadInput."""
        return self._planned(self.kit, text, name, seed, worlds)

    def _planned(self, kit: Kit, text: str, name: str, seed: int, worlds: int) -> Study:
        sheet = site_of_text(text, name, self.tables)
        return plan(
            Case(sheet, kit, self.units or usual_units(sheet.model), worlds, seed), self.tables, self.base
        )

    def forbidden(self, study: Study, sign: str, said: str = "yes") -> Study:
        """The same site with a sign that no camera goes in yet: `holding`, `chemicals` or `gas smell`; with
        `unknown` it is one of which nobody has said anything."""
        text = with_sign(plain(self._sheet(study.seed).tree), sign, said)
        return self.studied(text, "site", study.seed, study.worlds)

    def _sheet(self, key: int) -> Sheet[SiteSheet]:
        return site_of_text(self._text(key), "site", self.tables)

    def _text(self, key: int) -> str:
        """A random house of which somebody has said that there is no gas and no cleaner, where it has none.

        Where nobody has said it the first thing is to ask, in each drill the same.
        """
        text = plausible_site(key, self.buildings, self.tables)
        tree = plain(site_of_text(text, "site", self.tables).tree)
        said = {**_SAFE, **tree["task"]["complaint"]}
        return written({**tree, "task": {**tree["task"], "complaint": said}})

    def sites(self, seed: int, suits: Suits | None = None, worlds: int = WORLDS) -> Iterator[Study]:
        """Random plausible sites that suit, the same for the same seed.

        `suits` looks at the drain before any way through it is judged, which is what takes time.
        """
        bare = replace(self.kit, loadouts=())
        for number in range(SITES):
            key = seed * STRIDE + number
            try:
                text = self._text(key)
                if suits is None or suits(self._planned(bare, text, "site", key, worlds)):
                    yield self.studied(text, "site", key, worlds)
            except BadInput:
                continue  # a house that the sheet's own checks refuse


def with_sign(tree: Any, sign: str, said: str) -> str:
    """A sheet on which something else is said of a sign."""
    task = {**tree.get("task", {})}
    task["complaint"] = {**task.get("complaint", {}), sign: said}
    return written({**tree, "task": task})


def verdicts(study: Study) -> tuple[Firing, ...]:
    """What says that no camera goes in yet: gas, chemicals, a line that holds."""
    return tuple(f for f in study.site_firings if f.outcome and f.rule.conclusion.verdict)


def not_known(study: Study) -> tuple[Firing, ...]:
    """What may say so yet: nobody has smelled, asked or looked."""
    return tuple(f for f in study.site_firings if f.outcome is None and f.rule.conclusion.verdict)


def may_push(study: Study) -> bool:
    """True where nothing says that no camera goes in yet."""
    return not verdicts(study)


def drains(study: Study) -> bool:
    """The same where somebody has seen the line drain: before that nobody goes in."""
    return may_push(study) and study.circumstances.holding is False


def open_to_push(study: Study) -> bool:
    """True where somebody may push and has a fair chance to get there."""
    return may_push(study) and study.settled.order.chance >= study.drawn.likely("drill_chance")


def draw(seed: int, key: str) -> float:
    """A number in (0, 1) for a key: all luck of practice comes from here."""
    return float(Worlds(seed, 1).uniform(f"practice/{key}")[0])


def pick(seed: int, key: str, count: int) -> int:
    """One of `count` by a keyed draw."""
    return min(int(draw(seed, key) * count), count - 1)


def shuffled(seed: int, key: str, count: int) -> list[int]:
    """The numbers 0 to count - 1 in an order of a keyed draw."""
    return sorted(range(count), key=lambda number: draw(seed, f"{key}/{number}"))
