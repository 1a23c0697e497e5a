"""A push walked back on the screen: in its order where that is short, else what cost most first."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.practice.debrief import Decision
from advisor.practice.marks import Marks
from advisor.terminal.leaf import fits, leaf_through
from advisor.terminal.page import Page

FIRST = 3
_BELOW = 6  # lines that come below it: the whole in one, and whether to go on
Numbered = tuple[int, Decision]


def walk_back(decisions: Sequence[Decision], marks: Marks, page: Page) -> None:
    """Each decision with what would have been best; of many the costliest three first. Raises as `choose`."""
    page.heading("Walking it back")
    numbered = list(enumerate(decisions, 1))
    if fits(page, lambda: _told(numbered, marks, page), _BELOW):
        _told(numbered, marks, page)
    else:
        leaf_through(page, lambda: _costliest_first(numbered, marks, page))


def _costliest_first(numbered: Sequence[Numbered], marks: Marks, page: Page) -> None:
    first = costliest(numbered, marks)
    rest = [each for each in numbered if each not in first]
    if any(not marks.full(made) for _, made in first):
        page.line("What cost most:")
    _told(first, marks, page)
    if rest:
        page.line()
        page.line("And the rest, in its order:")
        _told(rest, marks, page)


def costliest(numbered: Sequence[Numbered], marks: Marks) -> list[Numbered]:
    """The three that cost most, in the order in which they were made; what can hurt is never left out."""

    def worth(each: Numbered) -> tuple[bool, bool, float, float]:
        """What can hurt first, then what cost minutes, then what earned less."""
        made = each[1]
        return made.unsafe is None, marks.full(made), -made.regret, -sum(less.share for less in made.less)

    worst = sorted(numbered, key=worth)
    taken = worst[:FIRST]
    for each in worst[FIRST:]:
        unsafe = each[1].unsafe
        if unsafe is not None and unsafe not in [made.unsafe for _, made in taken]:
            taken.append(each)
    return sorted(taken, key=lambda each: each[0])


def _told(numbered: Sequence[Numbered], marks: Marks, page: Page) -> None:
    for number, made in numbered:
        page.line()
        page.strong(f"{number}. {made.where}: you {made.did}.")
        if made.unsafe:
            page.boxed(made.unsafe.word, [made.unsafe.text])
        if not made.graded:
            page.line(f"Better: {made.best}.", indent=4)
        elif marks.full(made):
            good = "As good as the best" if made.regret > 0 else "None is better"
            page.line(f"{good}{', but it earns less:' if made.less else '.'}", indent=4)
        else:
            page.line(f"Best: {made.best}. Yours costs {made.regret:.0f} min more, in expectation.", indent=4)
        for line in (*(f"Less: {each.words}." for each in made.less), *made.why):
            page.line(line, indent=4)
