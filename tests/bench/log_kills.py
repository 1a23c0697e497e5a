"""Writers of a log killed with signal 9: is every acknowledged entry still there, and no other?

    python -m tests.bench.log_kills [KILLS]      3000 where left out; a slow figure, not a test

Each run starts writers in processes of their own, several on the same log, each on a log that has been
killed many times before. A writer reports an entry's text on a pipe before it asks for it (`?`) and after
`append` has returned (`!`). After the kill, every entry reported with `!` must be in the log once, and every
entry of the log must have been asked for. This does not test a loss of power.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

from advisor.push.log.log import Log

WRITER = """
import os, sys
from datetime import UTC, datetime
from pathlib import Path
from advisor.push.log.log import Log
path, name = Path(sys.argv[1]), sys.argv[2]
os.write(1, b"ready\\n")
sys.stdin.readline()
i = 0
while True:  # opening is killed too, so it is done often
    log = Log.open(path)
    for _ in range(5):
        text = f"{name}/{i}"
        os.write(1, f"?{text}\\n".encode())
        log.append("note", float(i), {"text": text, "photo": "x" * (i % 7 * 250)}, datetime.now(UTC))
        os.write(1, f"!{text}\\n".encode())
        i += 1
    log.close()
"""
ROOT = Path(__file__).parents[2]


@dataclass
class Result:
    """What the kills have shown."""

    kills: int = 0
    acknowledged: int = 0
    lost: list[str] = field(default_factory=list)
    invented: list[str] = field(default_factory=list)
    doubled: int = 0
    unacknowledged_kept: int = 0
    kills_while_asking: int = 0  # between `?` and `!`: in the middle of a write


def kill_writers(kills: int, seed: int, folder: Path, at_once: int = 2, a_log: int = 40) -> Result:
    """Kill that many writers, `at_once` on one log; a new log after every `a_log` kills."""
    dice, result = random.Random(seed), Result()
    asked: set[str] = set()
    acknowledged: set[str] = set()
    path = folder / "0.db"
    while result.kills < kills:
        number = result.kills
        if number and number % a_log < at_once:
            path, asked, acknowledged = folder / f"{number}.db", set(), set()
        names = [f"{number}-{i}" for i in range(min(at_once, kills - number))]
        writers = [_writer(path, name) for name in names]
        for writer in writers:
            assert writer.stdout is not None
            assert writer.stdout.readline() == b"ready\n"
        for writer in writers:
            assert writer.stdin is not None
            writer.stdin.write(b"go\n")
            writer.stdin.flush()
        for writer in writers:
            time.sleep(dice.uniform(0.0, 0.02))
            writer.send_signal(signal.SIGKILL)
            said, _ = writer.communicate()
            lines = said.decode().splitlines()
            asked |= {line[1:] for line in lines if line.startswith("?")}
            acknowledged |= {line[1:] for line in lines if line.startswith("!")}
            result.acknowledged += sum(line.startswith("!") for line in lines)
            result.kills_while_asking += bool(lines) and lines[-1].startswith("?")
            result.kills += 1
        _compare(path, asked, acknowledged, result)
    return result


def _compare(path: Path, asked: set[str], acknowledged: set[str], result: Result) -> None:
    if not path.exists():
        result.lost += sorted(acknowledged)
        return
    log = Log.open(path)  # raises where the log is damaged
    texts = [str(entry.data["text"]) for entry in log.entries()]
    log.close()
    result.lost += sorted(acknowledged - set(texts))
    result.invented += sorted(set(texts) - asked)
    result.doubled += len(texts) - len(set(texts))
    result.unacknowledged_kept += len(set(texts) - acknowledged)


def _writer(path: Path, name: str) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, "-c", WRITER, str(path), name],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )


def main() -> None:
    """Print the figures."""
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else 3000
    begun = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        result = kill_writers(kills, 1, Path(folder))
    print(f"{result.kills} kills in {time.monotonic() - begun:.0f} s, two writers on a log")
    print(f"{result.acknowledged} entries acknowledged, {len(result.lost)} lost, {result.doubled} doubled")
    print(
        f"{len(result.invented)} invented; {result.kills_while_asking} kills fell into the middle of a write"
    )


if __name__ == "__main__":
    main()
