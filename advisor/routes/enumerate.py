"""Every simple route from every opening to the target, listed before any is judged."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from advisor.routes.passage import STRAIGHT, Passage, Route, with_runs
from advisor.site.mouths import by_hand
from advisor.site.network import Network, Piece, Wall
from advisor.site.target import Target
from advisor.tables.load import Tables
from advisor.tables.openings import EntryStep

# Loops make routes without end; past these the plan says that it was cut short.
MOST_ROUTES = 400  # shared fairly among the openings
MOST_STEPS = 20_000  # from one opening; without loops it takes one step for each piece

_Step = tuple[str, str, str]  # piece id, port in, port out
_Path = list[_Step]


def routes_to(network: Network, target: Target, tables: Tables) -> tuple[tuple[Route, ...], bool]:
    """All routes, whole coverage first for each opening, and whether the list was cut short."""
    found: dict[str, Route] = {}
    cut = False
    openings = network.openings()
    for opening in openings:
        fair = len(found) + max(MOST_ROUTES // len(openings), 1)
        steps = _Steps(MOST_STEPS)
        for path, first, covers in _walks(network, opening, target, tables, steps):
            if len(found) >= fair:
                cut = True
                break
            route = _route(network, opening, path, first, covers, tables)
            found.setdefault(route.id, route)
        cut = cut or steps.left <= 0
    return tuple(_without_shorter_copies(list(found.values()))), cut


@dataclass
class _Steps:
    left: int


def _walks(
    network: Network, opening: Piece, target: Target, tables: Tables, steps: _Steps
) -> Iterator[tuple[_Path, int, float]]:
    """Depth-first walks that pass the target, each with the index where the target begins."""
    assert opening.hole is not None
    if target.span == (opening.id,):
        return
    for port in tables.openings[opening.hole.kind].reaches:
        yield from _onward(network, (opening.id, "hole", port), target, steps)


def _onward(
    network: Network, start: _Step, target: Target, steps: _Steps
) -> Iterator[tuple[_Path, int, float]]:
    """Depth first without recursion: a line may have thousands of pieces."""
    path: _Path = [start]
    on_path = {start[0]}
    link = network.links.get((start[0], start[2]))
    waiting = [iter([(start[2], link)] if link else [])]
    while waiting and steps.left > 0:
        leaves, link = next(waiting[-1], ("", None))
        if link is None:
            waiting.pop()
            on_path.discard(path.pop()[0])
            continue
        path[-1] = (*path[-1][:2], leaves)
        piece_id, enters = link
        if piece_id in on_path:
            continue
        steps.left -= 1
        piece = network.pieces[piece_id]
        done = _seen(network, [*path, (piece_id, enters, "")], target) if piece_id in target.span else None
        if done is not None:
            # A length is seen only when the head has gone through it, a fitting when it is reached.
            across = "down" if enters == "up" else "up"
            yield [*path, (piece_id, enters, across if piece.kind in STRAIGHT else "")], *done
            continue
        path.append((piece_id, enters, ""))
        on_path.add(piece_id)
        ports = ((port, network.links.get((piece_id, port))) for port in piece.ports if port != enters)
        waiting.append(iter([(port, onward) for port, onward in ports if onward is not None]))


def _seen(network: Network, path: _Path, target: Target) -> tuple[int, float] | None:
    """(index where the target begins, share of it passed) when the path ends at an end of the target."""
    ids = [step[0] for step in path]
    span = list(target.span)
    if target.is_point:
        return (len(ids) - 1, 1.0) if ids[-1] == span[0] else None
    if ids[-1] not in (span[0], span[-1]):
        return None
    ordered = span if ids[-1] == span[-1] else span[::-1]
    run = 0
    while run < min(len(ids), len(ordered)) and ids[-1 - run] == ordered[-1 - run]:
        run += 1
    if run < 2:
        return None
    total = sum(network.pieces[key].along for key in ordered) or 1.0
    passed = sum(network.pieces[key].along for key in ordered[-run:])
    return len(ids) - run, min(passed / total, 1.0) if run < len(ordered) else 1.0


def _route(network: Network, opening: Piece, path: _Path, first: int, covers: float, tables: Tables) -> Route:
    entry = _entry_passages(network, opening, path, tables)
    rest = with_runs([_passage(network, step) for step in path[1:]], network)
    return Route(opening, _laid((*entry, *rest), tables), 0 if first == 0 else first - 1 + len(entry), covers)


def _laid(passages: tuple[Passage, ...], tables: Tables) -> tuple[Passage, ...]:
    """The same, with the mouth in the opening's own channel into which the head is laid by hand, if any."""
    place = by_hand(passages, tables)
    if place is None:
        return passages
    return (*passages[:place], replace(passages[place], by_hand=True), *passages[place + 1 :])


def _entry_passages(network: Network, opening: Piece, path: _Path, tables: Tables) -> list[Passage]:
    """The opening's own steps; a turn that is drawn as a piece of its own is not counted twice."""
    assert opening.hole is not None
    kind = tables.openings[opening.hole.kind]
    port = path[0][2]
    next_is_bend = len(path) > 1 and network.pieces[path[1][0]].kind == "bend"
    drawn = opening.hole.short_entry or (kind.place == "fixture" and next_is_bend)
    steps = [s for s in kind.entry if _fits(s, port) and not (drawn and s.shape != "open")]
    if not steps:
        return [Passage(opening, "hole", port, opening.wall, opening.wall)]
    return [
        Passage(opening, "hole", port, opening.wall, opening.wall, step, number)
        for number, step in enumerate(steps)
    ]


def _fits(step: EntryStep, port: str) -> bool:
    return step.to in ("both", port)


def _passage(network: Network, step: tuple[str, str, str]) -> Passage:
    piece_id, enters, leaves = step
    piece = network.pieces[piece_id]

    def wall(port: str) -> Wall:
        link = network.links.get((piece_id, port))
        return network.pieces[link[0]].wall if link else piece.wall

    # A reducer and a branch have another pipe on one side; elsewhere the piece's own wall holds.
    uneven = piece.kind == "reducer"
    wall_in = wall(enters) if uneven or enters == "branch" else piece.wall
    wall_out = wall(leaves) if leaves and (uneven or leaves == "branch") else piece.wall
    return Passage(piece, enters, leaves, wall_in, wall_out)


def _without_shorter_copies(routes: list[Route]) -> list[Route]:
    """A part view is dropped where the same opening also gives the whole in one push."""
    whole = {route.opening.id for route in routes if route.covers >= 1.0}
    return [route for route in routes if route.covers >= 1.0 or route.opening.id not in whole]
