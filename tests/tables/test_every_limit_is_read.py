"""A limit that nothing reads claims to matter and does not: each is read by the program or by a rule."""

from __future__ import annotations

import ast
import re

from advisor.tables import load_tables, rules_dir
from tests.architecture.made_page import ROOT

READ_BY = {"limit", "likely", "get"}  # methods that are given a limit's name


def names_in_code() -> tuple[set[str], list[re.Pattern[str]]]:
    """Every string of the program, and as patterns the names it puts together: `tries, {technique}`."""
    whole, families = set(), []
    for path in (ROOT / "advisor").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                whole.add(node.value)
            put_together: ast.expr | None = None
            if isinstance(node, ast.Subscript):
                put_together = node.slice
            elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.args:
                put_together = node.args[0] if node.func.attr in READ_BY else None
            if isinstance(put_together, ast.JoinedStr):
                parts = (
                    re.escape(str(part.value)) if isinstance(part, ast.Constant) else r".+"
                    for part in put_together.values
                )
                families.append(re.compile("".join(parts)))
    return whole, families


def names_in_rules() -> set[str]:
    """What rules call `limits.x`. Where they are declared, and the table itself, read nothing."""
    given = ("facts.yaml", "limits.yaml")
    texts = (p.read_text(encoding="utf-8") for p in (ROOT / "rules").rglob("*.yaml") if p.name not in given)
    return {name for text in texts for name in re.findall(r"\blimits\.(\w+)", text)}


def test_every_limit_is_read_by_the_program_or_a_rule():
    whole, families = names_in_code()
    read = whole | names_in_rules()
    dead = [
        name
        for name in load_tables(rules_dir()).limits
        if name not in read and not any(family.fullmatch(name) for family in families)
    ]
    assert not dead


def test_families_of_names_are_no_catch_all():
    _, families = names_in_code()
    assert any(family.fullmatch("tries, string") for family in families)
    assert not any(family.fullmatch("of no use") for family in families)
