"""`advisor rules`: list, show, which fired over sites, which never do, which rest on weak ground."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from advisor import demo
from advisor.errors import BadInput, Fault
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.study import Study
from advisor.rulebase.load import RuleBase, load_rules
from advisor.rulebase.rule import Rule
from advisor.rulebase.trace import Firing
from advisor.site.sheet import read_site
from advisor.strict_yaml.model import nearest
from advisor.tables.load import Tables, load_tables
from advisor.terminal.page import Page

WORLDS = 400  # enough to see whether a rule fires


def rules(question: str, about: list[str], folder: Path) -> int:
    """Answer one question about the rules; raises BadInput."""
    tables = load_tables(folder)
    base = load_rules(folder, tables.limits, set(tables.sources))
    page = Page()
    if question == "list":
        for stratum, each in base.by_stratum.items():
            page.heading(stratum)
            for rule in each:  # an id must stay whole, to be copied into `rules show`
                page.line(f"{rule.id}, about the {rule.about}: {rule.title}")
    elif question == "show":
        for name in about or [rule.id for rule in base.all_rules]:
            _show(_find(base, name), tables, page)
    elif question == "weak":
        page.heading("Rules that rest only on memory or our judgement")
        page.steps(
            [f"{r.id}: {r.title}" for r in base.all_rules if all(g.weak for g, _ in r.sources)], mark="-"
        )
    else:
        _fired(question, about, tables, base, page)
    return 0


def _find(base: RuleBase, name: str) -> Rule:
    found = next((rule for rule in base.all_rules if rule.id == name), None)
    if found is None:
        known = [rule.id for rule in base.all_rules]
        raise BadInput([Fault("rules", 0, f"no rule is called {name!r}{nearest(name, known)}")])
    return found


def _show(rule: Rule, tables: Tables, page: Page) -> None:
    page.heading(f"{rule.id}: {rule.title}")
    page.line(f"{rule.stratum}, about the {rule.about} ({Path(rule.file).name}:{rule.line})")
    page.line(f"says: {rule.because}")
    page.line(f"cause: {rule.mechanism}")
    page.line(f"if wrong: {rule.if_wrong}")
    for grade, source in rule.sources:
        known = tables.sources.get(source)
        page.line(f"source: {grade.words}: {known.title if known else source}")
    for example in rule.examples:
        expect = {True: "fires", False: "silent", None: "unknown"}[example.expect]
        given = ", ".join(f"{name} {value}" for name, value in example.given.items()) or "nothing known"
        page.line(f"example, {example.name}: {given}: {expect}", indent=4)


def _fired(question: str, about: list[str], tables: Tables, base: RuleBase, page: Page) -> None:
    counts: Counter[str] = Counter()
    sheets = list(_sheets(about))
    for path in sheets:
        sheet = read_site(path, tables)
        study = plan(Case(sheet, default_kit(tables), Units.INCH, WORLDS), tables, base)
        counts.update({firing.rule_id for firing in firings(study) if firing.outcome})
    if question == "fired":
        page.heading(f"Rules that fired over {len(sheets)} sites")
        page.table(["sites", "rule"], [[str(n), rule] for rule, n in counts.most_common()], frozenset({0}))
    else:
        page.heading(f"Rules that fired at none of {len(sheets)} sites")
        page.steps([rule.id for rule in base.all_rules if rule.id not in counts], mark="-")


def _sheets(about: list[str]) -> Iterator[Path]:
    """The site sheets named, or under the folders named; the demo sites without any."""
    for name in about or [str(path) for path in demo.ALL]:
        path = Path(name)
        if path.is_dir():
            yield from sorted(path.glob("**/*.yaml"))
        else:
            yield path


def firings(study: Study) -> Iterator[Firing]:
    """Every rule put to anything in a study."""
    yield from study.site_firings
    for outcome in study.outcomes:
        yield from outcome.opening_firings
        yield from outcome.route_firings
        for spot in outcome.spots:
            for ruling in spot.rulings:
                yield from ruling.firings
