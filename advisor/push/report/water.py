"""Standing water and what else hid the picture: a find though nobody logged one, and not seen."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from advisor.push.log.kinds import END, FIND, RESET, SIGHTING, START, STOPPED
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.pools import waits
from advisor.push.log.sighting import POOL, Seen, in_words, is_dry, is_wet, sighting_of
from advisor.push.report.advice import Advice
from advisor.push.report.marks import Spot
from advisor.tables.finds import Advised

Words = Callable[[Entry], str]


def pools(
    standing: Iterable[Entry], found: Iterable[Spot], advice: Advice, read: Words
) -> list[tuple[str, Advised, Entry]]:
    """Each place of standing water in words, what is advised, and its entry; not where a find was logged."""
    row = advice.finds.for_find(POOL)
    finds = [spot.counter for spot in found if spot.kind == FIND and spot.counter is not None]
    places: dict[str, Entry] = {}
    for entry in standing:
        told = _seen(entry)
        if told is None or told.kind != POOL:
            continue
        if not any(abs(told.counter - at) <= advice.same_place for at in finds):
            places.setdefault(f"Standing water was seen at {read(entry)}", entry)
    return [] if row is None else [(place, row.on(scales=True), entry) for place, entry in places.items()]


def under_water(standing: Sequence[Entry], read: Words) -> tuple[str, ...]:
    """Where rod went in under water: beside what counts as seen by the counter, in one sentence."""
    places = dict.fromkeys(_wet_from(standing, read).values())
    return (f"What lay under water was not seen: {'; '.join(places)}.",) if places else ()


def _wet_from(standing: Sequence[Entry], read: Words) -> dict[int, str]:
    """At which reading each water was met, by its first entry, and where the picture was free of it again.

    A reading tells where the lens was and no length: the water ends somewhere before the next further in that
    tells none.
    """
    found, last = dict[int, str](), None
    for place, entry in enumerate(standing):
        if entry.kind in (START, RESET):
            last = None
        if entry.counter is None or not is_wet(entry) or (last is not None and entry.counter <= last):
            continue
        last = entry.counter
        until = "where it ended was not told"
        for later in standing[place + 1 :]:
            if later.kind in (START, RESET):  # no counter goes on behind either
                break
            if later.kind in (SIGHTING, STOPPED) and later.counter is not None and later.counter > last:
                ended = bool(later.data.get("dry"))
                if later.kind == SIGHTING and is_dry(later) and (ended or not waits(entry)):
                    until = f"{'it ended' if ended else 'no more'} at {read(later)}"
                    until += "" if ended else ", the next reading"
                    break
                last = later.counter if is_wet(later) else last
        found[entry.number] = f"met at {read(entry)}, and {until}"
    return found


def hidden_words(
    standing: Sequence[Entry], advice: Advice, read: Words, words: Words, told: str = ""
) -> list[str]:
    """What the picture did not show where it was told to have passed, or to be under water; of what ended a
    push its own words, but for what was `told` already."""
    lines, wet = [], _wet_from(standing, read)
    for entry in standing:
        at = f" at {read(entry)}" if entry.counter is not None else ""
        if is_wet(entry):
            where = f", {wet[entry.number]}" if entry.number in wet else at
            lines.append(f"What lay under water was not seen: {words(entry)}{where}.")
        elif advice.finds.is_blind(in_words(entry)):
            if entry.kind != END:
                lines.append(f"Passed without being seen{at}: {words(entry)}.")
                continue
            own = (entry_text(entry, "why"), entry_text(entry, "note"))
            if said := [each for each in own if each and each not in told]:
                lines.append(f"The push ended{at}: {'; '.join(said)}.")
    return list(dict.fromkeys(lines))


def _seen(entry: Entry) -> Seen | None:
    told = sighting_of(entry)
    return told if isinstance(told, Seen) else None
