"""What every command that plans needs first: rules, tables, sheet and kit, read from files."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from advisor import demo
from advisor.archetype import archetypes
from advisor.job.folder import Job, job_kit, site_sheet
from advisor.job.own import own_kit
from advisor.job.units import told_units
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.sheet import KitSheet, read_kit
from advisor.outcome.learned import BOOK
from advisor.plan import DEFAULT_SEED, DEFAULT_WORLDS, Case, plan
from advisor.practice.scene import School
from advisor.push.before.looked_at import as_pushes_show
from advisor.push.log.log import standing_in
from advisor.push.met_before import counted_of_pushes, met_before, told_of_pushes
from advisor.push.no_roots_seen import with_looks
from advisor.push.report.placed_anew import placed_anew
from advisor.push.report.taught_jobs import learned_now
from advisor.push.seen_whole import seen_whole, with_seen
from advisor.push.told_before import SETTLED, told_before
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.result.study import Study
from advisor.rulebase.load import RuleBase, load_rules
from advisor.site.sheet import read_site, usual_units
from advisor.strict_yaml import Sheet
from advisor.tables.load import Tables, load_tables


@dataclass(frozen=True)
class Ready:
    """A case with the rules to plan it by; `kit_sheet` is missing where the kit is a built-in class."""

    case: Case
    kit_sheet: Sheet[KitSheet] | None
    tables: Tables
    base: RuleBase
    log: Path | None = None  # of the job, whose pushes a plan knows of


def planned(ready: Ready) -> Plan:
    """The whole plan, with where pushes of the job never came past, what they saw on their way and what they
    were told of what it asks.

    Raises BadInput.
    """
    study = plan(ready.case, ready.tables, ready.base)
    return plan_of(study) if ready.log is None else with_log(study, ready.log)


def with_log(study: Study, log: Path) -> Plan:
    """The plan of a study with what the log of its job tells of it."""
    standing = placed_anew(standing_in(log), study)
    made = plan_of(study, met_before(study, standing))
    told = told_before(standing) if any(ask.caution.id in SETTLED for ask in made.ask) else ()
    made, stopped = with_seen(made, seen_whole(study, standing), study), told_of_pushes(study, standing)
    counted = counted_of_pushes(made, study, standing)
    made = with_looks(made, study, standing)
    return made.model_copy(update={"stopped": stopped, "counted": counted, "told": told})


def make_school(kit: Path | None, rules: Path, region: str | None = None) -> School:
    """What practice is made from: rules, typical buildings (of one region, or all), and the kit as a plan
    has it. Raises BadInput.
    """
    tables = load_tables(rules)
    base = load_rules(rules, tables.limits, set(tables.sources))
    path = kit or own_kit()
    made = kit_of(read_kit(path), tables) if path else default_kit(tables)
    buildings = tuple(b for b in archetypes(rules, tables) if region in (None, b.region))
    return School(tables, base, buildings, made)


def make_ready(
    site: Path | None,
    kit: Path | None,
    units: str | None,
    worlds: int | None,
    seed: int | None,
    rules: Path,
) -> Ready:
    """Read everything; without a site the built-in demo with its own kit. Raises BadInput.

    The kit is the one given, else that of the job, else the truck's, else the built-in classes.
    """
    tables = load_tables(rules)
    base = load_rules(rules, tables.limits, set(tables.sources))
    sheet = read_site(site_sheet(site) if site else demo.MAIN, tables)
    kit_path = kit or (demo.KIT if site is None else job_kit(site) or own_kit())
    kit_sheet = read_kit(kit_path) if kit_path else None
    made = kit_of(kit_sheet, tables) if kit_sheet else default_kit(tables)
    case = Case(
        sheet,
        made,
        told_units(units, site) or usual_units(sheet.model),
        worlds or DEFAULT_WORLDS,
        DEFAULT_SEED if seed is None else seed,
        # The demo shows the program, not its user: it goes by the book.
        learned=learned_now(rules, tables, base) if site else BOOK,
    )
    log = Job(site).log if site and site.is_dir() else None
    standing = standing_in(log) if log else ()
    return Ready(as_pushes_show(case, standing, tables, base), kit_sheet, tables, base, log)
