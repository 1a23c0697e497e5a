"""Every call of the log to the system fails once, also those inside SQLite: is all still there?

    python -m tests.bench.log_calls      a slow figure, not a test; needs strace and leave to trace

A writer opens a log with three entries, adds three more and closes it. First its calls on the log, the files
beside it
and their folder are counted; then it is run anew for each of them, and that one call is made to fail
(strace's `inject`). Making a log has its calls failed in tests/push/test_log_faults.py.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path

from advisor.push.log.log import Log
from tests.bench.log_kills import ROOT

FAULTS = {
    "openat": ("EIO", "EMFILE"),
    "pread64": ("EIO",),
    "read": ("EIO",),
    "pwrite64": ("EIO", "ENOSPC"),
    "fsync": ("EIO",),
    "fdatasync": ("EIO",),
    "ftruncate": ("EIO", "ENOSPC"),
    "fallocate": ("ENOSPC",),
    "mmap": ("ENOMEM",),
    "fcntl": ("ENOLCK",),
    "newfstatat": ("EIO",),
    "fstat": ("EIO",),
    "lseek": ("EIO",),
    "unlink": ("EIO",),
    "fchown": ("EPERM",),
    "close": ("EIO",),
}
WRITER = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from advisor.errors import BadInput
from advisor.push.log.log import Log
try:
    log = Log.open(Path(sys.argv[1]))
    for i in range(3, 6):
        log.append("note", float(i), {"text": f"note {i}"}, datetime.now(UTC))
        print(f"!note {i}", flush=True)
    log.close()
except BadInput as fault:
    print(f"told: {fault}", flush=True)
"""


def run(path: Path, extra: list[str]) -> tuple[list[str], str, str]:
    """What the writer said, its error output, and the trace."""
    beside = [f"{path}-wal", f"{path}-shm", f"{path}-journal", str(path.parent)]
    watched = [word for name in (str(path), *beside) for word in ("-P", name)]
    trace = path.parent / "trace"
    command = [
        "strace",
        "-f",
        "-qq",
        "-o",
        str(trace),
        *watched,
        *extra,
        sys.executable,
        "-c",
        WRITER,
        str(path),
    ]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run(command, capture_output=True, text=True, env=environment, check=False)
    return done.stdout.splitlines(), done.stderr, trace.read_text(errors="replace")


def fresh(folder: Path) -> Path:
    """A folder with a log of three entries."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    log = Log.open(folder / "log.db")
    for i in range(3):
        log.append("note", float(i), {"text": f"note {i}"}, datetime.now(UTC))
    log.close()
    return folder / "log.db"


def main() -> None:
    """Print the figures; ends with 1 where anything was lost, invented or not told."""
    wrong: list[str] = []
    failed: Counter[str] = Counter()
    told = 0
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home) / "job"
        said, _, trace = run(fresh(folder), [])
        assert said == ["!note 3", "!note 4", "!note 5"], said
        counts = Counter(re.findall(r"^\d+ +(\w+)\(", trace, re.MULTILINE))
        for call, errors in FAULTS.items():
            for number in range(1, counts[call] + 1):
                for error in errors:
                    path = fresh(folder)
                    inject = ["-e", f"trace={call}", "-e", f"inject={call}:error={error}:when={number}"]
                    said, stderr, trace = run(path, inject)
                    if "INJECTED" not in trace:
                        continue
                    failed[call] += 1
                    told += any(line.startswith("told: ") for line in said)
                    wrong += [f"{call} {number} {error}: {what}" for what in _faults(path, said, stderr)]
    print(f"calls of the writer: {dict(counts)}")
    print(
        f"failed once each: {sum(failed.values())} ({dict(failed)}); {told} were told, the others did no harm"
    )
    print(f"never failed: {sorted(set(counts) - set(FAULTS))}")
    print("\n".join(wrong) or "no acknowledged entry lost, none invented, every fault one line")
    sys.exit(1 if wrong else 0)


def _faults(path: Path, said: list[str], stderr: str) -> list[str]:
    found = []
    log = Log.open(path)
    texts = [str(entry.data["text"]) for entry in log.entries()]
    log.close()
    acknowledged = ["note 0", "note 1", "note 2", *(line[1:] for line in said if line.startswith("!"))]
    found += [f"lost {text}" for text in acknowledged if text not in texts]
    found += [f"invented {text}" for text in texts if text not in {f"note {i}" for i in range(6)}]
    found += [f"{len(texts)} entries for {len(set(texts))}"] if len(texts) != len(set(texts)) else []
    if stderr.strip():
        found.append(f"not told in one line: {stderr.strip().splitlines()[-1]}")
    if len(acknowledged) < 6 and not any(line.startswith("told: ") for line in said):
        found.append("an entry was not acknowledged, and nothing told")
    return found


if __name__ == "__main__":
    main()
