"""Messages name the program as it can be typed: alone where the shell finds it, else as it was called."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def program(tmp_path):
    """A copy of what an installation puts into `.venv/bin`."""
    made = tmp_path / "my venv" / "bin" / "advisor"
    made.parent.mkdir(parents=True)
    made.write_text(f"#!{sys.executable}\nfrom advisor.cli import main\nmain()\n")
    made.chmod(0o755)
    return made


def said(program: Path, path: str, *words: str) -> str:
    own = {"PUSH_ADVISOR_HOME": str(program.parent / "own"), "PYTHONPATH": str(ROOT), "COLUMNS": "100"}
    done = subprocess.run(
        [str(program), *words],
        env=os.environ | own | {"PATH": path},
        capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip
    return " ".join((done.stdout + done.stderr).split())


def test_off_the_path_every_message_names_it_as_it_was_called(program):
    quoted = f"'{program}'"
    assert f"Tell what is on the truck: {quoted} kit new." in said(program, "/usr/bin", "kit")
    assert f"tell it first: {quoted} kit new" in said(program, "/usr/bin", "kit", "edit", "a/b=c")
    assert f"usage: {quoted} kit" in said(program, "/usr/bin", "kit", "nothing")


def test_where_the_shell_finds_it_its_name_is_enough(program):
    assert "the truck: advisor kit new." in said(program, f"{program.parent}:/usr/bin", "kit")


def test_another_of_the_same_name_on_the_path_is_not_taken_for_it(program, tmp_path):
    other = tmp_path / "advisor"
    other.write_text("#!/bin/sh\n")
    other.chmod(0o755)
    assert f"the truck: '{program}' kit new." in said(program, f"{tmp_path}:/usr/bin", "kit")
