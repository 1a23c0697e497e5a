"""Why spans and chances of a push are others than those of the card beside it, told once as it begins."""

from __future__ import annotations

from advisor.push.now import Now
from advisor.terminal.page import Page

_WIDER = (  # than those of the card, whose span is that of the lengths on the sheet alone
    "The spans of readings here are wider than those of the card: in them are the slip of the counter and "
    "how near to a place it is told."
)
_WETTED = (
    "The chances of a push and of each try here are those in a wetted pipe, for this line was seen to drain "
    "and water is run through it first: higher than on plan and card, which do not count on that."
)


def show_beside_card(now: Now, page: Page) -> None:
    """What makes them others in this push."""
    page.line(_WIDER)
    if now.push.study.circumstances.drains_at_door and now.push.study.drawn.wet:
        page.line(_WETTED)
