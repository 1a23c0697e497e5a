"""The README, the docs and the schema say what the program does."""

from __future__ import annotations

import argparse
import json
import re
import subprocess
from collections.abc import Iterator
from typing import Any, get_args

import jsonschema
import pytest
from pydantic import BaseModel

from advisor import demo
from advisor.cli import _parser
from advisor.kit.sheet import KitSheet
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.pieces import KEYS
from advisor.site.sheet import SiteSheet, read_site
from advisor.terminal.check_screen import check
from tests.architecture.doc_pictures import pictures
from tests.architecture.generate_docs import pages, readme
from tests.architecture.made_page import DOCS, ROOT
from tests.cases.jobs import rules, tables
from tests.result.test_plan import KIT

README = (ROOT / "README.md").read_text(encoding="utf-8")
CI = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
PAGES = sorted(path.name for path in DOCS.glob("*.md"))


# -- what is generated ------------------------------------------------------------------------


def test_generated_pages_are_fresh():
    for name, text in {**pages(), **pictures()}.items():
        written = (DOCS / name).read_text(encoding="utf-8")
        assert written == text, f"run python -m tests.architecture.generate_docs: {name}"


def test_readme_capture_is_what_the_program_says():
    assert readme() == README, "run python -m tests.architecture.generate_docs"


def test_every_graded_number_of_a_table_is_listed():
    """Counted apart from the generator: a `value:` in a file of tables is a row of the page."""
    page = (DOCS / "tables.md").read_text(encoding="utf-8")
    for path in (*(ROOT / "rules" / "tables").glob("*.yaml"), *(ROOT / "rules" / "signs").glob("*.yaml")):
        section = page.split(f"\n## {path.stem}\n")[1].split("\n## ")[0]
        told = [line for line in path.read_text().splitlines() if not line.strip().startswith("#")]
        values = sum(len(re.findall(r"\bvalue: ", line)) for line in told)
        rows = sum(line.startswith("| ") for line in section.splitlines()) - 1
        assert rows >= max(values, 1), path.name


@pytest.mark.parametrize("path", demo.ALL, ids=lambda p: p.stem)
def test_json_of_every_demo_follows_the_schema(path):
    made = plan_of(plan(Case(read_site(path, tables()), KIT, Units.INCH, 200), tables(), rules()))
    schema = json.loads((DOCS / "plan.schema.json").read_text())
    jsonschema.validate(json.loads(made.model_dump_json()), schema)


# -- README, DEVELOPERS, CI -------------------------------------------------------------------


def commands() -> list[str]:
    return re.findall(r"^    (python3 -m venv .*)$", README, re.MULTILINE)


def test_readme_opens_with_the_job_then_two_commands():
    assert README.split("\n\n")[1].startswith("A technician is called")
    plan_command, test_command = commands()
    assert plan_command.endswith("advisor plan")
    assert test_command.endswith("pytest -q")
    for command in (plan_command, test_command):
        assert command.startswith("python3 -m venv .venv && .venv/bin/python -m pip install"), "its own venv"


def test_ci_runs_the_readmes_test_command_and_the_rest():
    """The line of .ci/run that finds the command is run here, and nothing else of it."""
    finding = next(line for line in CI.splitlines() if line.startswith("tests="))
    done = subprocess.run(
        ["bash", "-c", f'{finding}\necho "$tests"'], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == commands()[1]
    for tool in ('bash -c "$tests"', "ruff check", "ruff format --check", "mypy", "lint-imports"):
        assert re.search(rf"^(\$bin/)?{re.escape(tool)}", CI, re.MULTILINE), f"{tool} is not run"


def test_readme_names_every_command():
    parser = _parser()
    subs = next(a for a in parser._actions if isinstance(a, argparse._SubParsersAction))
    told = set(re.findall(r"^    \.venv/bin/advisor (\S+)", README, re.MULTILINE))
    assert told == set(subs.choices)


def test_developers_names_every_part():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    for path in sorted((ROOT / "advisor").iterdir()):
        if path.name.startswith("_") or (path.is_dir() and not list(path.glob("*.py"))):
            continue
        name = f"{path.name}/" if path.is_dir() else path.name
        assert re.search(rf"`(advisor/)?{re.escape(name)}`", text), f"{name} is not told"


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md", *(f"docs/{page}" for page in PAGES)])
def test_links_lead_somewhere(name):
    page = ROOT / name
    for link in re.findall(r"\]\(([^)#\s]+)\)", page.read_text(encoding="utf-8")):
        assert (page.parent / link).exists(), link


def test_every_picture_is_shown_and_says_what_it_is():
    shown = {
        (words, link)
        for page in PAGES
        for words, link in re.findall(r"!\[([^\]]*)\]\(([^)]+)\)", (DOCS / page).read_text(encoding="utf-8"))
    }
    assert {link for _, link in shown} == {f"pictures/{path.name}" for path in (DOCS / "pictures").iterdir()}
    assert all(words for words, _ in shown)


def test_every_page_is_led_to():
    """From the README or DEVELOPERS, by links or by name, so that nothing is written for nobody."""
    seen: set[str] = set()
    waiting = [README, (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")]
    while waiting:
        found = set(re.findall(r"docs/([\w-]+\.md)|\]\(([\w-]+\.md)\)", waiting.pop()))
        new = {name for pair in found for name in pair if name in PAGES} - seen
        waiting += [(DOCS / name).read_text(encoding="utf-8") for name in new]
        seen |= new
    assert seen == set(PAGES)


@pytest.mark.parametrize("page", ["mechanics.md", "models.md"])
def test_files_named_in_the_mechanics_pages_are_there(page):
    text = (DOCS / page).read_text(encoding="utf-8")
    named = set(re.findall(r"[\w*]+\.py", text))
    assert named
    for name in named:
        assert list((ROOT / "tests").rglob(name)) or list((ROOT / "advisor" / "mechanics").glob(name)), name


def test_every_model_stands_in_the_page_of_mechanics():
    text = (DOCS / "mechanics.md").read_text(encoding="utf-8")
    for path in (ROOT / "advisor" / "mechanics").glob("*.py"):
        if re.search(r"^    Source:", path.read_text(encoding="utf-8"), re.MULTILINE):
            assert f"`{path.name}`" in text, path.name


# -- sheets -----------------------------------------------------------------------------------


def sheets(name: str) -> list[str]:
    blocks = re.findall(r"```yaml\n(.*?)```", (DOCS / name).read_text(encoding="utf-8"), re.DOTALL)
    return [block for block in blocks if block.startswith(("site:", "kit:"))]


@pytest.mark.parametrize("name", PAGES)
def test_sheets_in_the_docs_are_good(name, tmp_path, capsys):
    for number, block in enumerate(sheets(name)):
        sheet = tmp_path / f"{number}.yaml"
        sheet.write_text(block)
        assert check([sheet], ROOT / "rules") == 0, capsys.readouterr().err


@pytest.mark.parametrize("number", range(len(sheets("site-sheet.md"))))
def test_site_sheets_in_the_docs_can_be_planned(number, tmp_path):
    path = tmp_path / "site.yaml"
    path.write_text(sheets("site-sheet.md")[number])
    made = plan_of(plan(Case(read_site(path, tables()), KIT, Units.INCH, 200), tables(), rules()))
    assert made.routes


def test_the_example_sheets_show_every_kind_of_piece():
    text = "".join(sheets("site-sheet.md"))
    for key in KEYS:
        assert re.search(rf"^      - \{{?{key}: ", text, re.MULTILINE), f"no example has a {key}"


def entries_of(model: type[BaseModel]) -> Iterator[str]:
    """Every entry of a sheet's model and of the models in it, and every word that an entry may be."""
    for name, field in model.model_fields.items():
        yield field.alias or name
        yield from _inside(field.annotation)


def _inside(annotation: Any) -> Iterator[str]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield from entries_of(annotation)
    elif isinstance(annotation, str):
        yield annotation
    else:
        for part in get_args(annotation):
            yield from _inside(part)


@pytest.mark.parametrize(("page", "model"), [("site-sheet.md", SiteSheet), ("kit.md", KitSheet)])
def test_every_entry_of_a_sheet_is_told(page, model):
    text = (DOCS / page).read_text(encoding="utf-8")
    told = set(re.findall(r"`([^`\n]+)`", re.sub(r"```.*?```", "", text, flags=re.DOTALL)))
    told |= {part.partition(":")[0] for part in told}
    missing = set(entries_of(model)) - told
    assert not missing


def test_tests_named_for_the_developers_are_there():
    """`file::name`, and after it `::name` of the same file."""
    named = re.findall(r"`(tests/[\w/]+\.py)?::(\w+)`", (ROOT / "DEVELOPERS.md").read_text())
    file = ""
    for path, name in named:
        file = path or file
        assert f"def {name}(" in (ROOT / file).read_text(), f"{file} has no {name}"
    assert len(named) > 20
