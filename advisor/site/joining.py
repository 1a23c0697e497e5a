"""Lines that are laid out become one network: joined, free of circles, unknown fittings given chances."""

from __future__ import annotations

from dataclasses import dataclass, replace

from advisor.errors import BadInput
from advisor.site import pieces as p
from advisor.site.believed import Believed
from advisor.site.lies import junction_lie, line_place, turning, vertical_at
from advisor.site.network import Piece, join
from advisor.site.sheet import SiteSheet
from advisor.strict_yaml import Sheet


@dataclass(frozen=True)
class Laid:
    """What has been laid out so far; `arms` maps a junction to the line whose end joins there."""

    pieces: dict[str, Piece]
    lines: dict[str, list[str]]
    links: dict[tuple[str, str], tuple[str, str]]
    arms: dict[str, str]


def join_lines(laid: Laid, site: SiteSheet) -> None:
    """Join the lower end of each line, or the upper end where it is tied, to its junction."""
    tied = {
        line.line: piece.tied_to
        for line in site.lines
        for piece in line.pieces
        if isinstance(piece, p.TiedEntry)
    }
    done: set[str] = set()
    for piece_id, line in laid.arms.items():
        # A loop may be tied to the line that it runs into again: the upper of the two is its upper end.
        upper = tied.get(line) == laid.pieces[piece_id].line and line not in done
        if upper:
            done.add(line)
        end = laid.lines[line][0 if upper else -1]
        join(laid.links, (end, "up" if upper else "down"), (piece_id, "branch"))


def refuse_circles(laid: Laid, sheet: Sheet[SiteSheet]) -> None:
    """Water that never leaves is a slip of the pen: lines that run into each other."""
    for index, line in enumerate(sheet.model.lines):
        seen: list[str] = []
        at: str | None = laid.lines[line.line][0]
        while at is not None and at not in seen:
            seen.append(at)
            onward = laid.links.get((at, "down"))
            at = onward[0] if onward else None
        if at is not None:
            names = dict.fromkeys(laid.pieces[key].line for key in seen[seen.index(at) :])
            message = f"water would run in a circle: {', '.join(names)}; expected one of them to end"
            raise BadInput([sheet.fault(message, "lines", index, "line", mends=False)])


def name_unknown_fittings(laid: Laid, site: SiteSheet, believed: Believed) -> None:
    """Lies and unknown fittings need the neighbours, so they are settled last."""
    region, laid_in = site.region, {line.line: line.laid or site.built for line in site.lines}
    stacks = {line.line for line in site.lines if line_place(line) == "stack"}
    for line, ids in laid.lines.items():
        for index, piece_id in enumerate(ids):
            piece = replace(laid.pieces[piece_id], vertical=vertical_at(laid.pieces, ids, index))
            if piece.kind == "junction":
                arm = laid.lines.get(piece.branch or "", [])
                # It was put in with what it joins; a fixture's own arm is as old as its line.
                year = laid_in.get(piece.branch or "", laid_in.get(line, site.built))
                lie = junction_lie(laid.pieces, piece, arm)
                size = laid.pieces[arm[-1]].wall.nominal.value if arm else piece.wall.nominal.value
                fitting = piece.fitting
                if fitting is None:
                    hung = lie != "stack" and _falls_in(laid, piece_id, stacks)
                    kind = "vent" if _place_of(site, line) == "vent" else "hung" if hung else lie
                    fitting = believed.tables.likely_junction(
                        region, year, kind, size, piece.wall.nominal.value
                    )
                    believed.assume(f"fitting where {piece.branch} joins {line}", "", fitting)
                piece = replace(piece, lie=lie, fitting=fitting)
            elif piece.kind == "bend" and piece.fitting is None:
                fitting = believed.tables.likely_bend(
                    region,
                    laid_in.get(line, site.built),
                    turning(laid.pieces, ids, index, _place_of(site, line)),
                )
                believed.assume(f"bend in {line}", "", fitting)
                piece = replace(piece, fitting=fitting)
            laid.pieces[piece_id] = piece


def _falls_in(laid: Laid, piece_id: str, stacks: set[str]) -> bool:
    """Whether its water falls down a stack yet: such pipe hangs in the house, where no chamber is built."""
    at = laid.links.get((piece_id, "down"))
    while at is not None:
        piece = laid.pieces[at[0]]
        if piece.kind == "drop" and piece.line in stacks:
            return True
        at = laid.links.get((piece.id, "down"))
    return False


def _place_of(site: SiteSheet, name: str) -> str:
    """The place (stack, drain, branch, vent, sewer) of the line called `name`."""
    return next((line_place(line) for line in site.lines if line.line == name), "branch")
