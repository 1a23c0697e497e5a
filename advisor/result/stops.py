"""Why a way does not get there, as a sentence."""

from __future__ import annotations

from advisor.result.ends import ITSELF, LENGTH
from advisor.result.model import Stopped


def stop_words(stop: Stopped, at: str = "") -> str:
    """The sentence without its full stop; `at` is how far in, ` at 20 ft`, or nothing."""
    why = stop.why.rstrip(".")
    if stop.passage in (ITSELF, LENGTH):
        return f"{why}{at}"
    return f"{stop.passage}{at}: {why[:1].lower()}{why[1:]}"
