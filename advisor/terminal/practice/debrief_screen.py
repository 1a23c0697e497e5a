"""A push walked back on the screen: all of it where it is short, else what cost most and the rest by key."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.practice.debrief import Decision
from advisor.terminal.choose import Choice, choose
from advisor.terminal.page import Page

MOST_LINES = 30  # as many as are read in one go
FIRST = 3
MORE = "m"
Numbered = tuple[int, Decision]


def walk_back(decisions: Sequence[Decision], page: Page) -> None:
    """Each decision with what would have been best; of many the costliest three first. Raises as `choose`."""
    page.heading("Walking it back")
    numbered = list(enumerate(decisions, 1))
    if sum(_lines(made, page) for made in decisions) <= MOST_LINES:
        _told(numbered, page)
        return
    first = costliest(numbered)
    rest = [each for each in numbered if each not in first]
    if any(not made.full for _, made in first):
        page.line("What cost most:")
    _told(first, page)
    if rest and choose(page, "Read on?", (Choice("1", "enough"), Choice(MORE, f"{len(rest)} more"))) == MORE:
        _told(rest, page)


def costliest(numbered: Sequence[Numbered]) -> list[Numbered]:
    """The three that cost most, in the order in which they were made; what can hurt is never left out."""
    worst = sorted(numbered, key=_worth)
    taken = worst[:FIRST]
    for each in worst[FIRST:]:
        unsafe = each[1].unsafe
        if unsafe is not None and unsafe not in [made.unsafe for _, made in taken]:
            taken.append(each)
    return sorted(taken, key=lambda each: each[0])


def _worth(each: Numbered) -> tuple[bool, bool, float, float]:
    """What can hurt first, then what cost minutes, then what earned less."""
    made = each[1]
    return made.unsafe is None, made.full, -made.regret, -sum(less.share for less in made.less)


def _lines(made: Decision, page: Page) -> int:
    """About how many lines it takes: the head, the verdict, a box, the reasons, a blank."""
    width = max(page.console.width - 4, 1)
    texts = [
        f"00. {made.where}: you {made.did}.",
        f"Best: {made.best}. {'-' * 40}",
        *made.why,
        *(each.words for each in made.less),
    ]
    box = 2 + -(-len(made.unsafe.text) // width) if made.unsafe else 0
    return 1 + box + sum(-(-len(text) // width) for text in texts)


def _told(numbered: Sequence[Numbered], page: Page) -> None:
    for number, made in numbered:
        page.line()
        page.strong(f"{number}. {made.where}: you {made.did}.")
        if made.unsafe:
            page.boxed(made.unsafe.word, [made.unsafe.text])
        if not made.graded:
            page.line(f"Better: {made.best}.", indent=4)
        elif made.full:
            good = "As good as the best" if made.regret > 0 else "None is better"
            page.line(f"{good}{', but it earns less:' if made.less else '.'}", indent=4)
        else:
            page.line(f"Best: {made.best}. Yours costs {made.regret:.0f} min more, in expectation.", indent=4)
        for line in (*(f"Less: {each.words}." for each in made.less), *made.why):
            page.line(line, indent=4)
