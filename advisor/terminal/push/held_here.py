"""A head that is held, where no hard place tells of it: on every screen until it is free."""

from __future__ import annotations

from advisor.push.log.sign_words import sign_words
from advisor.push.now.now import Now
from advisor.push.stop_ahead import StopAhead
from advisor.terminal.page import Page
from advisor.terminal.push.words import Words


def show_held(here: StopAhead | None, now: Now, page: Page, words: Words) -> None:
    """What was seen and felt there, what most likely holds it, what comes first, whether to push on at all.

    A hard place of the plan has a box of its own, with what is left to try there.
    """
    if here is None or here.found.no_push or here.found.spot in {met.name for met in now.push.course.hard}:
        return
    table, found = now.push.study.tables.stuck, here.found
    signs = f" ({sign_words(here.signs, table)})" if here.signs else ""
    texts = [f"At {words.length(here.reading)}{signs}."]
    if len(found.named) == 1:
        texts.append(f"{found.told.words[:1].upper()}{found.told.words[1:]}: {words.say(found.told.chance)}.")
    texts += [*found.first, *filter(None, [found.stop_in_turn])]
    page.boxed("held here", [*texts, *(f"{note.word.upper()}: {note.text}" for note in found.cautions)])
