"""Questions one after the other, and back: nothing that was answered is lost on the way."""

from __future__ import annotations

from collections.abc import Callable

# True where it was answered, False for back, None where there is nothing to ask.
Step = Callable[[], bool | None]


def in_turn(*steps: Step) -> bool:
    """Ask each; back goes to the question before. True once all is answered, False where it is left."""
    place, onward = 0, True
    while 0 <= place < len(steps):
        said = steps[place]()
        onward = onward if said is None else said
        place += 1 if onward else -1
    return place > 0
