"""Every kind of terminal a van may hold: narrow, of few signs, without colour, closed, broken off."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from functools import cache
from pathlib import Path

import pytest

from advisor import demo
from tests.architecture.made_page import ROOT

FEW = ("--worlds", "100")


def environment(**more: str) -> dict[str, str]:
    kept = {key: value for key, value in os.environ.items() if key in ("PATH", "HOME", "PYTHONPYCACHEPREFIX")}
    return {**kept, "PUSH_ADVISOR_HOME": "/nonexistent", **more}


@cache
def output(encoding: str, columns: int, *command: str, **_: str) -> bytes:
    done = subprocess.run(
        [sys.executable, "-m", "advisor", *command],
        cwd=ROOT,
        env=environment(PYTHONIOENCODING=encoding, COLUMNS=str(columns)),
        stdin=subprocess.DEVNULL,
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr.decode()
    assert not done.stderr
    return done.stdout


@pytest.mark.parametrize(
    ("encoding", "columns"),
    [("utf-8", 40), ("cp437", 80), pytest.param("cp1252", 40, marks=pytest.mark.slow), ("ascii", 40)],
)
def test_a_plan_loses_no_word_on_any_terminal(encoding, columns):
    told = output(encoding, columns, "plan", *FEW).decode(encoding)
    assert "DO THIS FIRST" in told
    assert "\x1b" not in told
    assert all(len(line.rstrip()) <= columns for line in told.splitlines())
    # A sign that the terminal lacks becomes a question mark: none may have, beyond those that are asked.
    whole = output("utf-8", columns, "plan", *FEW).decode()
    assert told.count("?") == whole.count("?")
    in_words = whole if "°".encode(encoding, "ignore") else whole.replace("°", " deg")
    assert sorted(filter(str.isalnum, told)) == sorted(filter(str.isalnum, in_words))


@pytest.mark.parametrize(
    "command",
    [
        ("matrix",),
        pytest.param(("rules", "list"), marks=pytest.mark.slow),
        pytest.param(("explain", "how", "--full", *FEW), marks=pytest.mark.slow),
    ],
)
def test_other_pages_are_as_narrow_as_the_screen(command):
    told = output("ascii", 40, *command).decode("ascii")
    assert all(len(line.rstrip()) <= 40 for line in told.splitlines())


def test_settings_of_the_machine_change_nothing():
    """Each alone can only change what is told; together they may not either."""
    more = {"NO_COLOR": "1", "TERM": "dumb", "LC_ALL": "C", "LANG": "de_DE.UTF-8"}
    done = subprocess.run(
        [sys.executable, "-m", "advisor", "plan", *FEW],
        cwd=ROOT,
        env=environment(PYTHONIOENCODING="utf-8", COLUMNS="80", **more),
        stdin=subprocess.DEVNULL,
        capture_output=True,
        check=True,
    )
    assert done.stdout == output("utf-8", 80, "plan", *FEW)


def test_a_reader_that_has_seen_enough_is_no_fault():
    with subprocess.Popen(
        [sys.executable, "-m", "advisor", "matrix"],
        cwd=ROOT,
        env=environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.read(10)
        running.stdout.close()
        assert running.wait(timeout=60) == 0
        assert not running.stderr.read()


def _until_busy(process: int) -> None:
    """Into the planning, which takes many seconds of the processor; a first start compiles for one or two."""
    stat = Path(f"/proc/{process}/stat")
    if not stat.exists():
        time.sleep(5)
        return
    ends = time.monotonic() + 60
    while int(stat.read_text().split()[13]) < 2.5 * os.sysconf("SC_CLK_TCK") and time.monotonic() < ends:
        time.sleep(0.02)


def test_broken_off_by_the_keyboard_is_quiet():
    with subprocess.Popen(
        [sys.executable, "-m", "advisor", "explain", "changes", "--worlds", "50000"],
        cwd=ROOT,
        env=environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        # Whoever runs the tests in the background has the signal ignored, and that would be inherited.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    ) as running:
        _until_busy(running.pid)
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=60)
        assert running.returncode == 130
        assert b"Traceback" not in out + err


def test_nothing_to_write_to_is_told(tmp_path):
    if not Path("/dev/full").exists():
        pytest.skip("this system has no full device")
    with open("/dev/full", "w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "advisor", "plan", str(demo.MAIN), *FEW],
            cwd=ROOT,
            env=environment(),
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
    assert len(done.stderr.decode().strip().splitlines()) == 1
