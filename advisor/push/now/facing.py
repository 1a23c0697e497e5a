"""Which way the lens looks, in the words that the screen beside the opening and the report share."""

from __future__ import annotations

from collections.abc import Callable

from advisor.push.track.fix import Fix


def facing(fix: Fix, say: Callable[[float], str]) -> str | None:
    """Whether downstream is ahead of the lens or behind it; None where that is as good as even."""
    ahead = fix.downstream
    if say(ahead).startswith("even"):
        return None
    if ahead >= 0.5:
        return f"downstream is ahead of the lens: {say(ahead)}"
    return f"downstream is behind the lens: {say(1 - ahead)}"
