"""What rules are told about a site, an opening and a route: plain numbers and shares of worlds."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from advisor.kit.model import Loadout
from advisor.mechanics.hand import largest_hand_distance
from advisor.outcome.drawn import Drawn
from advisor.outcome.forces import March
from advisor.outcome.geometry import through_hole
from advisor.outcome.likeliest_roots import likeliest_run
from advisor.outcome.may_be import no_tool_in
from advisor.outcome.opens import opens_share
from advisor.quantity import Estimate, Known
from advisor.routes.passage import Route
from advisor.site.history import BROKEN, KINKED, MachineRun
from advisor.site.network import Network, Piece
from advisor.site.pieces import OpeningEntry
from advisor.site.relief import CHAMBER, TRAP, lowest_outside, trap_past, without_arm
from advisor.site.too_high import stands_high, too_high
from advisor.tables.conditions import ROOTS
from advisor.tables.load import Tables
from advisor.worlds.draws import Array
from advisor.worlds.spread import below, middle

Facts = dict[str, float | bool | str | None]


@dataclass(frozen=True)
class Circumstances:
    """What is known of the whole job before any route is looked at."""

    holding: bool | None
    chemicals: bool | None
    gas_smell: bool | None
    pumps: bool | None
    septic: bool | None
    shared: bool | None
    roof_safe: bool | None = None
    deep: bool | None = None
    tool_lost: bool | None = None
    came_back: tuple[str, ...] = ()
    machine_run: MachineRun | None = None  # the latest on the sheet
    worse_on: tuple[str, ...] = ()
    backs_up: tuple[str, ...] = ()  # what is told to back up, and where water is seen to stand
    slow: tuple[str, ...] = ()  # what is told to run slow
    trouble: bool = False  # anything is told or seen to run badly
    contradiction: str = ""  # what was said of the water that cannot both be, in words
    lone_toilet: bool = False  # one toilet is all that runs badly, and what joins its pipe runs fine
    broken: bool = False  # a push of the job saw the pipe broken, or a machine brought soil or bits of it
    sewage_smell: bool | None = None
    wet_cellar: str | None = None  # when, as told
    drains_at_door: bool = False  # only as a push began was it seen that the line does not hold
    house_trap: bool | None = False  # one that is not drawn; None where somebody was asked and did not know
    run_in_log: MachineRun | None = None  # the last that a push of the job tells
    asked: tuple[str, ...] = ()  # of the history, and answered

    @property
    def last_run(self) -> MachineRun | None:
        """The last machine run, of sheet and log; of one on the day of another the log tells."""
        runs = [run for run in (self.run_in_log, self.machine_run) if run is not None]
        return max(runs, key=lambda run: run.on or "", default=None)

    @property
    def water_allowed(self) -> bool | None:
        """Whether water may be run: yes, no, or first to be seen (None)."""
        if self.holding or self.chemicals:
            return False
        return True if self.holding is False and self.chemicals is False else None


def site_facts(network: Network, given: Circumstances, tables: Tables) -> Facts:
    """Facts that hold for the whole job. A pump or tank that is drawn, or that a line is told to end in, is
    there, whatever was said."""
    run = given.last_run
    from_ = run.in_at if run else None
    gone = next(
        (piece.name for piece in network.pieces.values() if piece.absent and piece.name == from_), None
    )
    stoppers = {piece.holds for piece in network.pieces.values() if piece.holds}
    high = next(iter(too_high(network, given.backs_up or (), tables)), None)
    pumped = any(tables.stoppers[name].pump for name in stoppers)
    lowest = lowest_outside(network)
    hole = lowest.hole if lowest else None
    stands, lid = hole is not None and hole.water == "standing", hole is not None and hole.kind == CHAMBER
    trap = trap_past(network, lowest) if lowest else None
    no_tool = no_tool_in(network, tables, lowest if stands else None)
    trap_words = tables.stoppers[TRAP].words[network.region] if trap else None
    armless = trap is not None and without_arm(network, trap)
    return {
        "site.region": network.region,
        "site.built": network.year,
        "site.holding": given.holding,
        "site.chemicals": given.chemicals,
        "site.gas_smell": given.gas_smell,
        "site.sewage_smell": given.sewage_smell,
        "site.cellar": given.wet_cellar is not None
        or any(piece.in_cellar for piece in network.pieces.values()),
        "site.wet_cellar": given.wet_cellar,
        "site.pumps": pumped or given.pumps,
        "site.septic": any(tables.stoppers[name].gas for name in stoppers) or given.septic,
        # What is drawn is told where it is met.
        "site.house_trap": "house trap" not in stoppers and given.house_trap,
        "site.neighbours": given.shared,
        "site.roof_safe": given.roof_safe,
        "site.deep": given.deep,
        # What people say; whether they were asked is a rule of its own.
        "site.tool_lost": given.tool_lost is True,
        "site.asked_earlier": "earlier jobs" in given.asked,
        "site.asked_machines": "machines" in given.asked,
        "site.broken": given.broken or BROKEN in given.came_back,
        "site.no_tool": no_tool is not None,
        "site.no_tool_in": no_tool,
        "site.roots_back": ROOTS in given.came_back,
        "site.roots_where": likeliest_run(network, tables),
        "site.machine_run": run is not None,
        "site.machine_when": (run.when or "nobody knows when") if run else None,
        "site.machine_to": run.to.likely if run and run.to else None,
        # From what is told not to be there its length leads nowhere.
        "site.machine_from": from_ if gone is None else None,
        "site.machine_from_gone": gone,
        "site.cable_kinked": KINKED in given.came_back,
        "site.rain": "rain" in given.worse_on,
        "site.backs_up": bool(given.backs_up),
        "site.trouble": given.trouble,
        "site.too_high": high.name if high else None,
        "site.spills_first": high.spills if high else None,
        "site.stands_high": " and ".join(stands_high(network, given.backs_up or (), tables)) or None,
        "site.lowest_outside": lowest.name if lowest and not stands and not lid else None,
        "site.lowest_chamber": lowest.name if lowest and not stands and lid else None,
        "site.trap_past_lowest": None if armless else trap_words,
        "site.trap_without_arm": trap_words if armless else None,
        "site.lowest_full": lowest.name if lowest and stands else None,
        "site.lone_toilet": given.lone_toilet,
        "site.neighbours_ground": " and ".join(p.name for p in network.openings() if _next_door(p)) or None,
    }


def opening_facts(opening: Piece, loadout: Loadout, drawn: Drawn) -> Facts:
    """Facts of one opening for one loadout."""
    assert opening.hole is not None
    bore = through_hole(opening.hole, opening.wall, drawn.wall(opening.wall).bore)
    fits = _share(bore > drawn.kit(loadout).head_diameter)
    return {**facts_of_place(opening, drawn.tables), "opening.head_fits": fits}


def facts_of_place(opening: Piece, tables: Tables) -> Facts:
    """Facts of one opening whatever is put in there."""
    hole = opening.hole
    assert hole is not None
    kind = tables.openings[hole.kind]
    opens = opens_share(hole, tables).likely if hole.opens is None else float(hole.opens)
    fixture = hole.fixture or ""
    return {
        "opening.kind": hole.kind,
        "opening.place": kind.place,
        "opening.in_pit": kind.in_pit,
        "opening.crawl": hole.crawl,
        "opening.cellar": opening.in_cellar,
        "opening.neighbours_ground": _next_door(opening),
        "opening.buried": hole.buried,
        "opening.water": hole.water,
        "opening.size": hole.size.value if hole.size else opening.wall.nominal.value,
        "opening.opens": opens,
        "opening.toilet_off": hole.toilet,
        "opening.traffic": "traffic" in kind.hazards and not opening.in_cellar,
        "opening.sharp_rim": "sharp rim" in kind.hazards,
        "opening.iron": _may_be_iron(opening, tables),
        "opening.fixture": fixture,
        "opening.material": opening.wall.material.likeliest,
        "opening.hot": fixture in tables.fixtures and tables.fixtures[fixture].hot,
        "opening.depth": hole.deepest,
    }


def _next_door(opening: Piece) -> bool:
    """Whether an opening was told to lie on a neighbour's ground."""
    return isinstance(opening.entry, OpeningEntry) and opening.entry.ground == "neighbour"


def _may_be_iron(opening: Piece, tables: Tables) -> bool:
    """Whether iron or steel is likely enough at the rim to be told of; a flange ring mostly is of either."""
    assert opening.hole is not None
    iron = sum(
        share
        for name, share in opening.wall.material.options
        if tables.materials[name].fittings in ("iron", "steel")
    )
    return opening.hole.toilet or iron >= tables.limits["notable_share"].likely


def route_facts(route: Route, march: March, drawn: Drawn, loadout: Loadout) -> Facts:
    """Facts of one route for one loadout."""
    kit = drawn.kit(loadout)
    length = march.end.at
    stoppers = [p.piece.stopper for p in route.passages if p.piece.stopper]
    under, whole = _under_water(route, drawn)
    hole = route.opening.hole
    # In a chamber or shaft the hand stays at the rim, so the depth is free rod; elsewhere it stays near.
    depth = hole.depth if hole and hole.depth else drawn.likely("hand_near")
    return {
        "route.length": middle(length),
        "route.reach": middle(march.reach),
        "route.reaches": _share(march.reach >= length),
        "route.reel_long_enough": bool(middle(kit.reel) >= middle(length)),
        "route.bends": float(march.end.bends),
        "route.tight_bends": float(march.end.tight_bends),
        "route.flow": route.direction,
        "route.pulls_out": _share(march.pull <= np.minimum(kit.pull_limit, drawn.limit("pull_force"))),
        "route.under_water": under / whole if whole > 0 else 0.0,
        "route.covers": route.covers,
        "route.stopped_by": stoppers[0] if stoppers else "nothing",
        "route.drop": max(march.drop, 0.0),
        "route.hand_free": most_free(drawn, loadout),
        "route.hand_distance": max(depth, drawn.likely("hand_near")),
        "route.hand_by": "as told" if hole and hole.deepest else "assumed, nobody has measured it",
        "route.open_at": " and ".join(_passed_open(route, drawn.tables)) or None,
        "route.laid_into": next((p.piece.name for p in route.passages if p.by_hand), None),
        "route.passes_tank": any(drawn.tables.stoppers[name].tank for name in stoppers),
        "route.up_pipe": route.direction != "with",
    }


def _passed_open(route: Route, tables: Tables) -> list[str]:
    """The chambers that the head goes on through: nothing but a channel leads the rod there."""
    return [
        passage.piece.name
        for passage in route.passages
        if passage.shape == "past" and passage.piece.hole is not None
        if tables.openings[passage.piece.hole.kind].open_channel
    ]


def safe(values: Array, drawn: Drawn) -> float:
    """The most that is not too much but in the share of cases that the limits allow; `values` float[N]."""
    return below(values, drawn.likely("unsafe_share"))


def safe_pull(drawn: Drawn, loadout: Loadout) -> float:
    """The most that is ever pulled by hand, N: the least that spring, coupling or hand are believed to bear.

    What parts stays in the pipe, so one case in ten that is over it would be too many.
    """
    return weakest_in_pull(drawn, loadout)[1].low


def weakest_in_pull(drawn: Drawn, loadout: Loadout) -> tuple[str, Known | Estimate]:
    """Which of spring, coupling and hand is believed to bear least, and what is believed of it, N."""
    limits = drawn.tables.limits
    beliefs = {
        "spring": loadout.spring.pull_limit,
        "coupling": limits["coupling_pull_limit"],
        "hand": limits["pull_force"],
    }
    return min(beliefs.items(), key=lambda each: each[1].low)


def most_free(drawn: Drawn, loadout: Loadout) -> float:
    """The most free rod at the hand, m: what does not fold, and never more than the hand is off anyhow."""
    return min(safe(free_hand(drawn, loadout), drawn), drawn.likely("hand_near"))


def free_hand(drawn: Drawn, loadout: Loadout) -> Array:
    """Largest distance between hand and opening at which the free rod does not fold, m."""
    return np.asarray(
        largest_hand_distance(
            drawn.kit(loadout).stiffness,
            drawn.limit("push_force"),
            drawn.limit("end_factor_loose"),
            drawn.limit("hand_safety"),
        ),
        np.float32,
    )


def _under_water(route: Route, drawn: Drawn) -> tuple[float, float]:
    under = whole = 0.0
    for passage in route.passages[route.target_from :]:
        length = float(drawn.length(passage.piece).mean())
        whole += length
        under += length if passage.piece.kind == "belly" else 0.0
    return under, whole


def _share(values: NDArray[np.bool_] | Array) -> float:
    return float(np.mean(values))
