"""Read the signs: which way did the head go, what tells it, and what does it stand before.

Which way water runs is the network's own. Where the head is follows from the drawn lengths: each place that
it may stand before is weighed by how well the drawn worlds fit what the counter read at the signs before it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.practice.drill import Ask, Drill, Option, harmful
from advisor.practice.glossary import drill_of
from advisor.practice.place import caution, drain, fitting, in_a_hundred, story
from advisor.practice.scene import School, open_to_push, pick, shuffled
from advisor.quantity import Dimension, show
from advisor.result.study import Study
from advisor.site.network import Network, Piece
from advisor.worlds.draws import Array

COUNTER_OFF, COUNTER_LOOSE = 0.03, 0.15  # share and m by which a counter is off; our judgement
LEAST_WAY = 2.0  # m that must lie on both sides
LEAST_GAP = 0.3  # m between fittings that a counter can tell apart
AHEAD, BEHIND, NONE = "water comes toward you", "water comes past you from behind", "no water comes"
TRADE = {"junction": "a hole in the side", "bend": "a turn", "joint": "a rim", "reducer": "a change of size"}


@dataclass(frozen=True)
class Walk:
    """The pieces along one direction from an opening, each with its near end in m, in each world."""

    way: str  # up or down
    pieces: tuple[Piece, ...]
    at: tuple[Array, ...]

    def where(self, distance: float) -> Piece:
        """The piece that the head is in, by the likely lengths."""
        found = self.pieces[0]
        for piece, at in zip(self.pieces, self.at, strict=True):
            if float(at.mean()) <= distance:
                found = piece
        return found

    @property
    def length(self) -> float:
        """Likely m to the last fitting."""
        return float(self.at[-1].mean())


def walk(study: Study, opening: str, way: str) -> Walk:
    """Straight on up or down from an opening, along its own line and those it runs into."""
    network, drawn = study.network, study.drawn
    at: Array = np.zeros(study.worlds, np.float32)
    pieces, ats = [], []
    key: str | None = opening
    seen = {opening}
    while key is not None:
        piece = network.pieces[key]
        if key != opening:
            pieces.append(piece)
            ats.append(at)
            at = at + drawn.length(piece)
        link = network.links.get((key, way))
        key = link[0] if link and link[0] not in seen else None
        if key is not None:
            seen.add(key)
    return Walk(way, tuple(pieces), tuple(ats))


def sign(network: Network, fixture: str, place: str, way: str) -> str:
    """How water from a fixture shows at a lens that stands in a piece, having gone `way` from its opening."""
    if place not in network.downstream(fixture):
        return NONE
    return AHEAD if way == "up" else BEHIND


def make(school: School, seed: int, after: str) -> Drill:
    """A site with an opening from which the head may have gone either way."""
    spare = None
    for study in school.sites(seed):
        # Water is run only where somebody has seen the line drain.
        if not open_to_push(study) or study.circumstances.holding is not False:
            continue
        for opening in study.network.openings():
            if not _suits(study, opening):
                continue
            found = of_opening(study, opening, seed)
            if found is not None and opening.name != after:
                return found
            spare = spare or found
    assert spare is not None, "no opening with two ways"
    return spare


def _suits(study: Study, opening: Piece) -> bool:
    hole = opening.hole
    if hole is None or set(study.tables.openings[hole.kind].reaches) != {"up", "down"}:
        return False
    ways = [walk(study, opening.id, way) for way in ("up", "down")]
    return all(each.pieces and each.length >= LEAST_WAY and len(_fittings(each)) >= 2 for each in ways)


def _there(study: Study, opening: Piece) -> list[RouteOutcome]:
    """The ways in that pass the line of the opening: their lines are the ones to know."""
    return [
        r.outcome for r in study.ranked if any(p.piece.line == opening.line for p in r.outcome.route.passages)
    ]


def _fittings(walk_: Walk) -> list[int]:
    return [i for i, piece in enumerate(walk_.pieces) if piece.kind in TRADE]


def of_opening(study: Study, opening: Piece, seed: int) -> Drill | None:
    """The drill at one opening; None where no water tells the ways apart."""
    up, down = (walk(study, opening.id, way) for way in ("up", "down"))
    hidden = (up, down)[pick(seed, "way", 2)]
    counter = 0.8 * min(up.length, down.length)
    fixtures = [p for p in study.network.pieces.values() if p.hole and p.hole.fixture]
    tells = {p.id: _signs(study.network, p, up.where(counter), down.where(counter)) for p in fixtures}
    telling = [p for p in fixtures if len(set(tells[p.id])) == 2]
    if not telling:
        return None
    run = telling[pick(seed, "run", len(telling))]
    asks = (
        _what_to_run(study, fixtures, tells, counter, seed),
        _which_way(study, run, tells[run.id], (up, down), hidden, counter, seed),
        *_before_what(study, hidden, counter, seed),
    )
    told = (
        *story(study),
        f"The head went in at {opening.name}. Nobody saw which way it turned.",
        f"The counter reads {show(counter, Dimension.LENGTH, study.units)}.",
    )
    return drill_of(study, "signs", seed, opening.name, told, asks, drain(study, _there(study, opening)))


def _signs(network: Network, fixture: Piece, up: Piece, down: Piece) -> tuple[str, str]:
    return sign(network, fixture.id, up.id, "up"), sign(network, fixture.id, down.id, "down")


def _wrong_way(study: Study, counter: float) -> float:
    """Minutes that going on the wrong way costs: in and back again, and a mark dug for in the wrong place."""
    costs = study.tables.costs
    rate = costs["push_minutes_per_metre"].likely + costs["draw_back_minutes_per_metre"].likely
    return 2 * counter * rate + costs["dig_up"].likely


def _what_to_run(
    study: Study, fixtures: Sequence[Piece], tells: dict[str, tuple[str, str]], counter: float, seed: int
) -> Ask:
    costs = study.tables.costs
    test = costs["set up, water"].likely + costs["try, water"].likely
    telling = [p for p in fixtures if len(set(tells[p.id])) == 2]
    silent = [p for p in fixtures if len(set(tells[p.id])) == 1]
    shown = [telling[shuffled(seed, "telling", len(telling))[0]], *silent[:3]]
    options = []
    for piece in shown:
        above, below = tells[piece.id]
        useless = above == below
        why = (
            "Cause: water runs down only. It meets a head that went up, and overtakes one that went down.",
            f"From {piece.name}: " + ("the same either way." if useless else "it shows which way it went."),
        )
        regret = test + 0.5 * _wrong_way(study, counter) if useless else 0.0
        options.append(Option(f"run {piece.name}", regret, why=why))
    blind = "Pushing on tells nothing until it is too late: one way in two it is the wrong one."
    options.append(Option("nothing: push on and see", 0.5 * _wrong_way(study, counter), why=(blind,)))
    back = "It comes back at your hands and face on the rod."
    cleaner = "pour drain cleaner in and watch for its colour"
    options.append(harmful(cleaner, back, caution(study, "chemicals"), options))
    ordered = tuple(options[i] for i in shuffled(seed, "run", len(options)))
    return Ask(
        "What do you run, to learn which way the head went?",
        ordered,
        "Follow the water of each one down. Does it pass the head in both cases, in one, or in none?",
    )


def _which_way(
    study: Study, run: Piece, told: tuple[str, str], walks: tuple[Walk, Walk], hidden: Walk,
    counter: float, seed: int,
) -> Ask:  # fmt: skip
    shown = told[0] if hidden.way == "up" else told[1]
    options = []
    for each, expected in zip(walks, told, strict=True):
        right = each is hidden
        why = (
            "Cause: water runs down only. It meets a head that went up, and overtakes one that went down.",
            f"Had the head gone {each.way}: {expected}.",
        )
        place = each.where(counter).line
        regret = 0.0 if right else _wrong_way(study, counter)
        options.append(Option(f"it went {each.way} the line, in {place}", regret, why=why))
    both = Option("it cannot be told from that", _wrong_way(study, counter) / 2, why=options[0].why)
    ordered = tuple([*options, both][i] for i in shuffled(seed, "which way", 3))
    return Ask(
        f"You run {run.name}. At the lens {shown}. Which way did the head go?",
        ordered,
        "Where does that water come into the line, above the head or below it?",
    )


def chances(study: Study, walk_: Walk, seen: Sequence[tuple[str, float]]) -> dict[int, float]:
    """Chance of each fitting of a walk to be the next, after signs (kind, counter in m) in their order."""
    places = _fittings(walk_)
    found: dict[int, float] = {}
    for number in range(len(places)):
        before = places[number - len(seen) : number] if number >= len(seen) else []
        kinds = [walk_.pieces[i].kind for i in before]
        if kinds != [kind for kind, _ in seen]:
            found[places[number]] = 0.0
            continue
        misfit = np.zeros(study.worlds)
        for index, (_, counter) in zip(before, seen, strict=True):
            spread = COUNTER_LOOSE + COUNTER_OFF * counter
            misfit = misfit + ((walk_.at[index] - counter) / spread) ** 2
        found[places[number]] = float(np.exp(-misfit / 2).mean())
    total = sum(found.values())
    return {index: chance / total if total > 0 else 1 / len(found) for index, chance in found.items()}


def _at(study: Study, walk_: Walk, index: int) -> str:
    return show(float(walk_.at[index].mean()), Dimension.LENGTH, study.units)


def _before_what(study: Study, hidden: Walk, counter: float, seed: int) -> list[Ask]:
    """What comes next, further on than `counter`; nothing where none stands clear of the others."""
    places = _fittings(hidden)
    number = pick(seed, "world", study.worlds)
    at = [float(hidden.at[index][number]) for index in places]
    gaps = [np.inf, *np.diff(at)]
    clear = [
        i for i in range(1, len(places))
        if at[i] > counter and min(gaps[max(i - 1, 1) : i + 2]) > LEAST_GAP
    ]  # fmt: skip
    if not clear:
        return []
    stands = clear[pick(seed, "stands", len(clear))]
    before = places[max(stands - 2, 0) : stands]
    seen = [(hidden.pieces[i].kind, float(hidden.at[i][number])) for i in before]
    likely = chances(study, hidden, seen)
    best = max(likely.values())
    shown = sorted(places, key=lambda i: -likely[i])[:4]
    dig = study.tables.costs["dig_up"].likely
    signs = [f"{TRADE[kind]} at {show(at, Dimension.LENGTH, study.units)}" for kind, at in seen]
    options = [
        Option(
            f"{fitting(study, hidden.pieces[i])}, by the map at about {_at(study, hidden, i)}",
            (best - likely[i]) * dig,
            why=(
                "Cause: the counter says how far, the map what lies there; guessed lengths are off.",
                f"After what was seen it is next {in_a_hundred(likely[i])}.",
            ),
        )
        for i in shown
    ]
    ordered = tuple(options[i] for i in shuffled(seed, "before", len(options)))
    told = f"Since the opening it has passed {', then '.join(signs)}."
    return [
        Ask(
            f"It did go {hidden.way}, and you push on. {told} What does it come to next?",
            ordered,
            "Lay the signs along the line, one after the other, and see what comes after the last.",
        )
    ]
