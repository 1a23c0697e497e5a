"""The journey: from a site sheet and a kit to a ranked plan. Nothing is printed, asked or saved here."""

from __future__ import annotations

from dataclasses import dataclass, replace

from advisor.kit.model import Kit, KitPart
from advisor.outcome.assess import Assessor
from advisor.outcome.at_door import NOTHING_TOLD, AtDoor
from advisor.outcome.facts import Circumstances, site_facts
from advisor.outcome.learned import BOOK, Learned
from advisor.outcome.memory import Memory
from advisor.outcome.rulings import infer_all
from advisor.quantity import Units
from advisor.ranking.part import part_worth, reach_part
from advisor.ranking.settle import settle
from advisor.ranking.within_reach import within_reach
from advisor.result.barred import LeftIn, barred
from advisor.result.stopped_before import StoppedBefore, by_stops
from advisor.result.study import Study
from advisor.result.through_opening import leads_of
from advisor.result.tried_before import TriedBefore, by_tries
from advisor.routes.enumerate import routes_to
from advisor.rulebase.load import RuleBase
from advisor.rulebase.reader import Reader
from advisor.site.build import network_of
from advisor.site.history import MachineRun
from advisor.site.looked_at import LookedAt
from advisor.site.looked_for import LookedFor, with_looks
from advisor.site.network import Network
from advisor.site.reached_in import with_chambers
from advisor.site.sheet import SiteSheet
from advisor.site.suspects import (
    Suspect,
    backing_up,
    contradiction,
    is_holding,
    suspect_target,
    suspects,
    trouble_told,
)
from advisor.site.target import SUSPECT, Target, target_of
from advisor.site.used import lone_toilet
from advisor.strict_yaml import Sheet
from advisor.tables.load import Tables
from advisor.worlds.draws import Worlds

DEFAULT_WORLDS = 1000
DEFAULT_SEED = 1
PREVIEW_WORLDS = 1000


@dataclass(frozen=True)
class Case:
    """What is to be planned: the site as written, the kit, and how finely to look."""

    sheet: Sheet[SiteSheet]
    kit: Kit
    units: Units
    worlds: int = DEFAULT_WORLDS
    seed: int = DEFAULT_SEED
    chosen: tuple[int, ...] | None = None  # the worlds that evidence leaves, instead of the first ones
    preview_of: int | None = None  # a first look says how many worlds the whole plan works through
    learned: Learned = BOOK  # what logged pushes have taught
    opened: tuple[str, ...] = ()  # openings that a push has shown to open, whatever the sheet says
    shut: tuple[str, ...] = ()  # and those found not to
    kinked: frozenset[KitPart] = frozenset()  # gear with any of these can be followed; none is planned
    left_in: tuple[LeftIn, ...] = ()  # and the pushes whose gear lies in the drain
    told: AtDoor = NOTHING_TOLD  # as the push that is followed began
    broken: bool = False  # whether a push saw the pipe broken
    tried: tuple[TriedBefore, ...] = ()  # and what was tried where, and what came of it
    stops: tuple[StoppedBefore, ...] = ()  # and where they were held at nothing that is drawn as hard
    looked_at: tuple[LookedAt, ...] = ()  # where pushes have looked
    looked_for: tuple[LookedFor, ...] = ()  # and what that told of openings that may not be there
    machine_run: MachineRun | None = None  # the last one that a push tells


def preview(case: Case, worlds: int = PREVIEW_WORLDS) -> Case:
    """The case for a first look, labelled so: the first of its worlds only, where it has more."""
    if case.worlds <= worlds or case.chosen is not None:
        return case
    return replace(case, worlds=worlds, preview_of=case.worlds)


def plan(case: Case, tables: Tables, base: RuleBase, memory: Memory | None = None) -> Study:
    """Work one case through. The same case and rules give the same study, bit for bit.

    `memory`, kept from plan to plan by whoever replans, saves what has not changed and alters nothing.
    What was learned never takes a caution away: the case is worked through by the book as well, and its
    cautions hold besides. Raises BadInput where the sheet contradicts itself.
    """
    study = work_through(case, tables, base, memory)
    if not case.learned.changes:
        return study
    return replace(study, book=work_through(replace(case, learned=BOOK), tables, base, like=study))


def work_through(
    case: Case, tables: Tables, base: RuleBase, memory: Memory | None = None, like: Study | None = None
) -> Study:
    """The journey itself, once, with what was learned and without a look at the book.

    It goes for all that is to be seen or for a part of it: for the same as `like`, where that is given.
    """
    memory = memory or Memory()
    # 1. What is believed: the drain as a network, the complaint, and whether the line is holding.
    site = case.sheet.model
    drawn_as = network_of(case.sheet, tables).tried(case.opened, case.shut)
    network = with_chambers(with_looks(drawn_as, case.looked_for), tables)
    given = circumstances_of(site, network)
    given = case.told.settle(replace(given, broken=case.broken, run_in_log=case.machine_run))
    facts = site_facts(network, given, tables)
    # 2. What is to be seen.
    network, target = (like.network, like.wanted) if like else target_of(case.sheet, network)
    suspected = suspects(network, site.task.complaint, tables, site.task.history, case.looked_at)
    target = target or suspect_target(suspected, network)
    # 3. Worlds: one value for each unknown quantity, shared by all routes and loadouts.
    worlds = Worlds(case.seed, case.worlds, case.chosen)
    drawn = memory.drawn(worlds, tables, _wetted(given), case.kit, case.learned)
    reader = Reader(case.units, tables.words(network.region))
    site_firings = infer_all(base, "site", facts, reader)
    assessor = Assessor(drawn, base, case.kit, facts, site_firings, reader, memory)

    def towards(target: Target, network: Network, suspected: tuple[Suspect, ...]) -> Study:
        # 4. Every route there, before any is judged; then geometry, rules and tries with each loadout.
        routes, cut = routes_to(network, target, tables)
        tried = [
            by_tries(assessor.assess(route, loadout), case.tried, reader, drawn)
            for route in routes
            for loadout in case.kit.loadouts
        ]
        leads = leads_of(tried, tables) if case.stops else {}
        outcomes = tuple(by_stops(each, case.stops, drawn, network, leads) for each in tried)
        # 5. The order in which they are worth trying, and when to leave each for the next.
        taken = barred(network, tables, case.kinked, case.left_in)
        usable = [each for each in outcomes if taken.usable(each.route, each.loadout)]
        settled = settle(usable, drawn)
        return Study(
            network,
            target,
            suspected,
            case.kit,
            given,
            facts,
            site_firings,
            routes,
            cut,
            outcomes,
            settled,
            drawn,
            tables,
            base,
            reader,
            case.seed,
            drawn.worlds.n,
            case.preview_of,
            taken,
        )

    part = like.part if like else None
    study = towards(part.target if part else target, network, suspected)
    if like is None and not study.settled.attempts:
        # 6. Where nothing is worth its minutes for all of it, the part that is worth a push of its own: a
        # section of it, or as far as the rod gets.
        section = part_worth(study.usable, target, suspected, network, tables)
        short = within_reach(study.usable, target, network, tables, case.units)
        if short:
            marked, near = short
            again = suspects(marked, site.task.complaint, tables, site.task.history, case.looked_at)
            found = towards(near, marked, again)
            part = reach_part(found.usable, near, target, found.suspects, marked, tables, section)
            study = found if part else study
        if section and part is None:
            part, study = section, towards(section.target, network, suspected)
        if part is None and target.kind == SUSPECT:
            # 7. Or the likeliest of the sections nearly as likely to which some way is worth its minutes.
            enough = suspected[0].share * tables.limits["next_suspect"].likely
            others = (towards(s.target, network, suspected) for s in suspected[1:] if s.share >= enough)
            study = next((other for other in others if other.settled.attempts), study)
    return replace(study, part=part, looked_for=case.looked_for)


def circumstances_of(site: SiteSheet, network: Network) -> Circumstances:
    """What is known of the whole job before any way is looked at."""
    complaint, history = site.task.complaint, site.task.history
    return Circumstances(
        is_holding(network, complaint),
        complaint.chemicals,
        complaint.gas_smell,
        site.pumps,
        site.septic,
        site.shared,
        site.roof_safe,
        site.deep_pits,
        history.tool_lost,
        history.brought,
        history.last_run,
        history.worse_on,
        backing_up(network, complaint),
        complaint.slow,
        trouble_told(network, complaint, history),
        contradiction(network, complaint),
        lone_toilet(network, (*complaint.backs_up, *complaint.slow), complaint.fine) is not None,
        sewage_smell=complaint.sewage_smell,
        wet_cellar=complaint.wet_cellar,
        house_trap=site.house_trap,
        asked=history.asked,
    )


def _wetted(given: Circumstances) -> bool | None:
    """A line known to drain is rinsed before the head goes in, as its plan asks, and its wall stays wet.

    One only seen to drain as a push began may not have been: its chances stay those of plan and card.
    """
    known = given.holding is False and not given.drains_at_door
    return True if known and not given.chemicals else None
