"""From the complaint to the sections that may hold the trouble: chances, never proof.

A section is the run of one line between two places where something joins, opens or ends. Each sign is
a likelihood ratio between "the trouble lies below this" and "it does not", so signs multiply; the prior
is the section's length with a weight for what usually gives trouble.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import exp, log

from advisor.site.history import History
from advisor.site.names import fixture_kind
from advisor.site.network import Network, Piece
from advisor.site.pieces import FixtureEntry
from advisor.site.sheet import Complaint
from advisor.site.target import Target
from advisor.tables.load import Tables

NOTHING_TOLD = History()
_BREAKS = ("opening", "junction", "end", "cap", "stopper")


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


def suspects(
    network: Network, complaint: Complaint, tables: Tables, history: History = NOTHING_TOLD
) -> tuple[Suspect, ...]:
    """Every section with its chance, likeliest first; empty where there is no complaint at all."""
    signs = [*_signs(network, complaint, tables), *_laundry(network, history, tables)]
    if not signs:
        return ()
    sections = [span for line in network.lines for span in _sections(network, line)]
    weights: list[float] = []
    reasons: list[tuple[str, ...]] = []
    for span in sections:
        weight = log(trouble_metres(network, span, tables))
        said = []
        for piece, words, below, beside in signs:
            below_it = network.downstream(piece.id)
            # The ends are shared with the next section: the pipe between them decides.
            lies_below = any(key in below_it for key in span if network.pieces[key].along > 0)
            weight += log(below if lies_below else beside)
            if lies_below == (below > beside):
                said.append(words)
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


def suspect_target(found: tuple[Suspect, ...], network: Network) -> Target:
    """The likeliest section as a target; without any complaint the line that leaves the building."""
    if found:
        return Target(found[0].words, "suspect", found[0].line, found[0].span)
    line = next(
        (name for name, ids in network.lines.items() if network.pieces[ids[-1]].kind == "end"),
        next(iter(network.lines)),
    )
    return Target(line, "line", line, network.lines[line])


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
    return tuple(dict.fromkeys((*complaint.backs_up, *_standing(network))))


def _standing(network: Network) -> list[str]:
    return [p.name for p in network.openings() if p.hole is not None and p.hole.water == "standing"]


def _signs(network: Network, complaint: Complaint, tables: Tables) -> list[tuple[Piece, str, float, float]]:
    """Each sign as (piece, words, likelihood with the trouble below, likelihood otherwise)."""
    ratio = {name: value.likely for name, value in tables.signs.items()}
    found = []
    for kind in ("backs up", "slow", "fine"):
        for name in getattr(complaint, kind.replace(" ", "_")):
            for piece in network.pieces.values():
                if piece.name == name and piece.kind in ("opening", "cap"):
                    key = kind if kind != "fine" else _fine(piece, name, complaint, tables)
                    found.append(
                        (piece, f"{name} {_SAYS[kind]}", ratio[f"{key}, below"], ratio[f"{key}, beside"])
                    )
    for piece in network.openings():
        water = piece.hole.water if piece.hole else None
        if water in ("standing", "dry"):
            found.append(
                (
                    piece,
                    f"water {water} at {piece.name}" if water == "standing" else f"{piece.name} is dry",
                    ratio[f"{water}, below"],
                    ratio[f"{water}, beside"],
                )
            )
    return found


def _laundry(network: Network, history: History, tables: Tables) -> list[tuple[Piece, str, float, float]]:
    """Worse on laundry days: the trouble lies below the washing machine or the tub."""
    if "laundry days" not in history.worse_on:
        return []
    below, beside = (tables.signs[f"laundry days, {where}"].likely for where in ("below", "beside"))
    return [
        (piece, f"worse on laundry days ({piece.name})", below, beside)
        for piece in network.pieces.values()
        if piece.kind in ("opening", "cap") and isinstance(piece.entry, FixtureEntry)
        if fixture_kind(piece.entry, tables) in ("washing machine", "laundry tub")
    ]


_SAYS = {"backs up": "backs up", "slow": "is slow", "fine": "runs fine"}


def _fine(piece: Piece, name: str, complaint: Complaint, tables: Tables) -> str:
    """A fixture that runs fine counts only where it is low and was tested with volume."""
    kind = tables.fixtures.get((piece.hole.fixture if piece.hole else None) or "")
    low = kind is not None and kind.level == "low"
    return "fine and tested low" if low and name in complaint.tested_with_volume else "fine"


def _sections(network: Network, line: str) -> list[tuple[str, ...]]:
    ids = network.lines[line]
    cuts = [i for i, key in enumerate(ids) if network.pieces[key].kind in _BREAKS]
    ends = sorted({0, *cuts, len(ids) - 1})
    spans = [ids[a : b + 1] for a, b in pairwise(ends)]
    return [s for s in spans if sum(network.pieces[k].along for k in s) > 0] or ([ids] if ids else [])


def trouble_metres(network: Network, span: tuple[str, ...], tables: Tables) -> float:
    """Length of a section in m, with what usually gives trouble counted as extra metres; never 0."""
    extra = 0.0
    for key in span:
        piece = network.pieces[key]
        extra += piece.along
        weight = tables.trouble_metres.get(piece.kind)
        extra += weight.likely if weight else 0.0
    return max(extra, 0.1)


def end_name(network: Network, piece_id: str, otherwise: str) -> str:
    """What a reader calls the place where a section ends; `otherwise` where it has no name."""
    piece = network.pieces[piece_id]
    if piece.kind == "junction" and piece.branch:
        return piece.branch
    return piece.name if piece.kind in _BREAKS else piece.landmark or otherwise
