"""The docs that are made from the rules, and the schema: `python -m tests.architecture.generate_docs`."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import yaml

from advisor.result.model import Plan
from advisor.rulebase.load import load_rules
from advisor.tables.load import load_tables

ROOT = Path(__file__).resolve().parents[2]
DOCS, RULES = ROOT / "docs", ROOT / "rules"
MADE = "Made from `rules/` by `python -m tests.architecture.generate_docs`; do not edit by hand.\n\n"


def pages() -> dict[str, str]:
    """Every generated page by its file name."""
    tables = load_tables(RULES)
    base = load_rules(RULES, tables.limits, set(tables.sources))
    return {
        "rules.md": _rules(base),
        "facts.md": _facts(base),
        "sources.md": _sources(tables),
        "tables.md": _tables(),
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


def _rules(base) -> str:
    text = f"# Rules\n\n{MADE}{len(base.all_rules)} rules. `advisor rules show ID` shows one whole.\n"
    for stratum, rules in base.by_stratum.items():
        text += f"\n## {stratum}\n\n| rule | about | says | grades |\n|---|---|---|---|\n"
        for rule in rules:
            grades = ", ".join(grade.words for grade, _ in rule.sources)
            text += f"| {rule.id} | {rule.about} | {_cell(rule.because)} | {grades} |\n"
    return text


def _facts(base) -> str:
    text = f"# Facts that a rule may speak of\n\n{MADE}| fact | meaning |\n|---|---|\n"
    return text + "".join(f"| `{name}` | {_cell(fact.meaning)} |\n" for name, fact in base.facts.items())


def _sources(tables) -> str:
    text = f"# Sources\n\n{MADE}What each number and rule rests on. Grades: read in a text; computed; "
    text += "common practice, no source; from memory, unchecked; our judgement, no source.\n\n"
    text += "| id | what | where |\n|---|---|---|\n"
    for source in tables.sources.values():
        text += f"| {source.id} | {_cell(source.title)} | {_cell(source.where)} |\n"
    return text


def _tables() -> str:
    """Every graded number of the flat tables."""
    text = f"# Graded numbers\n\n{MADE}"
    for path in sorted((RULES / "tables").glob("*.yaml")):
        rows = list(_numbers(yaml.safe_load(path.read_text()), ""))
        text += f"\n## {path.stem}\n\n| name | value | low | high | unit | grade | source |\n"
        text += "|---|---|---|---|---|---|---|\n"
        for name, row in rows:
            cells = [row.get(key, "") for key in ("value", "low", "high", "unit", "grade", "source")]
            text += f"| {_cell(name)} | " + " | ".join(_cell(str(cell)) for cell in cells) + " |\n"
    return text


def _numbers(node, name):
    if isinstance(node, dict):
        if "value" in node:
            yield name, node
            return
        for key, child in node.items():
            yield from _numbers(child, f"{name} / {key}" if name else str(key))


def _cell(text: str) -> str:
    return " ".join(text.split()).replace("|", "\\|")


if __name__ == "__main__":
    DOCS.mkdir(exist_ok=True)
    (ROOT / "README.md").write_text(readme(), encoding="utf-8")
    for name, text in pages().items():
        (DOCS / name).write_text(text, encoding="utf-8")
        print(f"docs/{name}: {len(text.splitlines())} lines")
