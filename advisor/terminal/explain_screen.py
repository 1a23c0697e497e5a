"""Explanations on the screen: at most three reasons first, the whole tree where it is asked for."""

from __future__ import annotations

from advisor.explain.change import Cure
from advisor.explain.how import shown
from advisor.explain.matters import Matter
from advisor.explain.reason import Story
from advisor.explain.what_if import WhatIf
from advisor.result.chances import chance_words
from advisor.result.model import ChanceWords
from advisor.result.study import Study
from advisor.terminal.page import Page


def show_verdict(verdict: str | None, page: Page) -> None:
    """What holds before any of what is explained: no camera goes in yet."""
    if verdict is not None:
        page.line()
        page.strong(f"{verdict} What follows counts only once that is done.")


def show_story(story: Story, full: bool, page: Page) -> None:
    """Print a story; with `full` the tree under it."""
    page.line()
    page.strong(story.about)
    page.steps(list(story.story))
    if not full:
        page.line("The whole tree of reasons: add --full.")
        return
    page.line()
    for depth, reason in story.tree.walk():
        page.line(shown(reason), indent=2 + 2 * depth)


def show_what_if(found: WhatIf, page: Page) -> None:
    """Print what another value would change."""
    page.heading(f"What if {found.what}")
    if found.verdict_before != found.verdict_after:
        now = found.verdict_after or "Nothing that was told keeps a camera out then."
        page.strong(f"{now} Before: {found.verdict_before or 'nothing did.'}")
    elif found.verdict_after:
        page.strong(f"{found.verdict_after} That holds all the same; below is what comes after it.")
    if found.leader_before == found.leader_after:
        page.strong(f"{found.leader_before} leads all the same.")
    else:
        page.strong(f"{found.leader_after} leads instead of {found.leader_before}.")
        if found.turns_at:
            page.line(f"The lead changes at about {found.turns_at}.")
    rows = [
        [
            each.opening,
            f"{each.rank_before or '-'} to {each.rank_after or '-'}",
            f"{each.chance_before:.0%} to {each.chance_after:.0%}",
            f"{each.minutes_before:.0f} to {each.minutes_after:.0f}",
        ]
        for each in found.changes
    ]
    page.table(["opening", "rank", "chance", "minutes"], rows)


def show_matters(found: tuple[Matter, ...], unseen: tuple[str, ...], page: Page) -> None:
    """Print the unknowns by what knowing them could save, and the openings that nobody has looked at."""
    page.heading("What matters: minutes that knowing it could save")
    if not found:
        page.line("No single unknown could change what to do by half a minute.")
    rows = [[f"{each.minutes:.1f}", each.unknown, "" if each.sure else "may be chance"] for each in found]
    if rows:
        page.table(["minutes", "unknown", ""], rows, frozenset({0}))
    if unseen:
        names = ", ".join(unseen)
        page.line(f"Nobody has said of these whether they are there, or of which kind: {names}.")
        page.line("Two such answers together may change what to do. Have it ask you: advisor ask.")


def told_against(found: tuple[Cure, ...], study: Study) -> str:
    """What the chances of changes are of, where that is not what the plan tells: it goes for a part."""
    words, part = chance_words(study), study.part
    if part is None or not found or found[0].chance_before != study.chance:
        return ""
    now, seen = words.say(study.chance), words.say(study.settled.order.chance)
    held = f"holds it with {part.trouble:.0%} if it lies in {part.of.words}"
    return (
        "Told is the chance to see where the trouble lies. "
        f"Now {now}: the part that the plan looks at is seen in all {seen}, and {held}."
    )


def show_cures(found: tuple[Cure, ...], words: ChanceWords, page: Page, against: str = "") -> None:
    """Print what would change a poor chance, and what it is told `against`."""
    page.heading("What would change it")
    if against:
        page.line(against)
    if not found:
        page.line("None of the small changes looked at adds a twentieth to the chance.")
    for each in found:
        page.strong(f"{each.what}: {words.say(each.chance_after)} instead of {words.say(each.chance_before)}")
        page.line(
            f"then first by {each.opening_after}, about {each.minutes_after:.0f} minutes in all", indent=4
        )
