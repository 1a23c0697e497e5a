"""What is shown beside the opening: where the head is and what comes next."""

from __future__ import annotations

from advisor.push.before.limit import limit_of
from advisor.push.log.kinds import FIND
from advisor.push.log.log import entry_text
from advisor.push.now.ahead import next_landmarks, on_run
from advisor.push.now.now import Now
from advisor.push.now.since import read_twice
from advisor.push.now.warned import site_cautions
from advisor.push.stop_ahead import stop_here
from advisor.push.track.fix import Place
from advisor.tables.where import number
from advisor.terminal.page import Page
from advisor.terminal.push.across import show_across
from advisor.terminal.push.coming import next_seen, show_next, show_seen
from advisor.terminal.push.found import show_found
from advisor.terminal.push.hard import no_push, show_hard
from advisor.terminal.push.held_here import show_held
from advisor.terminal.push.not_past import show_not_past
from advisor.terminal.push.water import contrary_words, show_check, show_watched
from advisor.terminal.push.words import Words

_WIDER = (  # than those of the card, whose span is that of the lengths on the sheet alone
    "The spans of readings here are wider than those of the card: in them are the slip of the counter and "
    "how near to a place it is told."
)


def show_now(now: Now, page: Page) -> None:
    """Where the head is and what comes next, shortly."""
    words = Words(now)
    page.heading(f"Counter {words.length(now.counter)}")
    if now.belief.slack > number(now.push.tracker.chart.where.sure.loose):
        page.strong(f"{words.length(now.belief.slack)} of rod lie loose in the pipe: draw them out first.")
    if not now.entries:
        page.line(_WIDER)
    _where(now, page, words)
    limit = limit_of(now)
    show_seen(limit, now, page, words)
    here = stop_here(now)
    show_held(here, now, page, words)
    nothing_next = no_push(now) is not None or (here is not None and here.not_past)
    if (_sure(now) or limit.nothing_ahead) and not nothing_next:
        show_next(limit, now, page, words)
    show_not_past(limit, now, page, words)
    show_found(limit, now, page, words)
    show_hard(limit, now, page, words)
    show_check(now, page, words, _sure(now))
    show_watched(now, page)
    _warn(now, page)


def _warn(now: Now, page: Page) -> None:
    """What a find that was told just now warns of, last: above the question nothing scrolls off."""
    last = now.entries[-1] if now.entries else None
    found = entry_text(last, "what") if last is not None and last.kind == FIND else None
    if found is not None:
        for note in site_cautions(now.push.study, now.push.study.tables.finds.warnings(found)):
            page.boxed(note.word, [note.text])


def _where(now: Now, page: Page, words: Words) -> None:
    fix = now.fix
    best, second = fix.best, fix.second
    if now.off_map:
        page.strong(f"It may be a pipe that is not on your map: {words.say(fix.off_map)}.")
    if (against := contrary_words(now)) is not None:
        page.boxed("not sure where", list(against))
        page.line(f"Where, by all else that was told: {words.place(best)}.")
        return
    if second is None or _sure(now):
        following = next_seen(now)
        unseen = None if following is None else following.landmark.piece
        page.strong(f"Where: {words.place(best, unseen=unseen)}. {_cap(words.say(words.chance(best)))}.")
    else:
        page.strong("Where: not sure. Either")
        page.steps([_either(now, each, words) for each in sorted((best, second), key=lambda p: -p.alone)])
    page.line(words.way(fix, now.off_map))
    show_across(now, page, words)
    if (twice := read_twice(now)) is not None:
        page.line(words.twice(twice))
        show_ground(now, page)


def show_ground(now: Now, page: Page) -> None:
    """Where to stand above ground for the head, if that is not what the counter shows."""
    if now.ground is None:
        page.line("In which pipe it is is not sure: locate it before anybody digs.")
        return
    words = Words(now)
    zero = words.datum(now.ground.line)
    above = now.ground.words(words.units, lambda down: zero.point(down, words.length))
    if above:
        page.line(f"{_cap(above)}.")


def _either(now: Now, place: Place, words: Words) -> str:
    """One of two places, and what would come next there: the sighting that tells the two best apart."""
    tracker = now.push.tracker
    ahead = next_landmarks(tracker, on_run(tracker, now.belief, place.line, place.with_flow))
    told = "Then nothing more comes to its end."
    if ahead:
        told = f"Then next: {words.landmark(ahead[0].landmark)}, {words.reading(ahead[0])}."
    where = words.place(place, unseen=ahead[0].landmark.piece if ahead else None)
    looks = "downstream" if place.with_flow else "upstream"
    return f"{where}, looking {looks}: {words.say(place.alone)}. {told}"


def _sure(now: Now) -> bool:
    """True where one line is told alone: it is likely, and so is the way that the lens looks along it."""
    fix, least = now.fix, number(now.push.tracker.chart.where.sure.name_two_below)
    other_way = fix.best.with_flow != (fix.downstream >= 0.5)
    return fix.best.chance >= least and not other_way


def _cap(words: str) -> str:
    return words[:1].upper() + words[1:]
