"""Random plausible houses: a typical building made particular, half of it seen and half of it not.

For drills and benchmarks. What is hidden is drawn by the planner's own worlds, so none is made here. The
shares below shape the mix of houses and claim nothing about real ones.
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import deepcopy
from typing import Any

from advisor.archetype.building import Archetype
from advisor.archetype.lot import Lot
from advisor.archetype.trouble import with_trouble
from advisor.quantity import Dimension, Units, parse_stated, show, without_assumed
from advisor.site.build import network_of
from advisor.site.network import Network, Piece
from advisor.site.pieces import Entry
from advisor.site.sheet import site_of_text
from advisor.strict_yaml import written
from advisor.tables.load import Tables

Tree = dict[str, Any]

SEEN = 0.5  # of each value: somebody has seen it; else it stays as assumed, or unknown
LAST_YEAR = 2020
_LONG = ("pipe", "drop", "belly")
_YARD = (("two-way cleanout", 0.5), ("yard cleanout", 0.3), ("twin cleanout", 0.2))


def plausible_site(seed: int, archetypes: Sequence[Archetype], tables: Tables) -> str:
    """YAML text of a random house, the same for the same seed, archetypes and tables."""
    lot = Lot(seed)
    archetype = lot.one_of(archetypes)
    year = lot.year(archetype.first_year, archetype.last_year or LAST_YEAR)
    house = _House(archetype, year, lot, tables)
    kept: Tree = {key: archetype.tree[key] for key in ("shared", "pumps", "septic") if key in archetype.tree}
    tree: Tree = {
        "site": f"house {seed}",
        "region": archetype.region,
        "built": str(year) if lot.chance(0.8) else "unknown",
        "map": lot.weighed((("measured", 0.3), ("sketch", 0.5), ("guess", 0.2))),
        **kept,
        "lines": house.lines(),
    }
    return written(with_trouble(tree, lot, tables))


class _House:
    def __init__(self, archetype: Archetype, year: int, lot: Lot, tables: Tables) -> None:
        self.lot, self.tables, self.year, self.region = lot, tables, year, archetype.region
        self.units = Units.METRIC if archetype.region == "britain" else Units.INCH
        self.tree = deepcopy(archetype.tree) | {"built": str(year)}
        # What is likely at each place is what the planner would take there.
        sheet = site_of_text(written(self.tree), archetype.id, tables)
        self.network: Network = network_of(sheet, tables)
        self.entries: list[tuple[Entry, ...]] = [line.pieces for line in sheet.model.lines]

    def lines(self) -> list[Tree]:
        """Every line with its pieces."""
        return [self._line(number, line) for number, line in enumerate(self.tree["lines"])]

    def _line(self, number: int, line: Tree) -> Tree:
        pieces = [
            piece
            for entry, made in zip(self.entries[number], line["pieces"], strict=True)
            for piece in self._piece(entry, made)
        ]
        self._trouble_in_the_pipe(line["line"], pieces)
        top = self.network.pieces[self.network.lines[line["line"]][0]]
        head = {"line": line["line"], "kind": line["kind"], "size": self._named(line["size"])}
        return {**head, **self._wall(line, top), "pieces": pieces}

    def _wall(self, given: Tree, piece: Piece) -> Tree:
        """Material and condition as the planner would take them there, each seen or not."""
        wall: Tree = {}
        material = self.lot.weighed(piece.wall.material.options)
        condition = self.lot.weighed(self.tables.likely_condition(material, self.year).options)
        if self.lot.chance(SEEN):
            wall["material"] = material
        elif "material" in given:
            wall["material"] = given["material"]
        if self.lot.chance(SEEN / 2):  # few have looked inside
            wall["condition"] = condition
        elif "condition" in given:
            wall["condition"] = given["condition"]
        if self.lot.chance(SEEN / 4):
            least = self.tables.minimum_slope(self.region, piece.wall.nominal.value).value
            slope = show(self.lot.between(0.5, 2.0) * least, Dimension.SLOPE, self.units)
            wall["slope"] = slope
        return wall

    def _piece(self, entry: Entry, made: Tree) -> list[Tree]:
        piece = next((p for p in self.network.pieces.values() if p.entry is entry), None)
        made = dict(made)
        for key in _LONG:
            if key in made:
                made[key] = self._length(made[key])
        if "fitting" in made and piece is not None and piece.fitting is not None:
            made["fitting"] = self._fitting(made["fitting"], piece.fitting.options)
        if "bend" in made and piece is not None and piece.fitting is not None:
            made["bend"] = self._fitting(made["bend"], piece.fitting.options)
        if "depth" in made:
            made["depth"] = self._length(made["depth"])
        for key in ("trap", "tank"):
            if key in made:
                made[key] = self._named(made[key])
        if "change" in made:
            made["change"] = self._change(made["change"], entry)
        if "opening" in made:
            return self._opening(made)
        return [made]

    def _change(self, given: Tree, entry: Entry) -> Tree:
        line = next(line for line in self.entries if any(each is entry for each in line))
        below = line[next(i for i, each in enumerate(line) if each is entry) + 1 :]
        after = next(p for p in self.network.pieces.values() if any(p.entry is each for each in below))
        return {"kind": given["kind"], "size": self._named(given["size"]), **self._wall({}, after)}

    def _opening(self, made: Tree) -> list[Tree]:
        """Openings in doubt: some are surely there, some surely not, of the rest nobody knows."""
        there = made.pop("there", None)
        if there is not None:
            share = parse_stated(there, Dimension.SHARE).likely
            if not self.lot.chance(SEEN):
                made["there"] = there
            elif not self.lot.chance(share):
                return []
        if made["opening"] == "yard cleanout":
            kind = self.lot.weighed(_YARD)
            made["kind"] = kind if "there" not in made else f"assumed {kind}"
        elif "kind" in made:
            made["kind"] = self._named(made["kind"])
        if "there" not in made and self.lot.chance(0.2):
            made["opens"] = "yes"
        if made.get("kind") in ("yard cleanout", "two-way cleanout") and self.lot.chance(0.15):
            made |= {"buried": "yes", "depth": self._shown(self.lot.between(0.2, 0.8))}
        return [made]

    def _trouble_in_the_pipe(self, name: str, pieces: list[Tree]) -> None:
        """Bends and cleanouts that no typical building has, a sag, a shifted joint: on drains only."""
        ids = self.network.lines[name]
        if self.network.pieces[ids[-1]].kind != "end" and not self.lot.chance(0.3):
            return
        level = ("bend", self.tables.likely_bend(self.region, self.year, "level").options)
        for _ in range(self.lot.weighed(((0, 0.4), (1, 0.4), (2, 0.2)))):
            bend = self.lot.weighed(level[1])
            self._insert(pieces, {"bend": bend if self.lot.chance(SEEN) else "unknown"})
        if self.lot.chance(0.25):
            length = self._shown(self.lot.between(0.8, 3.5))
            self._insert(pieces, {"belly": length if self.lot.chance(SEEN) else "unknown"})
        if self.lot.chance(0.2):
            step = self._shown(self.lot.between(0.003, 0.015))
            self._insert(pieces, {"joint": "offset", "step": step if self.lot.chance(SEEN) else "unknown"})
        if self.lot.chance(0.12) and self.network.pieces[ids[-1]].kind == "end":
            kind = "inspection chamber" if self.region == "britain" else "floor cleanout"
            self._insert(pieces, {"opening": "another opening", "kind": kind})

    def _insert(self, pieces: list[Tree], piece: Tree) -> None:
        """Behind a level run of pipe, with a little more pipe behind it, so that no two fittings touch."""
        places = [i for i, each in enumerate(pieces) if "pipe" in each and i + 1 < len(pieces)]
        if places:
            at = self.lot.one_of(places) + 1
            pieces[at:at] = [piece, {"pipe": self._shown(self.lot.between(0.5, 2.5))}]

    def _length(self, given: str) -> str:
        """Seen: a length out of the range; else as assumed, seldom not even that."""
        if not self.lot.chance(SEEN):
            return "unknown" if self.lot.chance(0.2) else given
        stated = parse_stated(given, Dimension.LENGTH)
        low, high = (
            (stated.low, stated.high) if stated.low < stated.high else (0.7 * stated.low, 1.4 * stated.low)
        )
        return self._shown(self.lot.between(low, high))

    def _fitting(self, given: str, options: tuple[tuple[str, float], ...]) -> str:
        return self.lot.weighed(options) if self.lot.chance(SEEN) else given

    def _named(self, given: str) -> str:
        """A value that is not in doubt: seen, or still assumed."""
        return without_assumed(given)[0] if self.lot.chance(SEEN) else given

    def _shown(self, metres: float) -> str:
        return show(metres, Dimension.LENGTH, self.units)
