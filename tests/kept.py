"""What the tests of one process share, so that a site that hundreds of them begin with is worked out once.

Only what is the same by its content is shared: nothing here may change what the program says. A test that
asks whether what is worked out anew comes out the same does so under `each_worked_out_anew`.
"""

from __future__ import annotations

import sys
from collections import deque
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from functools import cache, lru_cache
from typing import Any

import pytest
from prompt_toolkit.application import application
from prompt_toolkit.styles import style

from advisor.archetype.building import archetypes
from advisor.outcome.learned import BOOK
from advisor.outcome.memory import Kept, Memory
from advisor.paper.typeset import Press
from advisor.plan import plan
from advisor.rulebase.load import load_rules
from advisor.strict_yaml import tree
from advisor.tables.load import load_tables
from advisor.terminal.push import planned

_STATES = 8  # of the files of a folder: wounded ones come by the thousand
_PLANNERS = 12
_JUDGES = 8
_STUDIES = 60
_VALUES = 2000  # of one kind for one planner


@contextmanager
def keys_bound_once() -> Iterator[None]:
    """prompt_toolkit binds some hundred keys and reads some hundred styles anew for every question."""
    style_of = cache(style.Style)
    with pytest.MonkeyPatch.context() as patch:
        for module, name in ((application, "load_key_bindings"), (style, "_parse_style_str")):
            patch.setattr(module, name, cache(getattr(module, name)))
        patch.setattr(style, "Style", lambda rules: style_of(tuple(rules)))
        yield


@contextmanager
def pages_measured_once() -> Iterator[None]:
    """The same words on the same paper are as high in every test; a card tries many settings."""
    heights: dict[Any, float] = {}
    measure = Press.height

    def known(self: Press, data: Mapping[str, str]) -> float:
        key = (self._source, *sorted(data.items()))
        if key not in heights:
            heights[key] = measure(self, data)
        return heights[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Press, "height", known)
        yield


@contextmanager
def files_read_once() -> Iterator[None]:
    """Hundreds of tests begin by reading all of rules/; nobody changes what was read."""
    tree_of = lru_cache(256)(tree.tree_and_twice)

    def known_tree(text: str, file: str) -> Any:
        found, twice = tree_of(text, file)
        return found, list(twice)

    with pytest.MonkeyPatch.context() as patch:
        for name, real, known in (
            ("tree_and_twice", tree.tree_and_twice, known_tree),
            ("load_tables", load_tables, _by_files(load_tables)),
            ("load_rules", load_rules, _by_files(load_rules)),
            ("archetypes", archetypes, _by_files(archetypes)),
        ):
            for module in list(sys.modules.values()):
                if vars(module).get(name) is real:
                    patch.setattr(module, name, known)
        yield


def _by_files(read: Callable[..., Any]) -> Callable[..., Any]:
    """Of one state of the files of a folder and, where they are read by tables, of one set of those."""
    made: dict[Any, Any] = {}

    def known(rules: Any, *more: Any) -> Any:
        files = tuple((path, path.stat().st_mtime_ns) for path in sorted(rules.rglob("*.yaml")))
        key = (rules, files, *map(id, more[:1]))
        if key not in made:
            if len(made) == _STATES:
                made.clear()
            made[key] = (read(rules, *more), more)  # what an id stands for stays
        return made[key][0]

    return known


@contextmanager
def ways_worked_out_once() -> Iterator[None]:
    """The program's own memories know what such plans worked out in the tests before."""
    with _remembers_by(_Shared):
        yield


@contextmanager
def pushes_planned_once() -> Iterator[None]:
    """A push that stands as one in another test did goes by the same plan, whatever file its sheet is in."""
    made: deque[tuple[Any, Any, Any, Any]] = deque(maxlen=_STUDIES)

    def known(case: Any, tables: Any, base: Any) -> Any:
        unfiled = replace(case, sheet=replace(case.sheet, file="", tree=None))
        for told, by, judged, study in made:
            if by is tables and judged is base and told == unfiled:
                return study
        made.append((unfiled, tables, base, plan(case, tables, base)))
        return made[-1][-1]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(planned, "plan", known)
        yield


@contextmanager
def each_worked_out_anew() -> Iterator[None]:
    """The program's memories as they are, where those here replaced them."""
    with _remembers_by(Memory), pytest.MonkeyPatch.context() as patch:
        patch.setattr(planned, "plan", plan)
        yield


@contextmanager
def _remembers_by(kind: type[Memory]) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        for name, module in list(sys.modules.items()):
            if name.startswith("advisor.") and vars(module).get("Memory") in (Memory, _Shared):
                patch.setattr(module, "Memory", kind)
        yield


class _Long(Kept[Any]):
    """Keeps what is older than the plan before, too."""

    def turn(self) -> None:
        self._last = self._now if len(self._last) > _VALUES else self._last | self._now
        self._now = {}


class _Shared(Memory):
    """The memory of every planner with the same draws; what was judged is kept for each way of judging."""

    _homes: dict[Any, Memory] = {}  # noqa: RUF012 - shared is what it is for
    judged: dict[Any, Any]

    def drawn(self, worlds: Any, tables: Any, wet: Any, kit: Any, learned: Any = BOOK) -> Any:
        key = (worlds.seed, worlds.n, worlds.chosen, id(tables), wet, kit, learned)
        if key not in self._homes:
            if len(self._homes) == _PLANNERS:
                self._homes.clear()
            home = self._homes[key] = Memory()
            home.drawn(worlds, tables, wet, kit, learned)  # its draws hold the tables, so their id stands
            home.shapes, home.meetings = _Long(), _Long()
            home.judged = {}  # type: ignore[attr-defined]
        self.__dict__ = self._homes[key].__dict__
        return super().drawn(worlds, tables, wet, kit, learned)

    def judge_by(self, base: Any, reader: Any, site: Any) -> None:
        if "judged" not in vars(self):  # of draws that came from elsewhere
            super().judge_by(base, reader, site)
            return
        key = (id(base), repr(reader), repr(site))
        if key not in self.judged:
            if len(self.judged) == _JUDGES:
                self.judged.clear()
            self.judged[key] = (_Long(), _Long(), base)
        self.said, self.outcomes, _ = self.judged[key]
        self._judges = base, reader, site
