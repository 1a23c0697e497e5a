"""Pipes from fork to fork, and which of them lie within a short way of a place.

Just before or just past a fork are two pipes, but for a spade one place. So a place counts as right where
the head is in the pipe that was named, from fork to fork, or within a short way along the pipes of it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from itertools import pairwise
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from advisor.site.network import Network, Piece

Node = tuple[str, str]


class Stretches:
    """The pipes between forks. The opening in use is a fork too, for the rod may lead either way there."""

    def __init__(
        self, network: Network, opening: Piece, undrawn: Mapping[str, Piece] = MappingProxyType({})
    ) -> None:
        """`undrawn` are the arms of double fittings that stand on no sheet, each with its junction."""
        self._cuts: dict[str, list[float]] = {}
        self._ends: list[tuple[tuple[float, Node], tuple[float, Node]]] = []
        self._first: dict[str, int] = {}
        self._at: dict[Node, list[int]] = defaultdict(list)
        for line, ids in network.lines.items():
            tops = network.positions(line)
            pieces = [network.pieces[each] for each in ids]
            nodes = [
                (tops[each.id], ("fork", each.id))
                for each in pieces
                if each.kind == "junction" or each.id == opening.id
            ]
            bottom = tops[ids[-1]] + pieces[-1].along
            last = pieces[-1]
            joins = network.links.get((last.id, "down"))
            foot = ("fork", joins[0]) if joins else ("end", line)
            self._add(line, (0.0, ("top", line)), nodes, (bottom, foot))
            if last.kind == "end" and last.name not in network.lines:
                # The sewer goes on where the drawing ends.
                self._add(last.name, (0.0, ("end", line)), [], (float("inf"), ("top", last.name)))

        for line, junction in undrawn.items():
            self._add(line, (float("-inf"), ("top", line)), [], (0.0, ("fork", junction.id)))

    def index(self, line: str, at: NDArray[np.floating[Any]]) -> NDArray[np.intp]:
        """The number of the stretch that each place lies in; `at` [N] in m from the upper end of its line."""
        return self._first[line] + np.searchsorted(self._cuts[line], at, side="right")

    def near(self, line: str, at: float, reach: float) -> frozenset[int]:
        """The stretch of a place, and all that come within `reach` m of it along the pipes."""
        first = int(self.index(line, np.array([at]))[0])
        found, seen = {first}, set[Node]()
        todo = [(reach - abs(at - end), node) for end, node in self._ends[first]]
        while todo:
            left, node = todo.pop(todo.index(max(todo)))
            if left < 0 or node in seen:
                continue
            seen.add(node)
            for stretch in self._at[node]:
                found.add(stretch)
                (low, upper), (high, lower) = self._ends[stretch]
                todo.append((left - (high - low), lower if node == upper else upper))
        return frozenset(found)

    def _add(
        self, line: str, top: tuple[float, Node], nodes: list[tuple[float, Node]], foot: tuple[float, Node]
    ) -> None:
        self._first[line], self._cuts[line] = len(self._ends), [at for at, _ in nodes]
        ends = [top, *nodes, foot]
        for upper, lower in pairwise(ends):
            for node in {upper[1], lower[1]}:
                self._at[node].append(len(self._ends))
            self._ends.append((upper, lower))
