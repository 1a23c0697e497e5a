"""One sheet of many to one row: what the plan says first, or what is wrong with the sheet."""

from __future__ import annotations

from dataclasses import dataclass, fields
from hashlib import sha256
from pathlib import Path

from advisor.errors import BadInput
from advisor.job.folder import SITE, Job
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.sheet import read_kit
from advisor.outcome.memory import Memory
from advisor.plan import Case, plan
from advisor.push.before.looked_at import as_pushes_show
from advisor.push.log.log import Entry, standing_in
from advisor.push.met_before import met_before
from advisor.push.seen_whole import seen_whole, with_seen
from advisor.quantity import never_certain
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.rulebase.load import load_rules
from advisor.site.sheet import site_of_text, usual_units
from advisor.strict_yaml import read_text
from advisor.tables.load import load_tables


@dataclass(frozen=True)
class Row:
    """What is told of one sheet; every field is text, empty where there is nothing to tell."""

    sheet: str
    content: str  # a digest of the sheet and of what it is planned with: a changed one is planned again
    result: str  # planned, no camera yet, no way in, bad sheet, failed
    site: str = ""
    first_step: str = ""
    opening: str = ""
    kit: str = ""
    chance: str = ""
    minutes: str = ""
    order: str = ""
    chance_in_all: str = ""
    minutes_in_all: str = ""
    message: str = ""


COLUMNS = tuple(field.name for field in fields(Row))


class Planner:
    """Plans sheet after sheet with one kit; one in each process."""

    def __init__(self, rules: Path, kit: Path | None, worlds: int, seed: int) -> None:
        """Raises BadInput where the rules or the kit are at fault."""
        self.tables = load_tables(rules)
        self.base = load_rules(rules, self.tables.limits, set(self.tables.sources))
        self.kit = kit_of(read_kit(kit), self.tables) if kit else default_kit(self.tables)
        self.worlds, self.seed = worlds, seed
        # A kit or a rule that has changed makes every row an old one.
        ground = "".join(read_text(each) for each in sorted(rules.rglob("*.yaml")))
        own = read_text(kit) if kit else ""
        self._with_what = f"{worlds} {seed}\n{own}\n{ground}"

    def content(self, path: Path) -> str:
        """A digest of a sheet's text and of what it is planned with; empty where it cannot be read."""
        try:
            text = read_text(path)
        except BadInput:
            return ""
        return sha256(f"{self._with_what}\n{text}{_told(path) or ''}".encode()).hexdigest()[:16]

    def row(self, path: Path, name: str) -> Row:
        """The row of one sheet. Whatever is wrong with it is told in the row: the rest must go on."""
        content = self.content(path)
        try:
            text = read_text(path)
            sheet = site_of_text(text, name, self.tables)
            case = Case(sheet, self.kit, usual_units(sheet.model), self.worlds, self.seed)
            told = _told(path)
            case = as_pushes_show(case, told, self.tables, self.base)
            study = plan(case, self.tables, self.base, Memory())
            made = plan_of(study, met_before(study, told))
            return _row(name, content, with_seen(made, seen_whole(study, told), study))
        except BadInput as wrong:
            more = f" (and {len(wrong.faults) - 1} more)" if len(wrong.faults) > 1 else ""
            return Row(name, content, "bad sheet", message=f"{wrong.faults[0]}{more}")
        except Exception as fault:  # a fault of ours in one sheet of ten thousand must not lose the others
            return Row(name, content, "failed", message=f"{type(fault).__name__}: {fault}")


def _told(path: Path) -> tuple[Entry, ...]:
    """What pushes told, where the sheet is that of a job."""
    return standing_in(Job(path.parent).log) if path.name == SITE else ()


def _row(name: str, content: str, made: Plan) -> Row:
    if not made.routes:
        return Row(name, content, "no way in", made.site, made.first_step)
    if made.no_plan:  # what would be pushed is no plan of anybody's, and a table tells it without its words
        return Row(name, content, "no camera yet", made.site, made.first_step)
    first = made.routes[0]
    return Row(
        name,
        content,
        "planned" if made.camera_now else "no camera yet",
        made.site,
        made.first_step,
        first.opening,
        first.loadout.name,
        "" if first.ended else f"{never_certain(first.chance):.2f}",
        f"{first.minutes:.0f}",
        " > ".join(dict.fromkeys(step.opening for step in made.attempts)),
        "" if made.attempts_chance is None else f"{never_certain(made.attempts_chance):.2f}",
        f"{made.attempts_minutes:.0f}",
    )
