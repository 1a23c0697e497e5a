"""Wounded files: never a traceback, never slow, one message a fault with its place; what is accepted plans.

A thousand of each kind in every run, ten thousand in the marked one. The limits (2 s, 300 MB) are our own.
"""

from __future__ import annotations

import re
import resource
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from advisor import demo
from advisor.errors import BadInput, QuantityError
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.quantity import Dimension, Units, parse_stated
from advisor.result.build import plan_of
from advisor.rulebase.load import load_rules
from advisor.rulebase.rule import Rule
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables
from tests.fuzz.mutate import SPLINTERS, mutants

LONGEST = 2.0  # s for one file
MOST = 300  # MB that a whole run may add
PLANNED = 25  # one accepted sheet in so many is planned as well: planning is what takes the time
PLACE = re.compile(r"^[^:]*fuzzed(:\d+)?: \S")


def site(text: str, number: int) -> None:
    sheet = site_of_text(text, "fuzzed", tables())
    if number % PLANNED == 0:
        case = Case(sheet, default_kit(tables()), Units.INCH, 100)
        plan_of(plan(case, tables(), rules())).model_dump_json()


def kit(text: str, _: int) -> None:
    kit_of(kit_of_text(text, "fuzzed"), tables())


def quantity(text: str, number: int) -> None:
    dimension = list(Dimension)[number % len(Dimension)]
    try:
        stated = parse_stated(text, dimension)
    except QuantityError:
        return
    assert 0 <= stated.low <= stated.likely <= stated.high < 1e15


KINDS: dict[str, tuple[Callable[[str, int], None], list[str]]] = {
    "site": (site, [path.read_text(encoding="utf-8") for path in demo.ALL]),
    "kit": (kit, [demo.KIT.read_text(encoding="utf-8")]),
    "quantity": (
        quantity,
        ["1-1/2 in", "12 ft 6 in", "about 20 to 30 ft", "1/4 in per ft", "1:40", "0,75 in", "45 deg"],
    ),
}


def put_through(kind: str, count: int) -> None:
    read, texts = KINDS[kind]
    accepted = 0
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for number, text in enumerate(mutants(texts, count, seed=8)):
        start = time.process_time()
        try:
            read(text, number)
            accepted += 1
        except BadInput as wrong:
            for fault in str(wrong).split("\n"):
                assert PLACE.match(fault), f"{fault!r} for {text!r}"
                assert fault.isprintable(), fault
        assert time.process_time() - start < LONGEST, text
    assert accepted, "some wounds are harmless: else nothing behind the reader was tried"
    added = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024
    assert added < MOST


@pytest.mark.parametrize("kind", KINDS)
def test_a_thousand_wounded_files(kind):
    put_through(kind, 1000)


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_ten_thousand_wounded_files(kind):
    put_through(kind, 10_000)


def rule_files(tmp_path: Path, count: int) -> None:
    """A whole rules folder is copied once; one file of it is wounded again and again."""
    home = tmp_path / "rules"
    for path in rules_dir().rglob("*.yaml"):
        copy = home / path.relative_to(rules_dir())
        copy.parent.mkdir(parents=True, exist_ok=True)
        # Only the folder that is wounded holds rules: reading all the others each time would take the time.
        if (
            path.parent.name not in ("difficulty", "technique", "caution", "entry")
            or path.name == "matrix.yaml"
        ):
            copy.write_bytes(path.read_bytes())
    target = home / "technique" / "fuzzed.yaml"
    texts = [
        path.read_text(encoding="utf-8")[:4000]
        for path in sorted((rules_dir() / "technique").glob("p*.yaml"))
    ]
    for text in mutants(texts, count, seed=9):
        target.write_text(text, encoding="utf-8", errors="surrogatepass")
        start = time.process_time()
        try:
            base = load_rules(home, tables().limits, set(tables().sources))
            assert all(isinstance(rule, Rule) for rule in base.all_rules)
        except BadInput as wrong:
            for fault in str(wrong).split("\n"):
                assert re.match(r"^\S+\.yaml(:\d+)?: \S", fault) or fault.startswith(str(home)), fault
        assert time.process_time() - start < LONGEST


def test_wounded_rule_files(tmp_path):
    rule_files(tmp_path, 1000)


@pytest.mark.slow
def test_ten_thousand_wounded_rule_files(tmp_path):
    rule_files(tmp_path, 10_000)


def test_the_splinters_are_all_different():
    assert len(set(SPLINTERS)) == len(SPLINTERS)
