"""What is found in a pipe: how it is known by the words of whoever wrote it, and what is recommended."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Annotated

from pydantic import Field

from advisor.tables.entry import Graded, Row, YesNo, one_of
from advisor.tables.open_past import CANNOT_TELL, FILLS, HARDLY

LOCATE = "locate it first"  # instead of a spade, where nobody is sure of the place
DIG = ("dig here", "bring it up", "new opening here", LOCATE)  # what takes a spade, now or then
WATCH = "watch"  # what is there stays
ADVICE = ("clean", "descale", "take out", "free it", WATCH, "ask first", "stop", "look again", *DIG)
CLEANING = ("clean", "descale")  # by whom the pipe is cut or cleaned
_BEFORE_CLEANING = ("stop", "ask first", "dig here", LOCATE)  # comes first of all
TOOLS = ("clean", "descale", "take out", WATCH, "look again")  # what sends something into the pipe

# Who is "not sure whether" denies nothing.
_BETWEEN = r"[^\w;]+"  # two words; `;` stands for what was taken out
_DENIED = re.compile(
    r"\b(?!not? (?:sure|known|clear|certain|idea|say|tell))(?:no|not|without|never)\s+(?:\w+\s+){0,2}$"
)


class Advised(Graded):
    """What is recommended, in one or a few sentences; `came_past`, where the lens came past it and saw on.
    `runs_water`: no step of it before the line is seen to drain."""

    advice: Annotated[str, one_of(*ADVICE)]
    says: str
    came_past: str = Field("", alias="came past")
    runs_water: YesNo = Field(False, alias="runs water")


class Found(Advised):
    """What is recommended for something in a pipe; where no scale grows on its wall that may be otherwise."""

    without_scale: Advised | None = Field(None, alias="where no scale grows")

    def on(self, scales: bool) -> Advised:
        """What is recommended on such a wall."""
        return self if scales or self.without_scale is None else self.without_scale


class FindRow(Found):
    """What is recommended where the operator wrote one of the words.

    `on_the_way` is what to heed of it in a push that comes to it again, where that is more than of any find;
    `not_past`, that no head goes past it; `clears`, what is told with a plan that ends there for it, and
    `cleared_by` how it is told that it is gone; `broken`, that the pipe is, with all that bars along it;
    `warns` are cautions of the site, by their ids, that are told at once. What never `holds_back` water by
    itself explains no complaint. With `fills` it is only what was told to fill a good part of the bore, with
    `fills_all` all of it; `first_have` is what is done with it before a camera goes in again; what
    `holds_a_head` may. `also` are rows, by their finds, whose advice is told with its own where their words
    stand too. `less` are phrases that make no such find. `otherwise`, without words of its own, is of what
    was told so where no row before keeps a head out of it, or none bars: told with every other.
    """

    find: str
    words: tuple[str, ...] = ()
    otherwise: YesNo = False
    less: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    warns: tuple[str, ...] = ()
    on_the_way: str | None = Field(None, alias="on the way")
    not_past: YesNo = Field(False, alias="not past")
    clears: str = ""
    cleared_by: str = Field("", alias="cleared by")
    fills: YesNo = Field(False, alias="fills the bore")
    fills_all: YesNo = Field(False, alias="fills all of it")
    broken: YesNo = False
    first_have: str = Field("", alias="first have")
    holds_a_head: YesNo = Field(False, alias="holds a head")
    holds_back: YesNo = Field(True, alias="holds back")

    @property
    def till_cleared(self) -> bool:
        """Whether a cutter or cleaning takes it away: what it bars it bars till then, else for good."""
        return self.advice in CLEANING


class ApartRow(Row):
    """Words, with no stop between them, by which a mass is told as gone or as elsewhere; never where one of
    `unless` stands."""

    words: tuple[str, ...]
    unless: tuple[str, ...]


class FilledRow(Graded):
    """Words by which something fills a good part of the bore, or all of it; `less`, of what leaves room, goes
    first, and before it what is `apart`: told as gone, or as lying elsewhere. `left` tell it by what is open
    still, in words that may stand in `less`."""

    apart: tuple[ApartRow, ...]
    left: tuple[str, ...] = ()
    less: tuple[str, ...]
    words: tuple[str, ...]

    def told_in(self, text: str) -> bool:
        """Whether that is told there."""
        for each in self.apart:
            if not any(re.search(_pattern(word), text) for word in each.unless):
                text = _without(each.words, text, r"\s+")
        return _one_stands(self.left, text) or _one_stands(self.words, _without(self.less, text))


class ShutRow(Advised):
    """What is recommended for an opening that does not open: of these kinds; of any where none is named."""

    kinds: tuple[str, ...] = ()


class StopRow(Found):
    """What is recommended where a stop was told with this sign."""

    sign: str


class NoToolRow(Graded):
    """What is told, before its hazards, where the plan warns of a pipe with one of these."""

    says: str
    hazards: tuple[str, ...]


class BarredRow(Graded):
    """What is told of finds that nothing may be sent through: before all advice, and before each for a place
    behind them."""

    always: str
    first: str


class NextRow(Graded):
    """What comes next where water stood or ran slow, and pushes went in."""

    unexplained: str
    drained: str  # as water was run
    looked: str  # as it stood
    before_water: str = Field(alias="before water")  # before an advice that runs any
    unseen: str
    beyond: str
    holds: str
    water: str


class FindsFile(Row):
    """finds.yaml."""

    harmless: tuple[str, ...]
    filled: FilledRow
    plugged: FilledRow
    finds: tuple[FindRow, ...]
    shut: tuple[ShutRow, ...]
    stopped: tuple[Advised, ...]
    between: tuple[Advised, ...]
    held: tuple[StopRow, ...]
    cleared: tuple[Advised, ...]
    nothing: tuple[Advised, ...]
    after: NextRow
    blind: tuple[str, ...]
    stoppage: tuple[str, ...]
    full: FilledRow
    barred: BarredRow
    bears_no_tool: NoToolRow = Field(alias="bears no tool")

    def for_find(self, what: str, past: str | None = None) -> FindRow | None:
        """The first row one of whose words stands in what the operator wrote; "no roots" is none.

        Here and below: `past` is how much of the pipe was told to be open past it, where that was asked.
        """
        return next(self._fitting(what, past), None)

    def advised(self, what: str, scales: bool, past: str | None = None) -> tuple[Advised, ...]:
        """Of the first row on such a wall, then of each that is told with it; one cleaning is enough."""
        told: dict[str, Advised] = {}
        for row in (each.on(scales) for each in _told_with(tuple(self._fitting(what, past)))):
            told.setdefault(row.advice if row.advice in CLEANING else row.says, row)
        return tuple(told.values())

    def that_bar(self, what: str, past: str | None = None) -> tuple[FindRow, ...]:
        """Every row that no head goes past: a crack with a root mass in it bars for the mass."""
        return tuple(row for row in self._fitting(what, past) if row.not_past)

    def that_fill(self, what: str, past: str | None = None) -> tuple[FindRow, ...]:
        """Every row of what fills a good part of the bore: nothing is pushed into it."""
        return tuple(row for row in self._fitting(what, past) if row.fills)

    def may_hold_water(self, what: str, past: str | None = None) -> bool:
        """Whether water that is run above it may come up: what no head goes past, what fills a good part of
        the bore, whatever it is, water that does, and what is told as a stoppage and nothing more."""
        told = what.lower()
        return (
            any(self._shut(told, past))
            or self.full.told_in(told)
            or (past is None and _one_stands(self.stoppage, what))
            or bool(self.that_bar(what, past))
        )

    def to_be_cleaned(self, what: str, past: str | None = None) -> FindRow | None:
        """The row by which it is cleaned or taken out before a camera goes in; not where any of it is left or
        dug first, nor, told by words alone, where what comes first of it bears no jet."""
        rows = tuple(self._fitting(what, past))
        told = rows if past else tuple(_told_with(rows)) if rows and rows[0].till_cleared else ()
        if past not in (None, *FILLS) or any(row.advice in _BEFORE_CLEANING for row in rows):
            return None
        return next((each for each in told if each.first_have and not each.not_past), None)

    def for_shut(self, kind: str) -> ShutRow:
        """The row for an opening of that kind that does not open."""
        return next(row for row in self.shut if not row.kinds or kind in row.kinds)

    def is_broken(self, what: str) -> bool:
        """Whether the pipe is, by anything in what the operator wrote."""
        return any(row.broken for row in self._fitting(what))

    def may_hold_back(self, what: str, past: str | None = None) -> bool:
        """Whether it may be what holds the water, by anything in what the operator wrote."""
        rows = tuple(self._fitting(what, past))
        return not rows or any(row.holds_back for row in rows)

    def tells(self, find: str, what: str) -> bool:
        """Whether the words of that row stand in what the operator wrote, among whatever else."""
        return any(row.find == find for row in self._fitting(what))

    def warnings(self, what: str) -> frozenset[str]:
        """The cautions of the site, by their ids, that anything in what the operator wrote calls for."""
        return frozenset(each for row in self._fitting(what) for each in row.warns)

    def _fitting(self, what: str, past: str | None = None) -> Iterator[FindRow]:
        told = what.lower()
        filled, plugged = self._shut(told, past)
        before: list[FindRow] = []
        for row in self.finds:
            if (row.fills and not filled) or (row.fills_all and not plugged):
                continue
            if row.otherwise:
                # What may be a pipe or cable says itself that nothing goes into it.
                lets = not row.not_past
                known = any(each.not_past or (lets and (each.fills or each.warns)) for each in before)
                fits = past is not None and not known
            else:
                fits = self._named(row, told)
            if fits:
                before.append(row)
                yield row

    def _named(self, row: FindRow, told: str) -> bool:
        """Whether one of its words stands there, however much that fills."""
        told = _without(self.harmless, told) if row.warns else told
        return _one_stands(row.words, _without(row.less, told))

    def _shut(self, text: str, past: str | None) -> tuple[bool, bool]:
        """Whether a good part of the bore is shut, and whether all of it: as it was told, and only where
        that was not asked, or nobody could tell all of it, by the words."""
        if past is None:
            return self.filled.told_in(text), self.plugged.told_in(text)
        return past in FILLS, past == HARDLY or (past == CANNOT_TELL and self.plugged.told_in(text))

    def is_blind(self, what: str) -> bool:
        """True where the operator says that the picture showed nothing there."""
        return _one_stands(self.blind, what)


def _told_with(rows: tuple[FindRow, ...]) -> Iterator[FindRow]:
    """The first, and what is told with it: so is what fills the bore, where the first clears none of it."""
    more = [each for each in rows if each.otherwise and not rows[0].till_cleared]
    return (each for each in rows if each is rows[0] or each in more or each.find in rows[0].also)


def _without(phrases: tuple[str, ...], text: str, between: str = _BETWEEN) -> str:
    for phrase in phrases:
        text = re.sub(_pattern(phrase, between), " ; ", text)
    return text


def _one_stands(words: tuple[str, ...], text: str) -> bool:
    return any(_stands(word, text.lower()) for word in words)


def _stands(phrase: str, text: str) -> bool:
    """True where the phrase stands there in words of its own and nobody denies it just before each time."""
    return any(not _DENIED.search(text[: found.start()]) for found in re.finditer(_pattern(phrase), text))


@cache
def _pattern(phrase: str, between: str = _BETWEEN) -> str:
    """Of "a/b ... c": one of a and b, then at most three words, then c."""

    def in_a_row(words: str) -> str:
        return between.join(f"(?:{'|'.join(map(re.escape, word.split('/')))})" for word in words.split())

    gap = rf"{between}(?:\w+{between}){{0,3}}"
    return rf"(?<!\w){gap.join(map(in_a_row, phrase.split(' ... ')))}(?!\w)"
