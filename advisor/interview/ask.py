"""One question as it is put: about this opening, in these words, with these answers to choose from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass
from datetime import date
from typing import Literal

from advisor.archetype import Archetype
from advisor.errors import QuantityError
from advisor.interview.branch import drawn_like
from advisor.interview.crawl import crawls_to
from advisor.interview.joinings import Option, joinings
from advisor.interview.question import MOST_CHOICES, Question
from advisor.interview.sketch import is_arm
from advisor.interview.stretch import units_of
from advisor.interview.subject import JOB, Subject
from advisor.quantity import Chances, Dimension, Estimate, Units, examples, far_from, parse_stated, show
from advisor.site.fields import A_SIZE, LARGEST_PIPE, SMALLEST_PIPE
from advisor.site.history import still_to_come, told_day
from advisor.site.network import Network, Piece, likely
from advisor.site.sheet import units_in
from advisor.site.used import takes_water
from advisor.tables.load import Tables


@dataclass(frozen=True)
class Ask:
    """A question about one subject; a length so many times from the usual ones is asked about once more.

    `units` are those of the job: of a number that is typed alone, and of an example.
    """

    question: Question
    subject: Subject
    text: str
    options: tuple[Option, ...]
    unusual_times: float
    units: Units
    crawl: float = 0.0  # minutes of the crawl that it takes, if one
    to_open: float | None = None  # minutes to open the opening that it is about, if one
    longest: float | None = None  # of a length of the job, m: the longest way drawn, as long as it may be

    @property
    def crawls(self) -> bool:
        """Whether finding out sends somebody into a crawl space."""
        return self.crawl > 0

    @property
    def key(self) -> tuple[str, str]:
        """Question and subject: what an answer is filed under."""
        return self.question.id, self.subject.id

    @property
    def short(self) -> str:
        """What it asks for, as it stands in a list."""
        return self.question.in_short.format(**self.subject.words())

    @property
    def many(self) -> bool:
        """True where several answers may hold."""
        return self.question.many is not None

    @property
    def quantity(self) -> str | None:
        """The drawn quantity that it settles, if one."""
        settles = self.question.settles
        return settles.removeprefix("drawn ") if settles.startswith("drawn ") else None

    @property
    def minutes(self) -> float:
        """Likely minutes to find out."""
        return self.question.minutes.likely + self.crawl

    @property
    def knows(self) -> float:
        """Likely chance that somebody knows or can find out."""
        return self.question.knows.likely

    def check(self, text: str) -> str | None:
        """What is wrong with a line that was typed instead of choosing; nothing where it can be used."""
        kind = self.question.type_in or ""
        if kind == "year":
            right = text.isascii() and text.isdigit() and 1700 <= int(text) <= 2099
            return None if right else "expected a year such as 1958"
        if kind == "day":
            return _wrong_day(text)
        try:
            told = parse_stated(text, Dimension.LENGTH, self.units)
        except QuantityError as fault:
            return str(fault)
        if self.subject.told and told.low <= self.subject.told:
            long = show(self.subject.told, Dimension.LENGTH, units_of(text))
            return f"{long} of it stands on the sheet already; expected more than that in all"
        if told.low <= 0 or (kind == "size" and not SMALLEST_PIPE <= told.likely <= LARGEST_PIPE):
            if kind == "size":
                return f"expected a nominal size such as {A_SIZE[self.units]}"
            return f"expected a length such as {examples(Dimension.LENGTH, self.units)}"
        return "expected one size" if kind == "size" and told.low != told.high else None

    def ahead(self, text: str, today: date) -> str | None:
        """What is wrong with a day or a year that is typed before it has come.

        It is no part of `check`: an answer that was kept must not fall to a clock that was set back.
        """
        return still_to_come(text, today) if self.question.type_in in ("day", "year") else None

    def unusual(self, text: str) -> tuple[float, float] | None:
        """The usual lengths there, m, where a typed one is far from them; of the whole job where one is
        longer than the drain."""
        if self.longest is not None:
            longer = parse_stated(text, Dimension.LENGTH).likely > self.longest
            return (0.0, self.longest) if longer else None
        usual = [p.length for p in self.subject.pieces if isinstance(p.length, Estimate)]
        if self.question.type_in != "length" or not usual:
            return None
        told = parse_stated(text, Dimension.LENGTH).likely
        low, high = (
            sum(ends) + self.subject.told for ends in zip(*((u.low, u.high) for u in usual), strict=True)
        )
        return (low, high) if far_from(told, low, high, self.unusual_times) else None

    @property
    def every(self) -> tuple[Option, ...]:
        """All that may be answered, from higher up too, and what is offered no more."""
        found = [*self.options, *(o.higher_up for o in self.options if o.higher_up is not None)]
        return (*(Option(o.words, value) for o in found for value in o.also), *found)

    def words_of(self, value: str) -> str:
        """An answer as it was chosen."""
        return next((option.words for option in self.every if option.value == value), value)


def _wrong_day(text: str) -> str | None:
    try:
        told_day(text)
    except ValueError as fault:
        return str(fault)
    return None


def ask_of(
    question: Question,
    subject: Subject,
    network: Network | None,
    region: str,
    tables: Tables,
    buildings: Mapping[int, Archetype],
    around: Sequence[Subject] = (),
    units: Units | None = None,
    gone: Set[str] = frozenset(),
) -> Ask | None:
    """The question put about the subject, among all that is `around`; nothing where nothing is to choose.
    What is `gone`, told not to be there, tells no place where something joins.

    Without other `units` they are those of the region.
    """
    options = _options(question, subject, network, region, tables, buildings, around, gone)
    if not options and question.type_in is None:
        return None
    drawn = drawn_like(question, network, tables) if network is not None and question.like else []
    if drawn and not all(each.line for each in question.branch.values()):
        return None  # a drain has one
    # A drop of which nothing is known is taken to be a storey high.
    storey = likely(tables.typical["unknown drop"])
    stands = _stands(subject.piece, storey)
    words = {
        **subject.words(),
        "drawn": ", ".join(drawn) or "none",
        "storey": show(storey, Dimension.LENGTH, units or units_in(region)),
    }
    hole = None if subject.piece is None else subject.piece.hole
    to_open = None if hole is None else tables.openings[hole.kind].open_minutes.likely
    text = question.asked_of(stands, None if hole is None else hole.kind)
    times = tables.limits["unusual_times"].likely
    crawl = tables.costs["crawl"].likely if network is not None and crawls_to(subject, network) else 0.0
    told = text.format(**words)
    longest = _longest(network) if subject is JOB and question.type_in == "length" else None
    return Ask(question, subject, told, options, times, units or units_in(region), crawl, to_open, longest)


def _longest(network: Network | None) -> float | None:
    """The most that the longest way through the drain may be, m."""
    if network is None:
        return None
    most = {
        key: piece.length.high if isinstance(piece.length, Estimate) else piece.along
        for key, piece in network.pieces.items()
        if piece.kind != "joint"
    }
    return max(sum(most.get(each, 0.0) for each in network.downstream(key)) for key in network.pieces)


def _stands(piece: Piece | None, storey: float) -> Literal["no", "low", "high"]:
    """Whether a piece of pipe stands, and is sure to be lower than two storeys: nobody counts one."""
    if piece is None or not piece.vertical:
        return "no"
    most = piece.length.high if isinstance(piece.length, Estimate) else likely(piece.length)
    return "low" if most < 2 * storey else "high"


def _options(
    question: Question,
    subject: Subject,
    network: Network | None,
    region: str,
    tables: Tables,
    buildings: Mapping[int, Archetype],
    around: Sequence[Subject],
    gone: Set[str],
) -> tuple[Option, ...]:
    if question.choose_from == "buildings":
        return tuple(Option(f"{b.name}. {b.known_by}", b.id, number) for number, b in buildings.items())
    if question.choose_from == "fixtures" and network is not None:
        return tuple(Option(name, name) for name in _fixtures(network))
    if question.choose_from == "lines" and network is not None:
        return tuple(Option(name, name) for name in network.lines if not is_arm(network, name))
    if question.choose_from == "joinings":
        branch = question.branch.get(region)
        return joinings(branch, around, network, gone) if branch is not None and network is not None else ()
    if question.choose_from == "openings" and network is not None:
        return tuple(
            Option(each.name, each.name)
            for each in network.openings()
            if question.into or _looked_into(each, tables)
        )
    hole = None if subject.piece is None else subject.piece.hole
    place = None if hole is None else tables.openings[hole.kind].place
    offered = [Option(choice.words, choice.value) for choice in question.offered(region, place)]
    if question.choose_from != "likely" or network is None:
        return tuple(offered)
    usual = [Option(words, value) for value, words in _likely(question, subject, network, region, tables)]
    known = {option.value for option in usual}
    return tuple([*usual, *(option for option in offered if option.value not in known)][:MOST_CHOICES])


def _likely(
    question: Question, subject: Subject, network: Network, region: str, tables: Tables
) -> list[tuple[str, str]]:
    """What it may be, likeliest first, in the region's words; with what nobody else is called by."""
    chances: Chances | None
    if subject.wall is not None:
        chances = getattr(subject.wall, question.settles.removeprefix("drawn "))
    else:
        piece = network.pieces.get(subject.id)
        chances = piece.fitting if piece else None
    if chances is None:
        return []
    words = {**tables.words(region), **tables.conditions}
    ranked = sorted(chances.options, key=lambda option: (-option[1], option[0]))[:MOST_CHOICES]
    return [(name, words.get(name, name)) for name, share in ranked if share > 0]


def _fixtures(network: Network) -> list[str]:
    """Fixtures and drains that people use, once each; names that two share cannot be complained of."""
    names = [piece.name for piece in network.pieces.values() if takes_water(piece)]
    return [name for name in dict.fromkeys(names) if names.count(name) == 1]


def _looked_into(piece: object, tables: Tables) -> bool:
    """Openings into which somebody can look without opening anything up."""
    hole = piece.hole  # type: ignore[attr-defined]
    return tables.openings[hole.kind].place != "roof"
