"""The shape of the project: what is where, who imports whom, what is documented."""

from __future__ import annotations

import ast
import inspect
import re
import subprocess
import tomllib
from importlib import import_module

import pytest
from importlinter.cli import lint_imports

from advisor.rulebase.load import STRATA
from tests.architecture.made_page import ROOT

SOURCES = sorted((ROOT / "advisor").rglob("*.py"))
MECHANICS = sorted(p.stem for p in (ROOT / "advisor" / "mechanics").glob("*.py") if p.stem != "__init__")
SECTIONS = ("Shape:", "Args:", "Returns:", "Holds when:", "Errors:", "Source:")


def tracked() -> list[str]:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a git checkout")
    return listed.stdout.splitlines()


def test_top_level_holds_only_the_fixed_entries():
    top = {path.split("/")[0] for path in tracked()}
    fixed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "advisor", "rules", "tests", "docs"}
    assert {name for name in top if not name.startswith(".")} == fixed


def test_imports_run_one_way(monkeypatch):
    # The contract in pyproject.toml is exhaustive: a new part of advisor/ must take its place in it.
    monkeypatch.chdir(ROOT)
    assert lint_imports() == 0


def test_the_wheel_carries_rules_and_demo_sheets():
    wheel = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["hatch"]["build"]["targets"]["wheel"]
    assert wheel == {"packages": ["advisor"], "force-include": {"rules": "advisor/_rules"}}
    assert '"_rules"' in (ROOT / "advisor" / "tables" / "place.py").read_text(), "looked for where it is put"
    assert any(name.startswith("advisor/demo/sheets/") for name in tracked())


def test_only_the_terminal_prints_or_asks():
    for path in SOURCES:
        if "terminal" in path.parts or path.name == "cli.py":
            continue
        names = {
            (node.module or "").split(".")[0]
            if isinstance(node, ast.ImportFrom)
            else alias.name.split(".")[0]
            for node in ast.walk(ast.parse(path.read_text()))
            if isinstance(node, ast.Import | ast.ImportFrom)
            for alias in node.names
        }
        assert not names & {"rich", "questionary"}, path


@pytest.mark.parametrize("stratum", STRATA)
def test_files_of_rules_are_short(stratum):
    long = [
        path.name for path in (ROOT / "rules" / stratum).glob("*.yaml") if path.read_text().count("\n") > 300
    ]
    assert not long, "one idea a file; every file of the folder is read"


@pytest.mark.parametrize("path", SOURCES, ids=lambda p: str(p.relative_to(ROOT)))
def test_files_are_short_and_documented(path):
    text = path.read_text()
    assert len(text.splitlines()) <= 300
    tree = ast.parse(text)
    assert ast.get_docstring(tree), "the module says what it is"
    # A method that overrides a documented one inherits its docstring.
    told = {
        node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef) and ast.get_docstring(node)
    }
    hidden = {
        inner
        for outer in ast.walk(tree)
        if isinstance(outer, ast.FunctionDef)
        or (isinstance(outer, ast.ClassDef) and outer.name.startswith("_"))
        for inner in ast.walk(outer)
        if inner is not outer
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef) and node.name in told:
            continue
        if isinstance(node, ast.ClassDef | ast.FunctionDef) and not node.name.startswith("_"):
            assert node in hidden or ast.get_docstring(node), f"{node.name} has no docstring"


def test_nothing_is_left_that_nobody_uses_or_only_tests():
    """By name: what stands at the top of a module is read there, imported from it, or looked up in it."""
    held, used = set[tuple[str, str]](), set[tuple[str, str]]()
    looked_up: set[str] = set()
    for path in SOURCES:
        module = ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
        tree = ast.parse(path.read_text())
        for node in ast.walk(tree):
            if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
                used.add((module, node.id))
            elif isinstance(node, ast.ImportFrom):
                used |= {(node.module or "", alias.name) for alias in node.names}
            elif isinstance(node, ast.Attribute):
                looked_up.add(node.attr)
        for node in tree.body:
            if isinstance(node, ast.FunctionDef | ast.ClassDef):
                held.add((module, node.name))
            elif isinstance(node, ast.Assign | ast.AnnAssign):
                targets = node.targets if isinstance(node, ast.Assign) else [node.target]
                names = (each for target in targets for each in ast.walk(target))
                held |= {(module, each.id) for each in names if isinstance(each, ast.Name)}
    assert not {each for each in held - used if each[1] not in looked_up and not each[1].startswith("__")}


@pytest.mark.parametrize("name", MECHANICS)
def test_mechanics_docstrings_are_whole(name):
    module = import_module(f"advisor.mechanics.{name}")
    for label, function in inspect.getmembers(module, inspect.isfunction):
        if label.startswith("_") or function.__module__ != module.__name__ or name == "values":
            continue
        text = inspect.getdoc(function) or ""
        for section in SECTIONS:
            assert section in text, f"{label}: no {section}"
        arguments = text.split("Args:")[1].split("Returns:")[0]
        told = {name for row in re.findall(r"^\s*([\w, ]+):", arguments, re.M) for name in row.split(", ")}
        assert told == set(inspect.signature(function).parameters), label
        source = text.split("Source:")[1]
        assert "ompared" in source or re.search(r"as `\w+`", source), f"{label}: compared with what?"
        for check in re.findall(r"tests/[\w/*]+\.py", source):
            assert list(ROOT.glob(check)), f"{label}: {check} is not there"


def test_nothing_reads_what_is_not_ours():
    not_ours = ("../" + "shared", "seed" + " document", "trans" + "cript")  # in pieces: not even here
    for name in tracked():
        path = ROOT / name
        if not path.is_file() or path.suffix not in (".py", ".md", ".yaml", ".toml"):
            continue
        text = path.read_text(encoding="utf-8").lower()
        for word in not_ours:
            assert word not in text, f"{name} says {word!r}"
