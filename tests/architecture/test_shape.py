"""The shape of the project: what is where, who imports whom, what is documented."""

from __future__ import annotations

import ast
import inspect
import json
import re
import subprocess
from importlib import import_module
from pathlib import Path

import jsonschema
import pytest
from importlinter.cli import lint_imports

from advisor import demo
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.sheet import read_site
from tests.architecture.generate_docs import DOCS, ROOT, pages, readme
from tests.cases.jobs import rules, tables
from tests.result.test_plan import KIT

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
    monkeypatch.chdir(ROOT)
    assert lint_imports() == 0


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
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef) and node.name in told:
            continue
        if isinstance(node, ast.ClassDef | ast.FunctionDef) and not node.name.startswith("_"):
            inside_private = any(
                isinstance(outer, ast.ClassDef) and outer.name.startswith("_") and node in ast.walk(outer)
                for outer in ast.walk(tree)
            )
            nested = any(
                isinstance(outer, ast.FunctionDef) and outer is not node and node in ast.walk(outer)
                for outer in ast.walk(tree)
            )
            assert inside_private or nested or ast.get_docstring(node), f"{node.name} has no docstring"


@pytest.mark.parametrize("name", MECHANICS)
def test_mechanics_docstrings_are_whole(name):
    module = import_module(f"advisor.mechanics.{name}")
    for label, function in inspect.getmembers(module, inspect.isfunction):
        if label.startswith("_") or function.__module__ != module.__name__ or name in ("values", "coil"):
            continue
        text = inspect.getdoc(function) or ""
        for section in SECTIONS:
            assert section in text, f"{label}: no {section}"
        arguments = text.split("Args:")[1].split("Returns:")[0]
        for parameter in inspect.signature(function).parameters:
            assert re.search(rf"\b{parameter}\b", arguments), f"{label}: {parameter} is not told"


def test_nothing_reads_what_is_not_ours():
    here = "tests/architecture/test_shape.py"
    for name in tracked():
        path = ROOT / name
        if name == here or not path.is_file() or path.suffix not in (".py", ".md", ".yaml", ".toml"):
            continue
        text = path.read_text(encoding="utf-8").lower()
        for word in ("../shared", "seed document", "transcript"):
            assert word not in text, f"{name} says {word!r}"


def test_generated_pages_are_fresh():
    for name, text in pages().items():
        assert (DOCS / name).read_text(encoding="utf-8") == text, (
            f"run tests.architecture.generate_docs: {name}"
        )


@pytest.mark.parametrize("path", demo.ALL, ids=lambda p: p.stem)
def test_json_of_every_demo_follows_the_schema(path):
    made = plan_of(plan(Case(read_site(path, tables()), KIT, Units.INCH, 200), tables(), rules()))
    schema = json.loads((DOCS / "plan.schema.json").read_text())
    jsonschema.validate(json.loads(made.model_dump_json()), schema)


def readme_commands() -> list[str]:
    return re.findall(r"^    (python3 -m venv .*)$", (ROOT / "README.md").read_text(), re.MULTILINE)


def test_readme_opens_with_the_job_then_two_commands():
    text = (ROOT / "README.md").read_text()
    assert text.split("\n\n")[1].startswith("A technician is called")
    plan_command, test_command = readme_commands()
    assert plan_command.endswith("advisor plan")
    assert test_command.endswith("pytest -q")
    ci = (ROOT / ".ci" / "run").read_text()
    assert "<!-- test command -->" in ci, "CI takes the command from the README"


def test_readme_capture_is_what_the_program_says():
    assert (ROOT / "README.md").read_text(encoding="utf-8") == readme(), (
        "run tests.architecture.generate_docs"
    )


@pytest.mark.parametrize("name", sorted(p.name for p in (Path(ROOT) / "docs").glob("*.md")))
def test_sheets_in_the_docs_are_good(name, tmp_path, capsys):
    from advisor.terminal.check_screen import check

    blocks = re.findall(r"```yaml\n(.*?)```", (DOCS / name).read_text(), re.DOTALL)
    for number, block in enumerate(blocks):
        if block.startswith(("site:", "kit:")):
            sheet = tmp_path / f"{number}.yaml"
            sheet.write_text(block)
            assert check([sheet], ROOT / "rules") == 0, capsys.readouterr().err
