"""Does any test notice a formula that is 2 % off?

    python tests/bench/mutate_formulas.py [module ...]

For every public function of advisor/mechanics its result is made 2 % larger, and so is, one at a
time, every number that takes part in the arithmetic of a module. The tests that reach the module
are run against each change; a change that no test notices is listed as a survivor, and the script
fails. Numbers below 1e-6 (guards of a division), whole-number counts, and lines marked "# steers:", which
only guide a search to a result that does not depend on them, are left alone. Each run is a fork of
this process, so the libraries are loaded once.
"""

from __future__ import annotations

import ast
import importlib.util
import io
import os
import re
import sys
import time
from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from typing import Any

import hypothesis.strategies  # noqa: F401  loaded before the forks
import numpy as np
import pytest
import scipy.integrate
import scipy.optimize
import scipy.special  # noqa: F401
import shapely  # noqa: F401

ROOT = Path(__file__).resolve().parents[2]
MECHANICS = ROOT / "advisor" / "mechanics"
FOLDERS = ("mechanics", "outside", "properties")
FACTOR = 1.02
BROKEN = 70

Change = tuple[str, ast.Module]


def larger(value: Any) -> Any:
    """The result 2 % larger in all its numbers and with all its flags turned over."""
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return type(value)(*map(larger, value))
    if isinstance(value, tuple | list):
        return type(value)(map(larger, value))
    if isinstance(value, dict):
        return {key: larger(one) for key, one in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: larger(getattr(value, f.name)) for f in fields(value)})
    kind = np.asarray(value).dtype.kind
    if kind == "b":
        return np.logical_not(value)
    if kind not in "fi":
        return value
    return value * FACTOR


def wrapped(node: ast.expr) -> ast.expr:
    return ast.Call(ast.Name("_larger", ast.Load()), [node], [])


def own_returns(function: ast.FunctionDef) -> Iterator[ast.Return]:
    """Returns of a function itself, not of the functions inside it."""
    todo: list[ast.AST] = list(function.body)
    while todo:
        node = todo.pop()
        if isinstance(node, ast.Return) and node.value is not None:
            yield node
        if not isinstance(node, ast.FunctionDef | ast.Lambda):
            todo.extend(ast.iter_child_nodes(node))


def result_changes(source: str) -> Iterator[Change]:
    functions = [f for f in ast.parse(source).body if isinstance(f, ast.FunctionDef)]
    for function in functions:
        if function.name.startswith("_"):
            continue
        parts = [len(r.value.elts) for r in own_returns(function) if isinstance(r.value, ast.Tuple)]
        for part in range(max(parts, default=1)):
            tree = ast.parse(source)
            twin = next(f for f in tree.body if isinstance(f, ast.FunctionDef) and f.name == function.name)
            for found in own_returns(twin):
                if isinstance(found.value, ast.Tuple):
                    found.value.elts[part] = wrapped(found.value.elts[part])
                else:
                    assert found.value is not None
                    found.value = wrapped(found.value)
            label = f"{function.name}() result" + (f" [{part}]" if parts else "")
            yield label, ast.fix_missing_locations(tree)


def numbers(source: str, tree: ast.Module) -> list[ast.Constant]:
    """Numbers in arithmetic, and named decimals of the module, in the order of the text."""
    steering = {n for n, line in enumerate(source.splitlines(), 1) if "# steers:" in line}
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.BinOp):
            sides = [node.left, node.right]
        elif isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant):
            sides = [node.value] if isinstance(node.value.value, float) else []
        else:
            continue
        for side in sides:
            if not isinstance(side, ast.Constant) or type(side.value) not in (int, float):
                continue
            if abs(side.value) > 1e-6 and side.lineno not in steering:
                found.append(side)
    return found


def number_changes(source: str) -> Iterator[Change]:
    for index in range(len(numbers(source, ast.parse(source)))):
        tree = ast.parse(source)
        constant = numbers(source, tree)[index]
        label = f"line {constant.lineno}, column {constant.col_offset + 1}: {constant.value!r}"
        assert isinstance(constant.value, int | float)
        constant.value = constant.value * FACTOR
        yield label, tree


def test_files(module: str) -> list[str]:
    """Tests that name the module, or a module of mechanics built on it."""
    reached, before = {module}, set()
    while reached != before:
        before = set(reached)
        for path in MECHANICS.glob("*.py"):
            text = path.read_text()
            if any(f"advisor.mechanics.{name} import" in text for name in before):
                reached.add(path.stem)
    named = re.compile(r"advisor\.mechanics(\.| import [\w, ]*?)(" + "|".join(reached) + r")\b")
    paths = [p for folder in FOLDERS for p in sorted((ROOT / "tests" / folder).glob("test_*.py"))]
    return [str(path) for path in paths if named.search(path.read_text())]


def noticed(module: str, tree: ast.Module | None, files: list[str], marks: str) -> bool:
    """Whether the tests fail with the changed module in place of the written one."""
    quiet = ["-p", "no:cacheprovider", "-W", "ignore::pytest.PytestAssertRewriteWarning"]
    child = os.fork()
    if child == 0:
        code = BROKEN
        try:
            with redirect_stdout(io.StringIO()), redirect_stderr(io.StringIO()):
                code = install_and_test(module, tree, ["-x", "-q", *quiet, "-m", marks, *files])
        finally:
            os._exit(code)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    if code not in (0, 1, 2, 5):  # passed, failed, stopped while collecting, nothing to run
        sys.exit(f"{module}: the test run itself broke with code {code}")
    return code in (1, 2)


def install_and_test(module: str, tree: ast.Module | None, arguments: list[str]) -> int:
    if tree is not None:
        try:
            install(module, tree)
        except Exception:  # the changed module does not even load
            return 2
    return int(pytest.main(arguments))


def install(module: str, tree: ast.Module) -> None:
    name = f"advisor.mechanics.{module}"
    spec = importlib.util.find_spec(name)
    assert spec is not None
    made = importlib.util.module_from_spec(spec)
    sys.modules[name] = made
    made.__dict__["_larger"] = larger
    exec(compile(tree, str(spec.origin), "exec"), made.__dict__)
    setattr(sys.modules["advisor.mechanics"], module, made)


def main(modules: list[str]) -> int:
    os.chdir(ROOT)
    sys.path.insert(0, str(ROOT))
    survivors, total, started = [], 0, time.monotonic()
    for path in sorted(MECHANICS.glob("*.py")):
        if path.stem == "__init__" or (modules and path.stem not in modules):
            continue
        files, source = test_files(path.stem), path.read_text()
        changes = [*result_changes(source), *number_changes(source)]
        if not changes:
            continue
        if not files or noticed(path.stem, None, files, "slow or not slow"):
            sys.exit(f"{path.stem}: its tests must exist and pass before they can notice anything")
        for label, tree in changes:
            total += 1
            if not any(noticed(path.stem, tree, files, marks) for marks in ("not slow", "slow")):
                survivors.append(f"{path.stem}.py {label}")
                print("survived:", survivors[-1], flush=True)
        print(f"{path.stem}: {len(changes)} changes, {len(files)} test files", flush=True)
    print(f"{total} changes, {len(survivors)} survived, {time.monotonic() - started:.0f} s")
    return 1 if survivors else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
