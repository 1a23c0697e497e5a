"""What on a sheet may be asked about: openings, pipes, fittings and lengths that nobody has seen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from advisor.outcome.opens import opens_share
from advisor.quantity import Chances, Estimate
from advisor.ranking.worth import blocks
from advisor.result.study import Study
from advisor.site import pieces as p
from advisor.site.fields import AssumedName
from advisor.site.lies import line_place
from advisor.site.network import Network, Piece, Wall
from advisor.site.sheet import SiteSheet
from advisor.tables.load import Tables
from advisor.worlds.draws import Worlds

Path = tuple[str | int, ...]
Groups = NDArray[np.intp]
_LENGTHS: dict[str, type[p.Entry]] = {
    "pipe": p.PipeEntry,
    "drop": p.DropEntry,
    "belly": p.BellyEntry,
    "rise": p.RiseEntry,
}


@dataclass(frozen=True)
class Subject:
    """One thing to ask about: its stable id, how it is told, and where its entries stand on the sheet.

    `beside` are the ids of the two things that its place is told by.
    A length may be asked of a stretch of several pipes: of `rest` as well, with `told` m of it known; and of
    several stretches together, which are its `parts`.
    Of what is `idle` nothing is asked as things stand, but what was told of it before stays told.
    """

    id: str
    about: str
    name: str
    line: str
    place: str
    path: Path
    kind: str = ""
    piece: Piece | None = None
    wall: Wall | None = None
    rest: tuple[Subject, ...] = ()
    told: float = 0.0
    beside: tuple[str, ...] = ()
    idle: bool = False
    parts: tuple[Subject, ...] = ()

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The pieces that it is about, in their order."""
        return tuple(each.piece for each in (self, *self.rest) if each.piece is not None)

    def words(self) -> dict[str, str]:
        """What may stand in the text of a question."""
        return {"name": self.name, "line": self.line, "place": self.place, "kind": self.kind}


JOB = Subject("job", "site", "the job", "", "", ())


def subjects(network: Network, site: SiteSheet, tables: Tables) -> tuple[Subject, ...]:
    """Everything that some question may be about, line by line, and the job as a whole first."""
    found = [JOB]
    place_of = {
        id(piece): ("lines", i, "pieces", j)
        for i, line in enumerate(site.lines)
        for j, piece in enumerate(line.pieces)
    }
    for name, ids in network.lines.items():
        walls: set[str] = set()
        here: list[Subject] = []
        for index, key in enumerate(ids):
            piece = network.pieces[key]
            if piece.wall.id not in walls and piece.along > 0:
                walls.add(piece.wall.id)
                here += _wall(piece, name, site, _span(network, piece.wall, ids))
            path = place_of.get(id(piece.entry))
            if path is not None:
                beside = _beside(network, ids, index)
                here += (
                    replace(each, beside=tuple(one.id for one in beside if one))
                    for each in _piece(piece, path, between(beside), tables)
                )
        found += _stretches(here, network, ids)
    return tuple(found)


def _stretches(found: list[Subject], network: Network, ids: tuple[str, ...]) -> Iterator[Subject]:
    """The same, with open pipes between the same two things as one: nobody paces to a bend under the ground.

    Pipe that stands is a height, and asked for by itself.
    """
    lying: dict[str, list[Subject]] = {}
    for each in found:
        if lies(each):
            lying.setdefault(each.place, []).append(each)
    for each in found:
        if not lies(each):
            yield each
            continue
        first, *rest = lying[each.place]
        if each is first:
            open_ = {one.id for one in (first, *rest)}
            within = (
                piece
                for index, piece in enumerate(network.pieces[key] for key in ids)
                if between(_beside(network, ids, index)) == each.place
            )
            told = (p.along for p in within if p.kind == "pipe" and not p.vertical and p.id not in open_)
            yield replace(each, rest=tuple(rest), told=sum(told))


def lies(subject: Subject) -> bool:
    """True for the length of pipe that lies, which people pace."""
    piece = subject.piece
    return subject.about == "run" and subject.kind == "pipe" and piece is not None and not piece.vertical


def _piece(piece: Piece, path: Path, place: str, tables: Tables) -> Iterator[Subject]:
    entry, hole = piece.entry, piece.hole

    def one(about: str, kind: str = "", idle: bool = False) -> Subject:
        return Subject(piece.id, about, piece.name, piece.line, place, path, kind, piece, idle=idle)

    if hole is not None and isinstance(entry, p.OpeningEntry):
        kind = tables.openings[hole.kind]
        if kind.open_channel:
            yield replace(one("chamber"), place=f"in the {piece.name}")
        # By the log of a push, not by the sheet: what was told of it before that stays told.
        shut = entry.opens is None and hole.opens is False
        seen = hole.there == 1 and hole.by_sheet is not None
        if 0 < hole.there < 1 or seen or (shut and entry.there not in (None, 1)):
            yield one("doubted opening", idle=shut or seen)
        if hole.opens is None or shut:
            doubted = 0 < hole.there < 1 or entry.there == 0
            yield one("plugged opening", idle=shut or doubted or not kind.usable)
        # Else there is nothing to measure, or no use; it may have been told before that was known.
        idle = hole.there != 1 or hole.opens is False
        if entry.kind is None or isinstance(entry.kind, AssumedName):
            yield one("assumed opening", idle=idle)
        if entry.size is None or entry.size.assumed:
            yield one("unmeasured opening", idle=idle)
        if kind.place == "pit" and (entry.depth is None or entry.depth.assumed):
            yield one("pit", idle=idle)
    if (
        piece.kind == "junction"
        and isinstance(entry, p.JunctionEntry | p.FixtureEntry)
        and _open(piece.fitting)
    ):
        yield one("joining")
    if piece.kind == "bend" and _open(piece.fitting):
        yield one("bend")
    for kind_, model in _LENGTHS.items():
        if isinstance(entry, model) and piece.kind == kind_:
            told = getattr(entry, kind_)
            if told is None or told.assumed:
                yield one("run", kind=kind_)


def _wall(piece: Piece, line: str, site: SiteSheet, span: str) -> Iterator[Subject]:
    """A stretch of pipe: the line itself from its top, or what follows a change."""
    number = next((i for i, each in enumerate(site.lines) if each.line == line), None)
    if number is None:
        return
    path: Path = ("lines", number)
    name = f"the {line}"
    if piece.wall.id != line:
        changes = [j for j, e in enumerate(site.lines[number].pieces) if isinstance(e, p.ChangeEntry)]
        place = int(piece.wall.id.rpartition("(")[2].rstrip(")")) - 1
        path = (*path, "pieces", changes[place], "change")
        since = piece.wall.id.partition("/from ")[2].rpartition(" (")[0]
        name = f"the {line} beyond {since}"
    elif line_place(site.lines[number]) == "branch" and site.lines[number].laid is None:  # may be newer
        yield Subject(f"branch {line}", "branch", name, line, span, path, wall=piece.wall)
    yield Subject(f"wall {piece.wall.id}", "wall", name, line, span, path, wall=piece.wall)


def _span(network: Network, wall: Wall, ids: tuple[str, ...]) -> str:
    """From where to where a stretch of pipe goes, by what is drawn on it or what it joins."""
    named = [mark_name(piece) for key in ids if (piece := network.pieces[key]).wall.id == wall.id]
    ends = [name for name in named if name]
    joined = network.links.get((ids[-1], "down"))
    if joined is not None and network.pieces[ids[-1]].wall.id == wall.id:
        ends.append(f"the {network.pieces[joined[0]].line}")
    whole = len(ends) > 1 and network.pieces[ids[0]].wall.id == wall.id  # else its name tells where it begins
    return f"from {ends[0]} to {ends[-1]}" if whole else f"to {ends[-1]}" if ends else "all of it"


def _open(chances: Chances | None) -> bool:
    return chances is not None and (len(chances.options) > 1 or chances.evidence.grade.weak)


def _beside(network: Network, ids: tuple[str, ...], index: int) -> tuple[Piece | None, Piece | None]:
    """The nearest named neighbours of a piece, above it and below."""
    pieces = [network.pieces[key] for key in ids]
    above = next((piece for piece in reversed(pieces[:index]) if mark_name(piece)), None)
    return above, next((piece for piece in pieces[index + 1 :] if mark_name(piece)), None)


def between(beside: tuple[Piece | None, Piece | None]) -> str:
    """Where a piece lies, by its named neighbours."""
    above, below = (mark_name(piece) if piece else None for piece in beside)
    if above and below:
        return f"between {above} and {below}"
    return f"below {above}" if above else f"above {below}" if below else "on its way"


def mark_name(piece: Piece) -> str | None:
    """What a place beside it is told by; nothing of what nobody sees."""
    named = ("junction", "opening", "end", "stopper", "mark", "cap")
    if isinstance(piece.entry, p.BendEntry):
        return piece.landmark
    if piece.absent:  # it parts what is asked about all the same
        return f"where the {piece.name} was drawn"
    return piece.name if piece.kind in named else piece.landmark


# -- which answer holds in each of the worlds ---------------------------------------------------


def answer_in(subject: Subject, quantity: str, study: Study) -> tuple[tuple[str, ...], Groups] | None:
    """What the answer is in each world of a study; None where no way depends on it. See `answers_over`."""
    if quantity == "trees":
        return _trees(study)
    about = [subject.wall.id] if subject.wall else [subject.id, *(each.id for each in subject.rest)]
    if not {f"{each}/{quantity}" for each in about} & set(study.drawn.worlds.drawn_keys()):
        return None
    return answers_over(subject, quantity, study.network, study.tables, study.drawn.worlds)


def _trees(study: Study) -> tuple[tuple[str, ...], Groups] | None:
    """Whether trees are told to stand by the line: a sign of roots, as likely as it is with them and without.

    A no changes no plan (site/believed.py): where only that would turn it, the question is worth less.
    """
    worlds = study.drawn.worlds
    walls = {p.wall.id: p.wall for p in study.network.pieces.values() if p.wall.in_ground}
    met = [wall for key, wall in walls.items() if f"{key}/condition" in worlds.drawn_keys()]
    rooted = np.any([study.drawn.wall(wall).rooted > 0 for wall in met], axis=0)
    if not np.any(rooted):
        return None
    there, absent = (study.tables.signs[f"trees, {w}"].likely for w in ("there", "not there"))
    return ("no", "yes"), (worlds.uniform("trees") < np.where(rooted, there, absent)).astype(np.intp)


def answers_over(
    subject: Subject, quantity: str, network: Network, tables: Tables, worlds: Worlds
) -> tuple[tuple[str, ...], Groups] | None:
    """What the answer is in each world: names of the answers, and intp[N] which of them holds.

    None where nothing is open. The blocks of a length have no names.
    """
    if subject.wall is not None:
        wall = next((q.wall for q in network.pieces.values() if q.wall.id == subject.wall.id), None)
        chances = getattr(wall, quantity) if wall is not None else None
        if chances is None or len(chances.options) < 2:
            return None
        return tuple(name for name, _ in chances.options), worlds.choice(
            f"{subject.wall.id}/{quantity}", chances
        )
    piece, key = network.pieces.get(subject.id), f"{subject.id}/{quantity}"
    if piece is None:
        return None
    if quantity == "kind" and piece.fitting is not None and len(piece.fitting.options) > 1:
        return tuple(name for name, _ in piece.fitting.options), worlds.choice(key, piece.fitting)
    if quantity == "length":
        pieces = [network.pieces[each.id] for each in (subject, *subject.rest)]
        lengths = [(p.id, p.length) for p in pieces if isinstance(p.length, Estimate)]
        whole = sum(
            (worlds.value(f"{id_}/{quantity}", length) for id_, length in lengths), np.zeros(worlds.n)
        )
        return ((), blocks(whole)) if lengths else None
    if piece.hole is None:
        return None
    if quantity == "there" and piece.hole.there < 1:
        key = f"{piece.hole.reached_in or piece.id}/{quantity}"
        return ("no", "yes"), (worlds.uniform(key) < piece.hole.there).astype(np.intp)
    if quantity == "opens" and piece.hole.opens is None:
        share = worlds.value(f"{subject.id}/share that opens", opens_share(piece.hole, tables))
        return ("no", "yes"), (worlds.uniform(key) < share).astype(np.intp)
    return None


def at(tree: Any, path: Path) -> Any:
    """The entry of a plain sheet tree at a path."""
    for step in path:
        tree = tree[step]
    return tree
