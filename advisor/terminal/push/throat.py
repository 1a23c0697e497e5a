"""What to do on the screen when the head went the wrong way at the fitting of its opening."""

from __future__ import annotations

from advisor.push.held.throat import Throat
from advisor.tables.stuck import ThroatRow
from advisor.terminal.page import Page
from advisor.terminal.push.keys import LED_ANEW
from advisor.terminal.push.words import Words


def show_throat(throat: Throat, told: ThroatRow, counter: float, page: Page, words: Words) -> None:
    """How to get into what is wanted, or that this kind of opening has no such throat; `counter` now, m."""
    if throat.mouth is not None:
        page.strong(told.channel.format(opening=throat.opening, mouth=throat.mouth))
        page.line(f"Done? Tell it with key {LED_ANEW}.")
        return
    if throat.tries is None:
        page.strong(told.one.format(kind=throat.kind))
        return
    way = "upstream" if throat.upstream else "downstream"
    page.strong(told.two.format(opening=throat.opening, way=way))
    if counter > throat.counter:
        page.steps([told.back.format(counter=words.length(throat.counter))])
    for place, (technique, steps) in enumerate(throat.tries):
        page.strong(f"{'Then' if place else 'First'} {technique}")
        page.steps(list(steps), indent=4)
    page.line(told.again)
