"""Standing water and what else hid the picture: a find though nobody logged one, and not seen."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from advisor.push.advice import Advice
from advisor.push.kinds import FIND
from advisor.push.log import Entry
from advisor.push.marks import Spot
from advisor.push.sighting import POOL, TRAP, Seen, sighting_of, sign_names
from advisor.tables.finds import Advised

_OVER_LENS = "water over the lens"  # the sign of a stop
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


def under_water(standing: Iterable[Entry], read: Words) -> tuple[str, ...]:
    """Where rod went in under water: beside what counts as seen by the counter, in one sentence."""
    places = dict.fromkeys(read(entry) for entry in standing if entry.counter is not None and _is_wet(entry))
    return (f"What lay under water there was not seen: {' and '.join(places)}.",) if places else ()


def hidden_words(standing: Iterable[Entry], advice: Advice, read: Words, words: Words) -> list[str]:
    """What the picture did not show where it was told to have passed, or to be under water."""
    lines = []
    for entry in standing:
        at = f" at {read(entry)}" if entry.counter is not None else ""
        if _is_wet(entry):
            lines.append(f"What was under water{at} was not seen: {words(entry)}.")
        elif advice.finds.is_blind(" ".join(str(v) for v in entry.data.values() if isinstance(v, str))):
            lines.append(f"Passed without being seen{at}: {words(entry)}.")
    return list(dict.fromkeys(lines))


def _seen(entry: Entry) -> Seen | None:
    told = sighting_of(entry)
    return told if isinstance(told, Seen) else None


def _is_wet(entry: Entry) -> bool:
    told = _seen(entry)
    return (told is not None and told.kind in (POOL, TRAP)) or _OVER_LENS in sign_names(entry)
