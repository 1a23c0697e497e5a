"""What is shown where the head is held: the likely cause, what first, the next try, when to stop."""

from __future__ import annotations

from advisor.outcome.attempts import CLEANED
from advisor.push.before.elsewhere import held_by
from advisor.push.held.stuck import Stuck
from advisor.push.now.here import likely_here
from advisor.push.now.now import Now
from advisor.push.now.tries import NextTry
from advisor.quantity import never_certain
from advisor.tables.conditions import ROOTS
from advisor.tables.where import number
from advisor.terminal.page import Page
from advisor.terminal.push.hard import told_there
from advisor.terminal.push.held_where import held_words
from advisor.terminal.push.material import held_of
from advisor.terminal.push.words import IF_ON_MAP, Words

_NOT = 4  # layout: so many are told


def show_stuck(found: Stuck, now: Now, page: Page) -> None:
    """The likely cause, what first, the next try, when to stop."""
    words = Words(now)
    page.heading(held_words(found, now))
    for note in found.cautions:
        page.boxed(note.word, [note.text])
    if found.no_push:
        page.strong(f"First get it {'out' if found.over else 'free'}, gently")
        page.steps(list(found.out.steps))
    for line in told_there(now):
        page.line(line)
    there = held_by(now)
    for told in there:
        page.strong(now.push.study.tables.in_pipe.from_elsewhere.held.format(what=told.what))
    if not found.spot:
        _here(now, page, bool(there))
    sure = len(found.named) == 1
    if not sure:
        page.line("It is not clear what holds it. It may be that")
    for cause in found.named:
        said = (
            f"{_cap(cause.words)}: {words.say(cause.chance)}."
            if sure
            else f"- {cause.words} ({cause.chance:.0%})."
        )
        page.strong(said)
        page.line(cause.why, indent=4)
    if not found.spot and (roots := _roots_too(found, now)) is not None:
        page.line(f"Or roots at a joint hold the head ({roots:.0%}).")
    if found.first:
        page.strong("First")
        page.steps(list(found.first))
    if (stop := found.stop_in_turn) is not None:
        page.boxed("stop", [stop])
        for technique, why in found.not_now:
            if technique == CLEANED:  # where all else has failed somebody reaches for a machine
                page.line(f"Not {technique}: {why}")
        return
    for place, each in enumerate(found.tries[:2]):
        _try(each, "Next" if place == 0 else "Then", page, words)
    for technique, why in found.not_now[:_NOT]:
        page.line(f"Not {technique}: {why}")


def _here(now: Now, page: Page, other: bool = False) -> None:
    """What is likely in this pipe all the same, by what the plan knows of it."""
    here, on_sheet = likely_here(now), number(now.push.tracker.chart.where.sure.on_sheet)
    if here.nothing:
        if not other:
            page.line("Nothing that the plan knows of this pipe makes a stop here likely.")
        return
    if here.conditions or here.sag or here.narrow:
        page.line(held_of(now))
    for words, share in here.conditions:
        told = "as the sheet has it" if share > on_sheet else f"{share:.0%}"
        page.line(f"- {words} ({told})")
    if here.sag:
        page.line(f"- a sag, where water may stand over the lens ({here.sag:.0%})")
    if here.narrow:
        page.line(f"- less room left than the head needs ({here.narrow:.0%})")
    if here.trouble:
        chance = 100 * never_certain(here.trouble)
        told = f"by the complaint the trouble lies in this section: {chance:.0f}%, no proof."
        page.line(f"{IF_ON_MAP}, {told}" if now.off_map else _cap(told))
    # Whether it is held by roots of a run that it is in is told with the causes: once, with one chance.
    runs = {met.name for met in now.may_be_rooted}
    for name, share in here.spots:
        if name not in runs:
            page.line(f"It may be held at the {name} ({share:.0%}).")


def _roots_too(found: Stuck, now: Now) -> float | None:
    """The chance that roots hold it in a run marked for them where they are not among what is named."""
    least = number(now.push.study.tables.stuck.tell.here)
    chance = sum(each.chance for each in found.causes if each.name == ROOTS)
    named = any(each.name == ROOTS for each in found.named)
    return chance if now.may_be_rooted and not named and chance >= least else None


def _try(each: NextTry, when: str, page: Page, words: Words) -> None:
    left = {1: "one try left", 2: "two tries left"}.get(each.left, f"{each.left} tries left")
    told = ", ".join(filter(None, (each.told(words.say), left)))
    page.strong(f"{when}: {each.technique}. {_cap(told)}.")
    if each.because:
        page.line(each.because, indent=4)
    if each.steps and when == "Next":
        page.steps(list(each.steps), indent=4)


def _cap(words: str) -> str:
    return words[:1].upper() + words[1:]
