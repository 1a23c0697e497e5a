"""The program in messages as it is called here: `advisor plan`, or `.venv/bin/advisor plan` off the path."""

from __future__ import annotations

import re
import shlex
import shutil
import sys
from pathlib import Path

_COMMAND = re.compile(
    r"\badvisor (?=(?:ask|batch|card|check|explain|kit|learn|log|matrix|plan|practice|push|report|rules)\b)"
)


def as_called(words: str) -> str:
    """Words in which every command can be typed as it stands."""
    return _COMMAND.sub(lambda _: f"{program()} ", words)


def program() -> str:
    """What to type for `advisor`: that alone where the shell finds this one, else as it was called."""
    called = Path(sys.argv[0])
    if called.stem.lower() != "advisor":
        return "advisor"  # not run by its own name, as from a test
    found = shutil.which("advisor")
    here = found is not None and called.exists() and Path(found).samefile(called)
    return "advisor" if here else shlex.quote(sys.argv[0])
