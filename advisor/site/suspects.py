"""From the complaint to the sections that may hold the trouble: chances, never proof.

A section is the run of one line between two places where something joins, opens or ends. Each sign is
a likelihood ratio between "the trouble lies below this" and "it does not", so signs multiply; the prior
is the section's length with a weight for what usually gives trouble. Where something runs badly, pipe that
serves only what runs fine is as good as cleared: trouble there would hold just that water. Held water runs
out at the lowest open edge, told or not: what lies far above one says next to nothing of the pipe below it.
"""

from __future__ import annotations

from collections.abc import Collection, Set
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log, prod

from advisor.site.history import History
from advisor.site.looked_at import LookedAt, what_looks_say
from advisor.site.network import Network, Piece
from advisor.site.sheet import COMES_UP, Complaint
from advisor.site.target import SUSPECT, UNPOINTED, Target
from advisor.site.too_high import grids_beside, relieved_at, too_high
from advisor.site.used import drained, is_low, laundries, level_with, lone_toilet, takes_water
from advisor.tables.load import Tables

NOTHING_TOLD = History()
_STOPPER = "stopper"
_BREAKS = ("opening", "junction", "end", "cap", _STOPPER)


@dataclass(frozen=True)
class _Sign:
    """What shows at a piece, how likely with the trouble below it and otherwise; `alone` with the trouble in
    pipe that serves only what runs fine; `relieved` with it below one of the `lower` edges too."""

    piece: Piece
    words: str
    below: float
    beside: float
    alone: float | None = None
    lower: tuple[Piece, ...] = ()
    relieved: float = 1.0

    @property
    def bad(self) -> bool:
        """Whether it points to pipe below the piece."""
        return self.below > self.beside

    def below_in(self, section: Set[str], cleared: Set[str], network: Network) -> float:
        """How likely it is with the trouble in that section, which lies below the piece."""
        full = self.below if self.alone is None or section.isdisjoint(cleared) else self.alone
        lower = [each for each in self.lower if not section.isdisjoint(network.downstream(each.id))]
        none_there = prod(1 - (each.hole.there if each.hole else 1.0) for each in lower)
        return none_there * full + (1 - none_there) * self.relieved

    def said_of(self, section: Set[str], network: Network) -> str:
        """Its words, and where it would show first if the trouble lay further down."""
        further = [each for each in self.lower if section.isdisjoint(network.downstream(each.id))]
        first = max(further, key=lambda each: each.hole.there if each.hole else 1.0, default=None)
        if first is None or not self.bad:
            return self.words
        return f"{self.words} (held further down, water runs out at {first.name} first)"


@dataclass(frozen=True)
class Suspect:
    """A section of a line and the chance that the trouble lies in it."""

    line: str
    upper: str
    lower: str
    span: tuple[str, ...]
    share: float
    because: tuple[str, ...]

    @property
    def words(self) -> str:
        """The section as a reader names it."""
        return f"{self.line}, from {self.upper} to {self.lower}"

    @property
    def target(self) -> Target:
        """The section as what is to be seen."""
        return Target(self.words, SUSPECT, self.line, self.span)


def suspects(
    network: Network,
    complaint: Complaint,
    tables: Tables,
    history: History = NOTHING_TOLD,
    looked: Collection[LookedAt] = (),
) -> tuple[Suspect, ...]:
    """Every section with its chance, likeliest first; empty where nothing is told to run badly.

    What runs fine points nowhere by itself: it would leave whatever nobody has spoken of. Where pushes
    `looked` it is the likelier where they found something, and the less likely where they met nothing.
    """
    if not trouble_told(network, complaint, history):
        return ()
    signs = [*_signs(network, complaint, tables), *_laundry(network, history, tables)]
    if not signs:
        return ()
    cleared = _cleared(network, complaint)
    alone = lone_toilet(network, (*complaint.backs_up, *complaint.slow), complaint.fine)
    sections = [span for line in network.lines for span in _sections(network, line)]
    weights: list[float] = []
    reasons: list[tuple[str, ...]] = []
    for span in sections:
        bowl = alone is not None and alone.id in span
        of_bowl = tables.trouble_metres["bowl"].likely if bowl else 0.0
        weight = log(trouble_metres(network, span, tables) + of_bowl)
        said = ["likeliest in the bowl or its bend"] if bowl else []
        # The ends are shared with the next section: the pipe between them decides, or the trap without any.
        pipe = {key for key in span if network.pieces[key].along > 0} or {span[-1]}
        for sign in signs:
            lies_below = not pipe.isdisjoint(network.downstream(sign.piece.id))
            chance = sign.below_in(pipe, cleared, network) if lies_below else sign.beside
            weight += log(chance)
            if chance > sign.beside if sign.bad else not lies_below:
                said.append(sign.said_of(pipe, network) if lies_below else sign.words)
        ratio, words = what_looks_say(network, span, looked, tables)
        weight += log(ratio)
        said += [words] if words else []
        weights.append(weight)
        reasons.append(tuple(said))
    top = max(weights)
    total = sum(exp(w - top) for w in weights)
    found = [
        Suspect(
            network.pieces[span[0]].line,
            end_name(network, span[0], "the upper end"),
            end_name(network, span[-1], "the lower end"),
            span,
            exp(weight - top) / total,
            said,
        )
        for span, weight, said in zip(sections, weights, reasons, strict=True)
    ]
    return tuple(sorted(found, key=lambda s: (-s.share, s.words)))


def trouble_told(network: Network, complaint: Complaint, history: History = NOTHING_TOLD) -> bool:
    """Whether anything is told or seen to run badly."""
    bad = complaint.slow or backing_up(network, complaint) or complaint.holding
    return bool(bad) or "laundry days" in history.worse_on


def suspect_target(found: tuple[Suspect, ...], network: Network) -> Target:
    """The likeliest section as a target; where nothing points anywhere the line that leaves the building."""
    if found:
        return found[0].target
    line = next(
        (name for name, ids in network.lines.items() if network.pieces[ids[-1]].kind == "end"),
        next(iter(network.lines)),
    )
    return Target(line, UNPOINTED, line, network.lines[line])


def is_holding(network: Network, complaint: Complaint) -> bool | None:
    """Whether the drain stands full: told, else seen to stand at an opening, else not known.

    An opening that is dry says nothing of the rest: below a blockage it is dry, and above one it may lie
    higher than the water stands. Where what was told cannot all be, it is not known that it drains: it is to
    be looked at first.
    """
    if contradiction(network, complaint):
        return None
    if complaint.holding is not None:
        return complaint.holding
    return True if _standing(network) else None


def contradiction(network: Network, complaint: Complaint) -> str:
    """What was said of the water that cannot both be, in one sentence and what follows; else nothing."""
    names = backing_up(network, complaint)
    if complaint.holding is not False or not names:
        return ""
    backing = f"{' and '.join(names)} {'backs up or stands' if len(names) == 1 else 'back up or stand'}"
    return (
        f"One does not go with the other: the line is said to drain away, and {backing} full. "
        "Water that comes up stands in the line. Take every plug for full until you have looked."
    )


def backing_up(network: Network, complaint: Complaint) -> tuple[str, ...]:
    """What is told to back up, and where water is seen to stand, each name once."""
    cellar = ("the cellar",) if complaint.wet_cellar == COMES_UP else ()
    return tuple(dict.fromkeys((*complaint.backs_up, *_standing(network), *cellar)))


def _standing(network: Network) -> list[str]:
    return [p.name for p in network.openings() if p.hole is not None and p.hole.water == "standing"]


def _cleared(network: Network, complaint: Complaint) -> set[str]:
    """The pieces that serve only what is told to run fine; none where nothing is told to run badly."""
    standing = _standing(network)
    if not complaint.slow and not complaint.backs_up and not standing:
        return set()
    fine, other = list[Piece](), list[Piece]()
    for piece in network.pieces.values():
        if takes_water(piece) or piece.name in standing:
            (fine if piece.name in complaint.fine and piece.name not in standing else other).append(piece)
    return drained(network, fine) - drained(network, other)


def _signs(network: Network, complaint: Complaint, tables: Tables) -> list[_Sign]:
    """What was told and seen of each piece; nothing of water that stands too high to be the line's."""
    ratio = {name: value.likely for name, value in tables.signs.items()}
    high = {each.name for each in too_high(network, backing_up(network, complaint), tables)}
    bad = (*backing_up(network, complaint), *complaint.slow)
    found = []
    for kind in ("backs up", "slow", "fine"):
        for name in getattr(complaint, kind.replace(" ", "_")):
            if name in high:
                continue
            for piece in network.pieces.values():
                if piece.name == name and piece.kind in ("opening", "cap"):
                    key = kind if kind != "fine" else _fine(network, piece, complaint, tables)
                    likely = ratio[f"{key}, below"], ratio[f"{key}, beside"]
                    alone = ratio["fine, alone"] if kind == "fine" else None
                    relieved = ratio["slow, relieved"] if kind == "slow" else likely[1]
                    lower = relieved_at(network, piece, tables)
                    if complaint.wet_cellar != COMES_UP:  # else nobody knows that the grids are quiet
                        lower += grids_beside(network, piece, bad, tables)
                    found.append(_Sign(piece, f"{name} {_SAYS[kind]}", *likely, alone, lower, relieved))
    for piece in network.openings():
        water = piece.hole.water if piece.hole else None
        if water in ("standing", "dry") and piece.name not in high:
            words = f"water {water} at {piece.name}" if water == "standing" else f"{piece.name} is dry"
            likely = ratio[f"{water}, below"], ratio[f"{water}, beside"]
            found.append(_Sign(piece, words, *likely, None, relieved_at(network, piece, tables), likely[1]))
    return found


def _laundry(network: Network, history: History, tables: Tables) -> list[_Sign]:
    """Worse on laundry days: the trouble lies below the washing machine or the tub."""
    if "laundry days" not in history.worse_on:
        return []
    below, beside = (tables.signs[f"laundry days, {where}"].likely for where in ("below", "beside"))
    return [
        _Sign(piece, f"worse on laundry days ({piece.name})", below, beside)
        for piece in laundries(network, tables)
    ]


_SAYS = {"backs up": "backs up", "slow": "is slow", "fine": "runs fine"}


def _fine(network: Network, piece: Piece, complaint: Complaint, tables: Tables) -> str:
    """A fixture that runs fine counts only where it was tested with volume and is low, or as low as what
    runs badly."""
    low = is_low(piece, tables) or level_with(network, piece, (*complaint.backs_up, *complaint.slow))
    return "fine and tested low" if low and piece.name in complaint.tested_with_volume else "fine"


def _sections(network: Network, line: str) -> list[tuple[str, ...]]:
    ids = network.lines[line]
    cuts = [i for i, key in enumerate(ids) if network.pieces[key].kind in _BREAKS]
    ends = sorted({0, *cuts, len(ids) - 1})
    spans = [ids[a : b + 1] for a, b in pairwise(ends)]

    def holds(span: tuple[str, ...]) -> bool:
        """A trap right behind a chamber is a section of its own: it is where most is caught."""
        return network.pieces[span[-1]].kind == _STOPPER or sum(network.pieces[k].along for k in span) > 0

    return [span for span in spans if holds(span)] or ([ids] if ids else [])


def trouble_metres(network: Network, span: tuple[str, ...], tables: Tables) -> float:
    """Length of a section in m, with what usually gives trouble counted as extra metres; never 0.

    A trap counts where a section ends at it: what it catches stands before it, not beyond.
    """
    extra = 0.0
    for key in span:
        piece = network.pieces[key]
        extra += piece.along
        if piece.kind == _STOPPER and key != span[-1]:
            continue
        weight = tables.trouble_metres.get(piece.kind)
        extra += weight.likely if weight else 0.0
    return max(extra, 0.1)


def end_name(network: Network, piece_id: str, otherwise: str) -> str:
    """What a reader calls the place where a section ends; `otherwise` where it has no name."""
    piece = network.pieces[piece_id]
    if piece.kind == "junction" and piece.branch:
        return piece.branch
    return piece.name if piece.kind in _BREAKS else piece.landmark or otherwise
