"""A long text, one screenful at a time: whoever reads beside a drain has no hand free to scroll back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from advisor.terminal.choose import ENTER, Choice, can_ask, choose
from advisor.terminal.page import Page

ASKED = 6  # lines that the question below a screenful takes
_BOX = frozenset("│┃|└┗+")  # a line of a box, or its lower edge
LEAST = 10  # a window lower than this cannot hold question and text: the text comes whole
# One of several things is chosen, so by its digit; what leafs through a text elsewhere does so here as well.
_NEXT = Choice("1", "next", also=f" {ENTER}")
_REST, _ENOUGH = Choice("2", "the rest at once"), Choice("0", "enough")


def leaf_through(page: Page, show: Callable[[], None], below: int = 0) -> None:
    """Show what `show` writes to the page, a screenful at a time where a reader can ask for the next.

    What is no screen (a file, a pipe), and a text that fits with the lines that come `below` it, come whole,
    and so does the rest once nobody is there to ask any more. Raises KeyboardInterrupt on Ctrl-C.
    """
    room = page.console.height - ASKED
    if not page.console.is_terminal or not can_ask() or room < LEAST:
        show()
        return
    lines = _laid_out(page, show)
    whole = len(lines) + below <= page.console.height
    while len(lines) > room:
        end = _end(lines, room)
        page.as_is(lines[:end])
        lines = lines[end:]
        try:
            key = choose(page, f"{len(lines)} more lines.", (), (_NEXT, _REST, _ENOUGH))
        except EOFError:
            key = _REST.key
        if key == _ENOUGH.key:
            return
        if key == _REST.key:  # whoever wants it at once is not asked about its end besides
            whole = True
            break
    page.as_is(lines)
    if not whole and below:
        on = replace(_NEXT, also=f"{_NEXT.also}{_REST.key}{_ENOUGH.key}")  # whoever leafs presses any of them
        choose(page, "That is all of it.", (), (on,))


def fits(page: Page, show: Callable[[], None], below: int) -> bool:
    """Whether what `show` writes stands on one screen with the lines that come `below` it."""
    return len(_laid_out(page, show)) + below <= page.console.height


def _laid_out(page: Page, show: Callable[[], None]) -> list[str]:
    with page.console.capture() as taken:
        show()
    return taken.get().splitlines()


def _end(lines: list[str], room: int) -> int:
    """Where a screenful ends: at the last empty line of its lower half, so that a paragraph stays whole.

    Not at one that stands under a heading, which is a line alone between two; and never within a box of what
    can hurt somebody, however long: what is below its edge might not be read.
    """
    end = next((e for e in range(room, room // 2, -1) if not lines[e].strip() and lines[e - 2].strip()), room)
    while end < len(lines) and lines[end].strip()[:1] in _BOX:
        end += 1
    return end
