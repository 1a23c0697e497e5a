"""What stands on a card, as plain data: every line knows what it is worth when the page is too short."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from textwrap import shorten

from advisor.card import worth

KEPT = 1000  # worth of what never goes
LETTERS = 60  # about what a row of type holds, between a half sheet, a column and a whole page
STRIP_ROWS = 7  # of type, about as high as the drawing
NAMED = 76  # layout: letters by which something is named that finds no room: the longest sign is whole
MOST_ITEMS = 9  # of a list: fewer than ten are read (Gawande's checklists, as told in several places)


@dataclass(frozen=True)
class Line:
    """One item; the line of least worth goes first, and what it has beyond its name or few words before it.

    `steps` are one unit: half a technique reads like a whole one, and it is the missing half that hurts.
    """

    text: str
    worth: int
    strong: bool = False
    steps: tuple[str, ...] = ()
    rest_worth: int = KEPT
    steps_left: bool = False  # it has steps, and they stand elsewhere
    short: str = ""  # what it says in few words
    called: str = ""  # its name, for where not even these find room

    def bare(self) -> Line:
        """The line in few words, and without its steps: it says that there are some."""
        left = self.steps_left or bool(self.steps)
        return replace(self, text=self.short or self.text, short="", steps=(), steps_left=left)


Part = tuple[int, int]  # worth and place

# From which worth of a whole row on: the worth of its few words.
_ROWS = (
    (KEPT, KEPT),
    (worth.FOUND_ROW, worth.FOUND_ROW),
    (worth.LIKELIEST_ROW, worth.LIKELIEST_ROW),
    (worth.HARD_SIGHT, worth.HARD_ROW),
    (worth.FOUND_MILD, worth.FOUND_MILD),
    (worth.TURNING_SIGHT, worth.TURNING_ROW),
    (worth.EASY_SIGHT, worth.EASY_ROW),
)


@dataclass(frozen=True)
class Sight:
    """One row of the route table: a counter reading, what comes into view, and what to make of it."""

    reading: str
    span: str
    see: str
    do: str  # and what the hand should feel
    missed: str
    hard: bool
    worth: int
    short: str = ""  # the row in its few words
    heed: str = ""  # what can hurt there, and that the part to see begins: told with them
    behind: str = ""  # what lies behind the end, for half a sheet, which has no room for `missed`
    likeliest_end: str = ""  # where pushes mostly end: how likely, what to try, when to leave, in few words
    rest_worth: int = KEPT  # of what it has beyond these
    bare: bool = False  # only the few words are told
    ease: float = 0.0  # of hard places the easier goes first, 0 to 1

    def halved(self) -> Sight:
        """The row of half a sheet, where what it has beyond its few words goes before these."""
        row = next(value for least, value in _ROWS if self.worth >= least)
        rest = worth.HARD_SIGHT if self.hard else worth.TURNING_SIGHT
        return replace(self, worth=row, rest_worth=min(self.worth, rest))


@dataclass(frozen=True)
class Block:
    """A list under a heading; `how` says whether it is read and done, or done and then checked."""

    title: str
    how: str
    lines: tuple[Line, ...]
    spot: bool = False  # of a hard spot: told with all that it has of names and of when to leave, or not
    ease: float = 0.0  # as of a row


@dataclass(frozen=True)
class Box:
    """A danger in its box: signal word, text, and what it says in few words, with nothing less to do."""

    word: str
    text: str
    short: str = ""

    def bare(self) -> Box:
        """The box in few words."""
        return replace(self, text=self.short or self.text, short="")


@dataclass(frozen=True)
class Card:
    """A whole card; `left_out` counts the lines that found no room."""

    job: str
    date: str
    opening: str
    where: str
    target: str
    kit: tuple[str, ...]
    keys: tuple[tuple[str, str], ...]  # a number that must be found at a glance, and what it is
    pull_rests_on: str  # the last of these
    minds: tuple[str, ...]  # remarks: what makes the way hard, beside the numbers that it speaks of
    boxes: tuple[Box, ...]
    sights: tuple[Sight, ...]
    stuck: tuple[Block, ...]  # one for each hard spot, by counter reading
    blocks: tuple[Block, ...]  # before, water, marks, after, assumed
    log_rows: int
    strip: str  # the drawing, as SVG
    strip_words: str  # the drawing in words
    strip_signs: str  # what its marks mean
    strip_worth: int
    log_worth: int
    stands: str = ""  # how far from what that is, where it was told
    lasts: str = ""  # how far the push lasts: no limit, and not among them
    fallback: tuple[Line, ...] = ()  # for the back: what to open when this way fails
    chance: tuple[Line, ...] = ()  # for the back: how the chance was found
    first: str = ""  # what is done before anything is opened: it never goes
    first_left: str = ""  # behind it: what else is left
    lead: str = ""  # before the name of the opening
    gets_there: str = ""  # the chance of the whole push, behind the target
    called: tuple[str, str] = ("", "")  # how this and `first_left` are named where they find no room
    minds_worth: int = worth.MIND
    untold: tuple[
        str, ...
    ] = ()  # what was met and what is done before, where not even its few words find room
    unsaid: tuple[str, ...] = ()  # of the chance and of what is left, where they went: named at the end
    overleaf: bool = False  # what can hurt and what bars alone are more than this paper holds
    left_out: int = 0

    def parts(self) -> list[Part]:
        """What may go, as worth and place; the least valuable first, of equals the easier, then the later."""
        pieces = enumerate(self._pieces())
        found = sorted((value, -ease, -place) for place, (value, ease, _) in pieces if value < KEPT)
        return [(value, -place) for value, _, place in found]

    def without(self, gone: Collection[Part]) -> Card:
        """The card without some of its parts, which are counted as left out."""
        places = {place for _, place in gone}
        number = iter(range(len(self._pieces())))

        def keep() -> bool:
            return next(number) not in places

        def row(sight: Sight) -> Sight | None:
            stays, whole, what = keep(), keep(), keep()
            less = replace(sight, bare=sight.bare or not whole)
            return replace(less, likeliest_end=sight.likeliest_end if what else "") if stays else None

        untold: list[str] = []

        def left(block: Block) -> Block:
            kept = [(line, keep(), keep()) for line in block.lines]  # the second is of what it has besides
            if block.spot and any(line.worth >= worth.STUCK_HEAD and not stays for line, stays, _ in kept):
                return replace(block, lines=())
            lines = tuple(line if whole else line.bare() for line, stays, whole in kept if stays)
            untold.extend(line.called for line, stays, _ in kept if line.called and not stays)
            return replace(block, lines=lines)

        boxes = tuple(box if keep() else box.bare() for box in self.boxes)
        minds = tuple(words for words in self.minds if keep())
        stuck, blocks = (tuple(left(block) for block in each) for each in (self.stuck, self.blocks))
        rows = [(sight, row(sight)) for sight in self.sights]
        met = (each.short for each, stays in rows if stays is None and each.worth >= worth.FOUND_ROW)
        strip, log_rows = self.strip if keep() else "", self.log_rows if keep() else 0
        ahead = [told if keep() else "" for told in (self.gets_there, self.first_left)]
        unsaid: list[str] = []
        for had, has, name in zip((self.gets_there, self.first_left), ahead, self.called, strict=True):
            unsaid += [name] if had and not has and name else []
        return self._less(
            replace(
                self,
                boxes=boxes,
                minds=minds,
                stuck=stuck,
                blocks=blocks,
                sights=tuple(stays for _, stays in rows if stays is not None),
                untold=tuple(dict.fromkeys((*self.untold, *map(_named, met), *untold))),
                unsaid=tuple(dict.fromkeys((*self.unsaid, *unsaid))),
                strip=strip,
                log_rows=log_rows,
                gets_there=ahead[0],
                first_left=ahead[1],
            )
        )

    def limited(self) -> Card:
        """The card with no more items to a list than are read; what is over is counted as left out."""
        stuck, blocks = (tuple(_few(block) for block in each) for each in (self.stuck, self.blocks))
        return self._less(replace(self, stuck=stuck, blocks=blocks))

    def short(self) -> Card:
        """The card without lists, drawing, log and what to bring, all counted; what can hurt in few words."""
        grave = tuple(
            replace(block, lines=tuple(line.bare() for line in block.lines if line.worth >= worth.MACHINE))
            for block in self.blocks
        )
        less = replace(
            self, blocks=grave, kit=self.kit[:1], pull_rests_on="", stands="", strip="", log_rows=0
        )
        return self._less(replace(less, sights=tuple(sight.halved() for sight in self.sights)))

    def _less(self, less: Card) -> Card:
        """A card that holds less of this one, with every item that went counted."""
        return replace(less, left_out=self.left_out + self._items() - less._items())

    def _items(self) -> int:
        lines = [line for block in (*self.stuck, *self.blocks) for line in block.lines]
        steps = sum(len(line.steps) for line in lines)
        rows = sum(not sight.bare for sight in self.sights)  # one in its few words is not whole
        whole = len(lines) + steps + len(self.kit) + len(self.minds) + rows
        return whole + bool(self.strip) + bool(self.log_rows)

    def rows(self) -> list[int]:
        """About how many rows of type each part takes, by its place: a first guess for the fitting."""
        return [rows for _, _, rows in self._pieces()]

    def _pieces(self) -> list[tuple[int, float, int]]:
        """Worth, ease and rows of every part, in the order of `without`; what is not there never goes."""
        found: list[tuple[int, float, int]] = []
        for box in self.boxes:
            rest = _rows(box.text) - _rows(box.short)
            found.append((worth.BOX_WORDS if box.short else KEPT, 0.0, rest))
        found.extend((self.minds_worth, 0.0, _rows(words)) for words in self.minds)
        for block in (*self.stuck, *self.blocks):
            for line in block.lines:
                rest = sum(map(_rows, line.steps)) + bool(line.short)
                found.append((line.worth, block.ease, _rows(line.text)))
                found.append((line.rest_worth if rest else KEPT, 0.0, rest))
        for sight in self.sights:
            found.append((sight.worth, sight.ease, 1))
            found.append((KEPT if sight.bare else sight.rest_worth, sight.ease, 2 if sight.hard else 1))
            what = worth.LIKELIEST_END if sight.likeliest_end else KEPT
            found.append((what, sight.ease, _rows(sight.likeliest_end)))
        found.append((self.strip_worth if self.strip else KEPT, 0.0, STRIP_ROWS))
        found.append((self.log_worth if self.log_rows else KEPT, 0.0, 2 * self.log_rows))
        found.append((worth.GETS_THERE if self.gets_there else KEPT, 0.0, 1))
        found.append((worth.GETS_THERE if self.first_left else KEPT, 0.0, 1))
        return found


def _named(told: str) -> str:
    """What a push met, by as much of its row as names it: what stands behind it or in brackets is how it is
    known."""
    return shorten(told.split(";")[0].partition(" (")[0], NAMED, placeholder=" ...")


def _rows(text: str) -> int:
    return 1 + len(text) // LETTERS


def _few(block: Block) -> Block:
    """A list of no more items than are read.

    The steps of a technique are a list of their own; those of a second one stay only where all together are
    few enough. What never goes stays beyond the limit.
    """
    kept = list(block.lines)
    while len(kept) > MOST_ITEMS and min(line.worth for line in kept) < KEPT:
        least = min(line.worth for line in kept)
        kept.pop(max(i for i, line in enumerate(kept) if line.worth == least))
    stepped = [i for i, line in enumerate(kept) if line.steps]
    while len(kept) + sum(len(line.steps) for line in kept) > MOST_ITEMS and len(stepped) > 1:
        least = min(kept[i].rest_worth for i in stepped)
        last = max(i for i in stepped if kept[i].rest_worth == least)
        kept[last] = kept[last].bare()
        stepped.remove(last)
    return replace(block, lines=tuple(kept))
