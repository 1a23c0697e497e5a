"""No side doors: nothing reaches the network or another program, and no text is ever run as code."""

from __future__ import annotations

import ast
import os
import socket
import subprocess

import pytest

from advisor import demo
from advisor.cli import COMMANDS, main
from tests.architecture.made_page import ROOT

SOURCES = sorted((ROOT / "advisor").rglob("*.py"))
RUNS_TEXT = {"eval", "exec", "compile", "__import__"}
NEVER = {
    "pickle",
    "marshal",
    "shelve",
    "subprocess",
    "socket",
    "urllib",
    "http",
    "requests",
    "ctypes",
    "code",
}
# Each command at least once; what asks is given no terminal and says so.
USES: dict[str, list[list[str]]] = {
    "ask": [[], ["nowhere"], ["--answers", "nowhere"]],
    "plan": [[], ["--json"], [str(demo.ALL[-1])]],
    "check": [[str(demo.MAIN)]],
    "explain": [["how"], ["why-not", "--full"], ["matters"]],
    "rules": [["list"], ["weak"]],
    "card": [[], ["--format", "svg"], ["--format", "pdf"]],
    "matrix": [[]],
    "report": [["nowhere"]],
    "learn": [[], ["show"], ["nowhere"]],
    "practice": [[], ["--report"], ["--from", "nowhere"]],
    "push": [["nowhere"]],
    "log": [["nowhere"], ["nowhere", "--csv"]],
    "kit": [
        [],
        ["new"],
        ["edit"],
        ["droop", "--rod", "small reel", "--length=1 m", "--droop=50 cm", "--droop-rolled=30 cm"],
    ],
    "batch": [["nowhere", "-o", "plans.csv"]],
}


@pytest.mark.parametrize("path", SOURCES, ids=lambda p: str(p.relative_to(ROOT)))
def test_no_source_runs_text_or_imports_a_way_out(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id not in RUNS_TEXT, f"line {node.lineno}"
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "os":
            assert node.attr not in {"system", "popen", "execv", "fork", "spawnv"}, f"line {node.lineno}"
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            names = [node.module or ""]
        assert not {name.split(".")[0] for name in names} & NEVER, names


def test_every_command_is_tried():
    assert set(USES) == set(COMMANDS)


@pytest.mark.parametrize("command", COMMANDS)
def test_no_command_reaches_out(command, monkeypatch, capsys, tmp_path):
    def refuse(*given: object, **_: object) -> None:
        raise AssertionError(f"reached out: {given}")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    monkeypatch.setattr(socket.socket, "bind", refuse)
    monkeypatch.setattr(subprocess, "Popen", refuse)
    monkeypatch.setattr(os, "system", refuse)
    monkeypatch.chdir(tmp_path)
    for options in USES[command]:
        with pytest.raises(SystemExit) as ended:
            main([command, *options])
        assert ended.value.code in (0, 2), capsys.readouterr().err
        assert not list(tmp_path.iterdir()), "a file was written that nobody asked for"
