"""The review log: one line of JSON for each answered drill, only ever added to, on disk when told."""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from math import isfinite
from pathlib import Path
from typing import BinaryIO

from advisor.errors import BadInput, Fault
from advisor.job.own import own_folder
from advisor.practice.drill import Grade

FILE = "practice.jsonl"
PUSH = "push"  # the skill of the simulated push, beside the kinds of drill


@dataclass(frozen=True)
class Review:
    """One answered drill: when (UTC), which, at which step, and what it came to (minutes, 0 to 1)."""

    at: datetime
    skill: str
    seed: int
    about: str
    step: str
    regret: float
    credit: float
    unsafe: bool


def review_of(grade: Grade, skill: str, seed: int, about: str, step: str, at: datetime) -> Review:
    """The line to keep of a graded drill."""
    return Review(
        at.astimezone(UTC), skill, seed, about, step, grade.regret, grade.credit, bool(grade.unsafe)
    )


def own_reviews() -> Path:
    """Where the reviews of whoever uses this machine are kept."""
    return own_folder() / FILE


def read(path: Path) -> tuple[Review, ...]:
    """Every review in its order; none where there is no log yet. Raises BadInput with every bad line.

    A last line that was cut off while it was written (the power went) is left out: it was never told.
    """
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        return ()
    except (OSError, UnicodeDecodeError) as fault:
        raise BadInput([Fault(str(path), 0, f"cannot be read: {fault}")]) from None
    found, faults = [], []
    lines = text.split("\n")
    whole, cut = lines[:-1], lines[-1]
    for number, line in enumerate(whole, 1):
        try:
            found.append(_review(json.loads(line)))
        except (ValueError, TypeError, KeyError):
            faults.append(
                Fault(str(path), number, "this is not a review; expected a line as practice wrote it")
            )
    if faults:
        raise BadInput(faults)
    if cut:
        with suppress(ValueError, TypeError, KeyError):
            found.append(_review(json.loads(cut)))
    return tuple(found)


def add(path: Path, review: Review) -> None:
    """One more review, on disk when this returns; raises BadInput."""
    line = json.dumps({**asdict(review), "at": review.at.isoformat()}, allow_nan=False)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("ab+") as file:
            line = _after_a_cut(file) + line
            file.write((line + "\n").encode())
            file.flush()
            os.fsync(file.fileno())
    except OSError as fault:
        raise BadInput([Fault(str(path), 0, f"cannot be written: {fault.strerror}")]) from None


def _after_a_cut(file: BinaryIO) -> str:
    """Take away what a power cut left of a last line, and say what must stand before the next one."""
    file.seek(0)
    tail = file.read().rpartition(b"\n")[2]
    if not tail:
        return ""
    with suppress(ValueError, TypeError, KeyError):
        _review(json.loads(tail))
        return "\n"  # whole but for its end
    file.truncate(file.seek(0, os.SEEK_END) - len(tail))
    return ""


def _review(row: object) -> Review:
    if not isinstance(row, dict):
        raise TypeError
    at = datetime.fromisoformat(row["at"])
    regret, credit = float(row["regret"]), float(row["credit"])
    if at.tzinfo is None or not (isfinite(regret) and 0 <= credit <= 1):
        raise ValueError
    names = [str(row[key]) for key in ("skill", "about", "step")]
    return Review(at, names[0], int(row["seed"]), names[1], names[2], regret, credit, bool(row["unsafe"]))


def of_skill(reviews: Sequence[Review], skill: str) -> tuple[Review, ...]:
    """The reviews of one skill, in their order."""
    return tuple(review for review in reviews if review.skill == skill)
