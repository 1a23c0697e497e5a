"""The docs that are made from the rules, and the schema: `python -m tests.architecture.generate_docs`."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import NamedTuple, get_args

from advisor.archetype import archetypes
from advisor.evidence import Grade
from advisor.push.report.advice import read_advice
from advisor.result.model import Plan
from advisor.rulebase.load import RuleBase, load_rules
from advisor.rulebase.rule import Rule, SignalWord
from advisor.strict_yaml.tree import Branch, Leaf, Node, Twigs, tree_of_text
from advisor.tables.load import Tables, load_tables
from tests.architecture.archetypes_page import archetypes_page
from tests.architecture.doc_pictures import pictures
from tests.architecture.made_page import DOCS, MADE, ROOT, RULES, table
from tests.architecture.models_page import models_page


def pages() -> dict[str, str]:
    """Every generated page by its file name."""
    tables = load_tables(RULES)
    base = load_rules(RULES, tables.limits, set(tables.sources))
    return {
        "rules.md": _rules(base),
        "cautions.md": _cautions(base),
        "facts.md": _facts(base),
        "sources.md": _sources(tables, base),
        "tables.md": _tables(),
        "names.md": _names(tables),
        "archetypes.md": archetypes_page(tables),
        "models.md": models_page(),
        "plan.schema.json": json.dumps(Plan.model_json_schema(), indent=1, sort_keys=True) + "\n",
    }


def readme() -> str:
    """README.md with the capture of the demo plan as the program prints it now, shortened."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    before, _, rest = text.partition("<!-- capture -->\n")
    _, _, after = rest.partition("<!-- end of capture -->")
    shown = "\n".join(f"    {line}" if line else "" for line in _capture())
    return f"{before}<!-- capture -->\n\n{shown}\n\n<!-- end of capture -->{after}"


def _capture() -> list[str]:
    environment = {**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"}
    command = [sys.executable, "-m", "advisor", "plan"]
    done = subprocess.run(
        command, cwd=ROOT, env=environment, capture_output=True, encoding="utf-8", check=True
    )
    lines = [line.rstrip() for line in done.stdout.splitlines()]

    def at(start: str) -> int:
        return next(i for i, line in enumerate(lines) if line.strip().startswith(start))

    cut = "  [...]"
    return [
        *lines[at("DO THIS") : at("┌─ CAUTION")], cut, "",
        *lines[at("OPENINGS") : at("THE BEST")],
        *lines[at("THE WAY IN") : at("Kit:") + 1], cut,
        *lines[at("At the opening") : at("At the opening") + 26], cut,
    ]  # fmt: skip


# -- rules and facts --------------------------------------------------------------------------


def _rules(base: RuleBase) -> str:
    text = f"# Rules\n\n{MADE}{len(base.all_rules)} rules. `advisor rules show ID` shows one whole.\n"
    for stratum, rules in base.by_stratum.items():
        rows = (
            (r.id, r.about, r.because, ", ".join(dict.fromkeys(grade.words for grade, _ in r.sources)))
            for r in rules
        )
        text += f"\n## {stratum}\n\n" + table("rule, about, says, grades", rows)
    return text


def _cautions(base: RuleBase) -> str:
    """What is said to people, gravest first, for whoever checks the words and the sources."""
    text = f"# Cautions\n\n{MADE}When each is said stands in its rule: `advisor rules show ID`.\n"
    for word in get_args(SignalWord):
        rows = (
            (rule.id, rule.conclusion.caution.text, _resting_on(rule))
            for rule in base.all_rules
            if rule.conclusion.caution is not None and rule.conclusion.caution.word == word
        )
        text += f"\n## {word.upper()}\n\n" + table("rule, words, source", rows)
    return text


def _resting_on(rule: Rule) -> str:
    return ", ".join(f"{grade.value}: {source}" for grade, source in rule.sources)


def _facts(base: RuleBase) -> str:
    text = f"# Facts that a rule may speak of\n\n{MADE}"
    text += "A share is a share of the possible truths; a name is one of the words given, where some are.\n"
    for subject in dict.fromkeys(fact.subject for fact in base.facts.values()):
        rows = (
            (f"`{fact.name}`", fact.meaning, fact.kind.value, _worth(fact.options, fact.dimension))
            for fact in base.facts.values()
            if fact.subject == subject
        )
        text += f"\n## {subject}\n\n" + table("fact, meaning, kind, values or dimension", rows)
    return text


def _worth(options: tuple[str, ...], dimension: object) -> str:
    return ", ".join(options) or getattr(dimension, "value", "")


# -- numbers ----------------------------------------------------------------------------------


class Number(NamedTuple):
    """One row of a table, as written."""

    name: str
    value: str
    low: str
    high: str
    unit: str
    grade: str
    source: str
    note: str


def _numbers_bytable() -> dict[str, list[Number]]:
    return {
        path.stem: list(_numbers(tree_of_text(path.read_text(encoding="utf-8"), path.name), (), {}))
        for path in sorted([*(RULES / "tables").glob("*.yaml"), *(RULES / "signs").glob("*.yaml")])
    }


def _tables() -> str:
    text = f"# Graded numbers\n\n{MADE}A row of pipe sizes reads: "
    text += "nominal, outside, wall, bore, low, high. A remark stands once for the rows below it.\n"
    for name, rows in _numbers_bytable().items():
        text += f"\n## {name}\n\n" + table("name, value, low, high, unit, grade, source, remark", iter(rows))
    return text


def _numbers(node: Node, path: tuple[str, ...], holds: Mapping[str, str]) -> Iterator[Number]:
    """Every number under a node; grade, source and unit hold until a lower part says otherwise."""
    if isinstance(node, Twigs):
        # A row of a table (a pipe size) is one number of the page, any other list is gone through.
        for place, item in enumerate(node.items, start=1):
            if isinstance(item, Twigs):
                yield _number(path, ", ".join(leaf.text for leaf in _leaves(item)), holds)
                holds = {**holds, "note": ""}
            else:
                yield from _numbers(item, (*path, str(place)), holds)
        return
    if not isinstance(node, Branch):
        return
    own = {key: leaf.text for key, leaf in node.entries.items() if isinstance(leaf, Leaf)}
    told = {key: own[key] for key in ("grade", "source", "unit") if key in own}
    holds = {**holds, "note": own.get("note", ""), **told}
    if "value" in own:
        yield _number(path, own["value"], holds, own.get("low", ""), own.get("high", ""))
        return
    plain = {key: text for key, text in own.items() if _is_number(text)}
    found = []
    if plain and len(plain) == len(node.entries):
        found.append(_number(path, "; ".join(f"{key}: {text}" for key, text in plain.items()), holds))
    else:
        found += [_number((*path, key), text, holds) for key, text in plain.items()]
    for key, child in node.entries.items():
        found += _numbers(child, (*path, key), holds)
    # What is graded without any number of its own (a stopper cannot be passed) is a claim too.
    if not found and "grade" in own:
        found.append(_number(path, "; ".join(_said(node)), holds))
    yield from found


def _number(
    path: tuple[str, ...], value: str, holds: Mapping[str, str], low: str = "", high: str = ""
) -> Number:
    rest = (holds.get(key, "") for key in ("unit", "grade", "source", "note"))
    return Number(" / ".join(path), value, low, high, *rest)


def _leaves(row: Twigs) -> list[Leaf]:
    return [item for item in row.items if isinstance(item, Leaf)]


def _said(node: Branch) -> Iterator[str]:
    for key, child in node.entries.items():
        if isinstance(child, Leaf) and key not in ("grade", "source", "note"):
            yield f"{key.replace('_', ' ')}: {child.text}"
        elif isinstance(child, Branch) and key != "words":
            yield from _said(child)


def _is_number(text: str) -> bool:
    return re.fullmatch(r"-?[\d.]+([/-][\d/.]+)?", text) is not None


# -- sources ----------------------------------------------------------------------------------


def _sources(tables: Tables, base: RuleBase) -> str:
    """Every source, and how many numbers and rules rest on it by grade."""
    uses: dict[str, Counter[str]] = {source: Counter() for source in tables.sources}
    for rows in _numbers_bytable().values():
        for row in rows:
            if row.source:
                uses[row.source][row.grade] += 1
    for rule in base.all_rules:
        for grade, source in rule.sources:
            uses[source][grade.value] += 1
    for building in archetypes(RULES, tables):
        for evidence in (building.evidence, *(fact.evidence for fact in building.facts)):
            uses[evidence.source][evidence.grade.value] += 1
    for row in read_advice(RULES, tables).rows:
        uses[row.source][row.grade] += 1
    total = sum(uses.values(), Counter())
    text = f"# Sources\n\n{MADE}What each number and rule rests on, strongest grade first:\n\n"
    grades = [grade for grade in Grade if grade is not Grade.TOLD]
    rows_of_grades = ((g.value, g.words, str(total[g.value])) for g in grades)
    text += table("grade, meaning, numbers and rules", rows_of_grades)
    text += "\nThe last column counts the numbers and rules that rest on a source, by grade.\n\n"
    rows_of_sources = (
        (
            source.id,
            f"{source.title} ({source.note})" if source.note else source.title,
            source.where,
            ", ".join(f"{uses[source.id][g.value]} {g.value}" for g in grades if uses[source.id][g.value]),
        )
        for source in tables.sources.values()
    )
    return text + table("id, what, where, used for", rows_of_sources)


# -- names ------------------------------------------------------------------------------------


def _names(tables: Tables) -> str:
    """Every word that a site sheet may use where a table must know it."""
    text = f"# Names for a site sheet\n\n{MADE}Capitals do not matter. `unknown` may stand for any of them, "
    text += (
        "and `assumed` before any of them but a fixture: it is taken as written and told as our judgement.\n"
    )
    aliases: dict[str, list[str]] = {}
    for alias, name in tables.material_aliases.items():
        aliases.setdefault(name, []).append(alias)
    words = "name, north america says, britain says"
    parts: tuple[tuple[str, str, Iterator[tuple[str, ...]]], ...] = (
        ("Openings (`kind`)", words, _worded(tables.openings)),
        ("Bends (`bend`)", words, _worded(tables.bends)),
        ("Junctions (`fitting`)", words, _worded(tables.junctions)),
        ("Traps, valves and tanks (`trap`, `valve`, `tank`)", words, _worded(tables.stoppers)),
        (
            "Ends (`end`), beside traps, valves and tanks",
            "last words of its name",
            ((name,) for name in tables.ends),
        ),
        (
            "Fixtures (`fixture`)",
            "name, its way in",
            ((name, kind.opening or "none") for name, kind in tables.fixtures.items()),
        ),
        (
            "Materials (`material`)",
            "name, also understood",
            ((name, ", ".join(aliases.get(name, []))) for name in tables.materials),
        ),
        ("Conditions (`condition`)", "name, meaning", iter(tables.conditions.items())),
    )
    for title, head, rows in parts:
        text += f"\n## {title}\n\n" + table(head, rows)
    return text


def _worded(kinds: Mapping[str, object]) -> Iterator[tuple[str, ...]]:
    for name, kind in kinds.items():
        words: Mapping[str, str] = getattr(kind, "words", {})
        yield name, words.get("north america", ""), words.get("britain", "")


if __name__ == "__main__":
    DOCS.mkdir(exist_ok=True)
    (ROOT / "README.md").write_text(readme(), encoding="utf-8")
    (DOCS / "pictures").mkdir(exist_ok=True)
    for name, text in {**pages(), **pictures()}.items():
        (DOCS / name).write_text(text, encoding="utf-8")
        print(f"docs/{name}: {len(text.splitlines())} lines")
