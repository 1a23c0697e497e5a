"""Small invented jobs for whole-job tests: sheets as text, planned with a few hundred worlds."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.walk import HardSpot
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import PassageNote, Plan, TechniqueNote
from advisor.result.study import Study
from advisor.rulebase.load import RuleBase, load_rules
from advisor.rulebase.rule import Rule
from advisor.site.sheet import site_of_text
from advisor.tables.load import Tables, load_tables
from advisor.tables.place import rules_dir

SMALL_ROD = "{rod: small reel, like: small reel, core: 3 to 4.5 mm}"
SMALL_REEL = f"""
kit: small reel
heads: [{{head: small head, diameter: 25 mm, length: 40 mm, nose: round}}]
springs: [{{spring: spring, like: small reel, SPRING}}]
rods: [{SMALL_ROD}]
"""


@cache
def tables() -> Tables:
    return load_tables(rules_dir())


@cache
def rules() -> RuleBase:
    return load_rules(rules_dir(), tables().limits, set(tables().sources))


@cache
def rules_without_preferences() -> RuleBase:
    """The rule base with everything that a technique rule asks for taken out: only rejections stay."""

    def plain(rule: Rule) -> Rule:
        kept = {name: how for name, how in rule.conclusion.techniques.items() if how == "rejected"}
        return replace(rule, conclusion=replace(rule.conclusion, techniques=kept))

    base = rules()
    technique = tuple(plain(rule) for rule in base.by_stratum["technique"])
    return replace(base, by_stratum={**base.by_stratum, "technique": technique})


def kit_text(spring: str = "feel: soft") -> str:
    return SMALL_REEL.replace("SPRING", spring)


def studied(site: str, kit: str, worlds: int = 1500, base: RuleBase | None = None) -> Study:
    made = kit_of(kit_of_text(kit, "kit"), tables())
    case = Case(site_of_text(site, "site", tables()), made, Units.INCH, worlds)
    return plan(case, tables(), base or rules())


def planned(site: str, kit: str, worlds: int = 1500, base: RuleBase | None = None) -> Plan:
    return plan_of(studied(site, kit, worlds, base))


def outcome(study: Study, opening: str) -> RouteOutcome:
    return next(r.outcome for r in study.ranked if r.outcome.route.opening.name == opening)


def spot(study: Study, opening: str, kind: str) -> HardSpot:
    """The hard spot whose likeliest fitting is `kind` on the way in from `opening`."""
    spots = outcome(study, opening).spots
    return next(s for s in spots if max(s.rulings, key=lambda r: r.share).variant == kind)


def note(plan_: Plan, opening: str, kind: str) -> PassageNote:
    route = next(r for r in plan_.routes if r.opening == opening)
    return next(p for p in route.passages if p.kind == kind)


def technique(passage: PassageNote, name: str) -> TechniqueNote:
    return next(t for t in passage.techniques if t.name == name)


def tried(hard: HardSpot) -> list[str]:
    """The techniques in the order in which they are tried, after the gentle first push."""
    return [name for name, _ in hard.order][1:]


def troubles(hard: HardSpot) -> set[str]:
    return {
        trouble
        for ruling in hard.rulings
        for firing in ruling.firings
        if firing.outcome
        for trouble in firing.rule.conclusion.troubles
    }
