"""Random houses as site sheets: by the trade's rules, a third of the fittings and conditions not known."""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import Any

import numpy as np
import yaml

from advisor.tables.load import Tables

UNKNOWN_SHARE = 1 / 3
Piece = dict[str, Any]


class House(ABC):
    """What all houses have in common: a region, a year, and how a surveyor would fill in the sheet."""

    region = "north america"

    def __init__(self, number: int, seed: int, tables: Tables) -> None:
        self.number, self.tables = number, tables
        self.draw = np.random.default_rng([seed, number])
        self.year = int(self.draw.integers(1905, 2015))
        self.lines: list[dict[str, Any]] = []
        self.target = ""

    def chance(self, share: float) -> bool:
        """True in that share of houses."""
        return bool(self.draw.random() < share)

    def metres(self, low: float, high: float) -> str:
        """A length between two, in m."""
        return f"{self.draw.uniform(low, high):.2f} m"

    def one_of(self, *names: str) -> str:
        """Any of the names."""
        return names[int(self.draw.integers(len(names)))]

    def pipe(self, low: float, high: float, **more: str) -> Piece:
        """A straight run."""
        return {"pipe": self.metres(low, high), **more}

    def bend(self, turning: str) -> Piece:
        """A bend of a kind that is laid there, or one that nobody has seen."""
        if self.chance(UNKNOWN_SHARE):
            return {"bend": "unknown"}
        return {"bend": self._pick(self.tables.likely_bend(self.region, self.year, turning).options)}

    def junction(self, line: str, lie: str, branch: float, main: float) -> Piece:
        """A junction of a kind that is laid there (sizes in m), or one that nobody has seen."""
        side = self.one_of("left", "right")
        found = self.tables.likely_junction(self.region, self.year, lie, branch, main)
        fitting = "unknown" if self.chance(UNKNOWN_SHARE) else self._pick(found.options)
        return {"joined by": line, "fitting": fitting, "side": side}

    def line(self, name: str, kind: str, size: str, pieces: list[Piece]) -> None:
        """A whole line, its material and condition told or not."""
        self.lines.append(
            {"line": name, "kind": kind, "size": size, **self.pipe_stuff(kind), "pieces": pieces}
        )

    def pipe_stuff(self, place: str) -> dict[str, str]:
        """Material and condition of a stretch: likely ones for its year, a third of them not known."""
        material = self._pick(self.tables.likely_material(self.region, self.year, place).options)
        condition = self._pick(self.tables.likely_condition(material, self.year).options)
        stuff = {}
        if not self.chance(UNKNOWN_SHARE):
            stuff["material"] = material
        if not self.chance(UNKNOWN_SHARE):
            stuff["condition"] = condition
        return stuff

    @property
    def openings(self) -> int:
        """How many places there are where a rod may go in."""
        return sum(
            "opening" in piece or "fixture" in piece for line in self.lines for piece in line["pieces"]
        )

    @abstractmethod
    def build(self) -> str:
        """Draw the lines and give the sheet's text."""

    def text(self) -> str:
        """The sheet as a surveyor would hand it in."""
        sheet = {
            "site": f"house {self.number}",
            "region": self.region,
            "built": "unknown" if self.chance(0.15) else str(self.year),
            "map": self.one_of("measured", "sketch", "sketch", "guess"),
            "lines": self.lines,
            "task": {"look at": self.target, "complaint": {"holding": "no"}},
        }
        return yaml.safe_dump(sheet, sort_keys=False)

    def _pick(self, options: tuple[tuple[str, float], ...]) -> str:
        shares = np.array([share for _, share in options])
        return options[int(self.draw.choice(len(options), p=shares / shares.sum()))][0]
