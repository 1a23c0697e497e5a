"""Read the signs: which way did the head go, what tells it, and what does it stand before.

Which way water runs is the network's own. What the signs tell, and how surely, is worked out by the tracker
that follows a real push: what is taught here is what `advisor push` shows at the same signs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.practice.drill import Ask, Drill, Option, harmful
from advisor.practice.glossary import drill_of
from advisor.practice.place import caution, drain, fitting, in_a_hundred, story
from advisor.practice.scene import School, drains, open_to_push, pick, shuffled
from advisor.practice.straight import COMES, NONE, RIM, TRADE, Walk, sign, walk
from advisor.practice.tracked import Tracked
from advisor.push.log.sighting import AHEAD, BEHIND, Read, Seen, Water
from advisor.quantity import Dimension, show
from advisor.result.study import Study
from advisor.site.network import Network, Piece
from advisor.tables.where import number

# What the sign that was seen says of the place of the head.
_SHOWN = {
    AHEAD: "It comes toward a lens that looks up the line and lies on the water's way.",
    BEHIND: "It overtakes a lens that looks down the line and lies on the water's way.",
    NONE: "A head that none of it comes by does not lie on its way: it stands beside or above that.",
}


def make(school: School, seed: int, after: str) -> Drill:
    """A site with an opening from which the head may have gone either way."""
    spare = None
    for study in school.sites(seed, lambda s: drains(s) and bool(_both_ways(s))):
        if not open_to_push(study):
            continue
        for opening in _both_ways(study):
            found = of_opening(study, opening, seed)
            if found is not None and opening.name != after:
                return found
            spare = spare or found
    assert spare is not None, "no opening with two ways"
    return spare


def _both_ways(study: Study) -> list[Piece]:
    """The openings from which a head may go up or down, with something to see either way."""
    return [each for each in study.network.openings() if _suits(study, each)]


def _suits(study: Study, opening: Piece) -> bool:
    hole = opening.hole
    if hole is None or set(study.tables.openings[hole.kind].reaches) != {"up", "down"}:
        return False
    ways = [walk(study, opening.id, way) for way in ("up", "down")]
    least = study.drawn.likely("drill_way")
    return all(each.pieces and each.length >= least and len(each.fittings) >= 2 for each in ways)


def _there(study: Study, opening: Piece) -> list[RouteOutcome]:
    """The ways in that pass the line of the opening: their lines are the ones to know."""
    return [
        r.outcome for r in study.ranked if any(p.piece.line == opening.line for p in r.outcome.route.passages)
    ]


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
    tracked = Tracked(study, opening)
    shown = [_Shown.of(tracked, p, tells[p.id], hidden, counter) for p in telling]
    # A push would want one more check where this one leaves it open: so then does the drill.
    sure = [each for each in shown if each.chances[hidden.way] >= number(study.tables.where.sure.check_below)]
    if not sure:
        return None
    bits = tracked.bits(counter)
    run = max(sure, key=lambda each: bits[each.fixture.name])  # it is what is best run, so it is what is run
    asks = (
        _what_to_run(study, run.fixture, tells, bits, counter, seed),
        _which_way(study, run, (up, down), counter, seed),
        *_before_what(study, Tracked(study, opening, hidden.way), hidden, counter, seed),
    )
    told = (
        *story(study),
        f"The head went in at {opening.name}. Nobody saw which way it turned.",
        f"The counter reads {show(counter, Dimension.LENGTH, study.units)}.",
    )
    return drill_of(study, "signs", seed, opening.name, told, asks, drain(study, _there(study, opening)))


def _signs(network: Network, fixture: Piece, up: Piece, down: Piece) -> tuple[str, str]:
    return sign(network, fixture.id, up.id, "up"), sign(network, fixture.id, down.id, "down")


@dataclass(frozen=True)
class _Shown:
    """A fixture that was run, how its water showed, and how likely the head then went up or down."""

    fixture: Piece
    tells: tuple[str, str]
    sign: str
    seconds: float | None
    chances: dict[str, float]

    @classmethod
    def of(
        cls, tracked: Tracked, fixture: Piece, tells: tuple[str, str], hidden: Walk, counter: float
    ) -> _Shown:
        shown = tells[0] if hidden.way == "up" else tells[1]
        seconds = None if shown == NONE else tracked.arrival(fixture.name, hidden.way, counter)
        told = Water(None, fixture.name, seconds, None if shown == NONE else shown)
        return cls(fixture, tells, shown, seconds, tracked.chances(counter, told))


def _wrong_way(study: Study, counter: float) -> float:
    """Minutes that going on the wrong way costs: in and back again, and a mark dug for in the wrong place."""
    costs = study.tables.costs
    rate = costs["push_minutes_per_metre"].likely + costs["draw_back_minutes_per_metre"].likely
    return 2 * counter * rate + costs["dig_up"].likely


def _what_to_run(
    study: Study,
    best: Piece,
    tells: dict[str, tuple[str, str]],
    bits: dict[str, float],
    counter: float,
    seed: int,
) -> Ask:
    costs = study.tables.costs
    test = costs["set up, water"].likely + costs["try, water"].likely
    fixtures = [study.network.pieces[key] for key in tells]
    # Beside it only what the tracker, too, expects to tell less.
    silent = [p for p in fixtures if len(set(tells[p.id])) == 1 and bits[p.name] < bits[best.name]]
    shown = [best, *silent[:3]]
    options = []
    for piece in shown:
        above, below = tells[piece.id]
        useless = above == below
        shows = f"the same either way: {COMES[above]}." if useless else "it shows which way it went."
        why = (
            "Cause: water runs down only. It comes by where its way to the sewer passes the head, else not.",
            f"From {piece.name}: {shows}",
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


def _which_way(study: Study, run: _Shown, walks: tuple[Walk, Walk], counter: float, seed: int) -> Ask:
    wrong, best = _wrong_way(study, counter), max(run.chances.values())
    options = []
    for each, expected in zip(walks, run.tells, strict=True):
        chance = run.chances[each.way]
        why = (
            f"Cause: water runs down only. {_SHOWN[run.sign]}",
            f"Had the head gone {each.way}: {COMES[expected]}.",
            f"After what was seen it went {each.way} {in_a_hundred(chance)}.",
        )
        place = each.where(counter).line
        options.append(Option(f"it went {each.way} the line, in {place}", (best - chance) * wrong, why=why))
    both = Option("it cannot be told from that", (best - 0.5) * wrong, why=options[0].why)
    ordered = tuple([*options, both][i] for i in shuffled(seed, "which way", 3))
    after = "" if run.seconds is None else f" after {run.seconds:.0f} seconds"
    return Ask(
        f"Say {run.fixture.name} is run, which tells the ways apart. At the lens {COMES[run.sign]}{after}. "
        "Which way did the head go?",
        ordered,
        "Where does that water come into the line, above the head or below it?",
    )


def chances(tracked: Tracked, walk_: Walk, seen: Sequence[tuple[str, float]]) -> dict[int, float]:
    """Chance of each fitting of a walk to be the next, after signs (kind, counter in m) in their order."""
    places = walk_.fittings
    sightings = [Read(counter) if kind == RIM else Seen(counter, kind) for kind, counter in seen]
    found = tracked.next_of([walk_.pieces[i].id for i in places], sightings)
    return dict(zip(places, found, strict=True))


def _at(study: Study, walk_: Walk, index: int) -> str:
    return show(float(walk_.at[index].mean()), Dimension.LENGTH, study.units)


def _before_what(study: Study, tracked: Tracked, hidden: Walk, counter: float, seed: int) -> list[Ask]:
    """What comes next, further on than `counter`; nothing where none stands clear of the others."""
    places = hidden.fittings
    world = pick(seed, "world", study.worlds)
    at = [float(hidden.at[index][world]) for index in places]
    gaps = [np.inf, *np.diff(at)]
    clear = [
        i for i in range(1, len(places))
        if at[i] > counter and min(gaps[max(i - 1, 1) : i + 2]) > study.drawn.likely("drill_gap")
    ]  # fmt: skip
    if not clear:
        return []
    stands = clear[pick(seed, "stands", len(clear))]
    before = places[max(stands - 2, 0) : stands]
    seen = [(hidden.signs[i], float(hidden.at[i][world])) for i in before]
    likely = chances(tracked, hidden, seen)
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
    told = f"The last that it has passed: {', then '.join(signs)}."
    return [
        Ask(
            f"It did go {hidden.way}, and you push on. {told} What does it come to next?",
            ordered,
            "Lay the signs along the line, one after the other, and see what comes after the last.",
        )
    ]
