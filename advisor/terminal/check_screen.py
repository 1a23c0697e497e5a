"""`advisor check` and `advisor matrix`: what is wrong with sheets and rules, and what covers what."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TypeVar

from advisor.archetype import archetypes, read_archetype
from advisor.archetype.building import HEAD
from advisor.errors import BadInput, Fault, printable
from advisor.interview.question import load_questions
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import KitSheet
from advisor.push.report.advice import read_advice
from advisor.rulebase.examples import check_examples
from advisor.rulebase.load import load_rules
from advisor.rulebase.matrix import coverage
from advisor.site.build import network_of
from advisor.site.history import still_to_come
from advisor.site.sheet import SiteSheet, site_of_tree
from advisor.site.target import target_of
from advisor.strict_yaml import Branch, Node, read_on, read_text, sheet_of_tree, tree_and_twice
from advisor.tables.load import Tables, load_tables
from advisor.terminal.page import Page
from advisor.terminal.plain_line import complain, say

T = TypeVar("T")
MOST_TOLD = 20  # faults of one file: more than a screen of them nobody reads


def check(files: list[Path], rules: Path) -> int:
    """Check every file; the faults of each on stderr. Gives 0, or 2 where there is any fault."""
    right = True
    loaded: Tables | None = None
    for file in files:
        try:
            if file.is_dir():
                _told(f"{file}: {_rules_folder(file)}")
                continue
            key = _kind(file)
            if key == "rules":
                _told(f"{file}: {_rules_folder(_home(file))}")
                continue
            if loaded is None:
                loaded = load_tables(rules)
            _told(f"{file}: {_sheet(file, key, loaded)}")
        except BadInput as wrong:
            right = False
            _complain(file, wrong)
    return 0 if right else 2


def _told(words: str) -> None:
    say(printable(words))


def _complain(file: Path, wrong: BadInput) -> None:
    """Each fault on a line of its own, as many as one screen holds."""
    for fault in wrong.faults[:MOST_TOLD]:
        complain(str(fault))
    more = len(wrong.faults) - MOST_TOLD
    if more > 0:
        complain(str(Fault(str(file), 0, f"and {more} more")))


def matrix(rules: Path) -> int:
    """Print every technique against every trouble, with the reason."""
    page = Page()
    tables = load_tables(rules)
    table = coverage(load_rules(rules, tables.limits, set(tables.sources)))
    for technique, how in table.matrix.techniques.items():
        page.heading(technique)
        page.line(how)
        rows = []
        for trouble in table.matrix.troubles:
            cell = table.matrix.cells[technique, trouble]
            rows.append([trouble, "allowed" if cell.allowed else "rejected", cell.why])
        page.table(["trouble", "", "why"], rows)
        page.line(f"Rules that judge it: {', '.join(table.judged[technique]) or 'none'}.")
    page.heading("What explains each trouble")
    page.table(["trouble", "rules"], [[name, ", ".join(ids)] for name, ids in table.explained.items()])
    for gap in table.gaps:
        page.line(f"Empty: {gap}")
    return 1 if table.gaps else 0


def _kind(file: Path) -> str:
    """What a file is, by its first known key; whatever lies in a rules folder belongs to the rules."""
    tree, _ = tree_and_twice(read_text(file), str(file))
    keys = tree.entries if isinstance(tree, Branch) else {}
    found = next((key for key in (HEAD, "site", "kit", "rules") if key in keys), None)
    if found is None and _folder_of(file) is not None:
        return "rules"
    if found is None:
        message = "this is no site sheet (`site:`), kit sheet (`kit:`) or rule file (`rules:`)"
        raise BadInput([Fault(str(file), 1, message)])
    return found


def _sheet(file: Path, kind: str, tables: Tables) -> str:
    if kind == HEAD:
        return f"ok, a typical building: {read_archetype(file, tables).name}"

    def kit(tree: Node) -> str:
        read = kit_of(sheet_of_tree(tree, KitSheet, str(file)), tables)
        idle = "".join(f". But {words}" for words in read.idle_guides)
        return f"ok, a kit sheet with {len(read.loadouts)} loadouts{idle}"

    def site(tree: Node) -> str:
        sheet = site_of_tree(tree, str(file), tables)
        network, target = target_of(sheet, network_of(sheet, tables))
        seen = target.words if target else "the suspect section"
        ahead = "".join(f". But {words}" for words in _ahead(sheet.model))
        return f"ok, a site sheet with {len(network.openings())} openings; to be seen: {seen}{ahead}"

    return read_on(read_text(file), str(file), kit if kind == "kit" else site)


def _ahead(site: SiteSheet) -> list[str]:
    """Days on it that are still to come. It is no fault: the sheet may be right, and the clock wrong."""
    days = [("built", str(site.built))] if site.built is not None else []
    days += [(f"{line.line}, laid", str(line.laid)) for line in site.lines if line.laid is not None]
    days += [("machine run", run.on) for run in site.task.history.machine_runs if run.on is not None]
    told = [(about, still_to_come(day, date.today())) for about, day in days]
    return [f"{about}: {wrong}" for about, wrong in told if wrong is not None]


def _home(file: Path) -> Path:
    """The rules folder that a rule file stands in: it is checked with it, so that ids and facts are known."""
    folder = _folder_of(file)
    if folder is None:
        message = (
            "a rule file is checked where it stands; expected it in a rules folder, as in rules/technique"
        )
        raise BadInput([Fault(str(file), 1, message)])
    return folder


def _folder_of(file: Path) -> Path | None:
    around = file.resolve().parents[:2]
    return next((folder for folder in around if (folder / "sources.yaml").is_file()), None)


def _rules_folder(folder: Path) -> str:
    if not (folder / "sources.yaml").is_file():
        raise BadInput([Fault(str(folder), 0, "this is not a rules folder; expected sources.yaml in it")])
    tables = load_tables(folder)
    faults: list[Fault] = []

    def read(part: Callable[[], T]) -> T | None:
        """A part that may be wrong for itself: the others are read on."""
        try:
            return part()
        except BadInput as wrong:
            faults.extend(wrong.faults)
            return None

    base = read(lambda: load_rules(folder, tables.limits, set(tables.sources)))
    faults += check_examples(base) if base else []
    read(lambda: read_advice(folder, tables))
    buildings = read(lambda: archetypes(folder, tables))
    questions = read(lambda: load_questions(folder, tables, base)) if base else None
    if faults or base is None or buildings is None or questions is None:
        raise BadInput(faults)
    examples = sum(len(rule.examples) for rule in base.all_rules)
    return (
        f"ok, {len(base.all_rules)} rules, {examples} examples, {len(buildings)} typical buildings "
        f"and {len(questions.all)} questions"
    )
