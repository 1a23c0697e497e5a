"""The landmark before the lens by its name, and the one that comes next."""

from __future__ import annotations

from dataclasses import replace
from math import log

from advisor.push.before.limit import Limit
from advisor.push.log.sighting import CHAMBER, POOL, Seen
from advisor.push.now.ahead import Ahead, if_not_seen, next_landmarks
from advisor.push.now.light import light_above
from advisor.push.now.now import Now
from advisor.push.now.since import read_at
from advisor.push.stop_ahead import StopAhead, bar_ahead
from advisor.push.track.fix import Named, called, on_no_sheet
from advisor.push.track.landmarks import Landmark
from advisor.push.track.undrawn_bend import BEND
from advisor.result.spots import cautions_of
from advisor.tables.where import number
from advisor.terminal.page import Page
from advisor.terminal.push.material import change_seen
from advisor.terminal.push.not_past import stop_name
from advisor.terminal.push.words import Words

TANK_GAS = "septic-tank"  # the caution that a job with a tank has


def show_seen(limit: Limit, now: Now, page: Page, words: Words) -> None:
    """What the landmark is that was told last; how to go on in a pool only where anybody goes on."""
    found, last = _called(now), now.sightings[-1] if now.sightings else None
    if found is not None and isinstance(last, Seen):
        what, slip = change_seen(found.landmark, last, now, words) or (words.landmark(found.landmark), None)
        page.line(f"That is: {what}. {_cap(words.say(found.chance))}.")
        if slip:
            page.line(slip, indent=4)
        _other_size(now, found.landmark, page, words)
    elif isinstance(last, Seen):
        page.line(_not_drawn(now, last, words) or "No landmark of the map is sure to be that.")
    _show_light(now, page, words)
    if (
        isinstance(last, Seen)
        and last.kind == POOL
        and now.drains is not False
        and not (limit.past or limit.at)
    ):
        page.line(now.push.study.tables.where.in_water.says)


def _not_drawn(now: Now, last: Seen, words: Words) -> str | None:
    """A bend that is most likely on no sheet; of a tie-in the water test tells more."""
    chance = on_no_sheet(now.push.tracker, now.belief, last)
    if last.kind != BEND or chance < number(now.push.study.tables.where.sure.name_landmark):
        return None
    return f"That is: a bend that the sheet does not draw. {_cap(words.say(chance))}."


def _show_light(now: Now, page: Page, words: Words) -> None:
    """Light from above that no chamber of the map is sure to be, until the head is drawn back from it."""
    light = light_above(now)
    if light is None:
        return
    last = now.sightings[-1]
    row, here = now.push.study.tables.where.light_above, isinstance(last, Seen) and last.kind == CHAMBER
    page.line(row.says if here else row.past.format(reading=words.length(now.counted(light))))
    for note in cautions_of(now.push.study.site_firings):
        if note.id == TANK_GAS:
            page.line(row.tank)
            if here:
                page.boxed(note.word, [note.text])


def _other_size(now: Now, mark: Landmark, page: Page, words: Words) -> None:
    """Where the size that was told is not the one on the sheet."""
    told, last = now.push.tracker.chart.where.size, now.sightings[-1]
    size = last.size if isinstance(last, Seen) else None
    if size and mark.size and abs(log(size / mark.size)) > number(told.spread):
        sizes = f"The sheet has it {words.size(mark.size)} wide, not {words.size(size)}."
        page.line(f"{sizes} A slip of the key? u takes it back.", indent=4)


def _called(now: Now) -> Named | None:
    """What was told last, where it is a landmark that can be called by its name."""
    last = now.sightings[-1] if now.sightings else None
    return called(now.push.tracker, now.belief, last) if isinstance(last, Seen) else None


def next_seen(now: Now) -> Ahead | None:
    """The landmark that most likely comes next; not the one that is before the lens."""
    before_lens = _called(now)
    seen = None if before_lens is None else before_lens.landmark.piece
    ahead = next_landmarks(now.push.tracker, now.belief)
    return next((each for each in ahead if each.landmark.piece != seen), None)


def show_next(limit: Limit, now: Now, page: Page, words: Words) -> None:
    """What comes next, and what it means not to see it; at what must not be passed only the way back."""
    if limit.nothing_ahead:
        page.line(now.push.study.tables.where.not_past.next)
        return
    following, bar = next_seen(now), bar_ahead(now)
    if following is None:
        page.line("Next: nothing that the map shows." if bar is None else _to_bar(bar, now, words))
        return
    if (before := read_at(now, following.landmark)) is not None and before[0] > now.counter:
        # It was read in this push: that reading tells better than any length of the sheet.
        at, off = before
        mark = replace(following.landmark, there=1.0)
        following = replace(
            following, landmark=mark, low=max(at - off, now.counter), likely=at, high=at + off
        )
    if bar is not None and following.likely >= bar.reading:
        page.line(_to_bar(bar, now, words))
        return
    if bar is not None:
        following = replace(following, high=min(following.high, bar.reading))
    stop = limit.stop
    if stop is not None and stop.piece.id == following.landmark.piece.id:
        following = replace(following, low=min(stop.low, following.low))
    page.line(f"Next: {words.ahead(following)}.")
    if stop is not None and now.counter >= stop.low:
        return  # nobody goes past any reading there unless the lens shows open pipe
    if stop is not None and stop.low <= following.high:
        # One limit on a screen: where that may begin, not where the landmark should have come at the latest.
        told = now.push.study.tables.where.not_past.unseen
        page.line(told.format(reading=words.length(stop.low), name=stop_name(limit, words)), indent=4)
        return
    if bar is not None and following.high >= bar.reading:
        return  # nobody goes past that stop to find out
    then = if_not_seen(now.push.tracker, now.belief, following)
    passed = words.length(following.high)
    here, best = now.fix.best, then.best
    if then.off_map > best.chance:
        means = "this may be a pipe that is not on your map"
    elif (best.line, best.with_flow) == (here.line, here.with_flow):
        doubted = following.landmark.there < 1
        means = "it is not there, or it was missed" if doubted else "it was missed, most likely"
    else:
        means = f"this is rather {words.place(best, then.rod, following.landmark.piece)}"
    page.line(f"Past {passed} without it: {means}.", indent=4)


def _to_bar(bar: StopAhead, now: Now, words: Words) -> str:
    told = now.push.study.tables.in_pipe.found_before.next_stop
    return told.format(reading=words.length(bar.reading))


def _cap(words: str) -> str:
    return words[:1].upper() + words[1:]
