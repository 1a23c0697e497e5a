"""What a card says of the world outside the pipe: taps that tell where the head is, marks above it."""

from __future__ import annotations

from advisor.card import worth
from advisor.card.content import Line
from advisor.quantity import Dimension, Units, show, show_counter, show_reading
from advisor.result.beyond import NOT_PAST
from advisor.result.model import RouteNote
from advisor.result.readings import at_opening
from advisor.result.way_model import FoundNote
from advisor.tables.card import ENDS, PERHAPS, CardFile
from advisor.tables.conditions import ROOTS

_UPRIGHT = 0.05  # m of the way that stand upright: less is no difference to where one stands


def tap_lines(route: RouteNote, units: Units) -> list[Line]:
    """Where the water of each tap comes in."""
    found = []
    for tap in route.taps:
        comes = "from behind" if tap.from_behind else "toward you"
        at = show_reading(tap.at_m, units)
        if tap.beyond_end:
            at += ", beyond the end"
        found.append(Line(f"Run {tap.fixture}: enters at {at}, then flows {comes}.", worth.TAP))
    return found


def mark_lines(route: RouteNote, bar: FoundNote | None, units: Units, words: CardFile) -> list[Line]:
    """One mark at a place, and how marks are made: on a way that ends at a `bar` none behind it, and that of
    the bar, which the push may be for."""
    found, marked = [], set[str]()
    perhaps = {each.at_m: each.name for each in route.sights if each.sight == PERHAPS}
    for note in route.sights:
        # An opening with its throat is in view.
        hard = note.hard is not None and note.at_m >= route.down_m - _UPRIGHT
        marks = hard or note.sight in ("target", *ENDS, *NOT_PAST, "into main")
        if note.behind or not marks or (bar is not None and note.at_m > bar.at_m):
            continue
        at = show(note.at_m, Dimension.LENGTH, units)
        # Roots stand at a joint that nobody knows, plain pipe may hold anywhere: no place of theirs to mark.
        if (
            note.sight == ROOTS
            or note.somewhere
            or not note.level
            or note.indoors
            or at_opening(note)
            or at in marked
        ):
            continue
        marked.add(at)
        text = f"Mark {show_reading(note.at_m, units)}: {note.name}"
        if note.at_m - note.along_m >= _UPRIGHT:
            text += f", {show(note.along_m, Dimension.LENGTH, units)} along the line above ground"
        if note.depth_m is not None and note.depth_m > 0:
            sure = "" if note.depth_measured else " (assumed)"
            text += f", about {show(note.depth_m, Dimension.LENGTH, units)} deep{sure}"
        name = perhaps.get(note.at_m)
        seen = f" {words.only_if_seen.format(name=name)}" if name else ""
        found.append(Line(f"{text}.{seen}", worth.MARK))
    if bar is not None and (told := _at_bar(route, bar, units)):
        found.append(Line(told, worth.ORDERED_MARK if bar.instead else worth.MARK))
    return found + [Line(text, worth.MARK) for text in words.locating if found]


def _at_bar(route: RouteNote, bar: FoundNote, units: Units) -> str:
    """The mark over what ends the way, by what stands upright as far as the last thing in view before it."""
    before = [note for note in route.sights if note.at_m <= bar.at_m and not note.behind]
    last = max(before, key=lambda note: note.at_m, default=None)
    if bar.at_opening or (last is not None and (last.indoors or not last.level)):
        return ""
    text = f"Mark {show_counter(bar.at_m, units)}: {bar.what}"
    # In the throat itself not all of the way down is behind the head yet.
    upright = max(route.down_m, last.at_m - last.along_m if last is not None else 0.0)
    if upright >= _UPRIGHT:
        # To the tenth, as push and report tell that spot: rounded it may read as the limit before it.
        text += f", {show_counter(bar.at_m - upright, units)} along the line above ground"
    at, low = (show_reading(each, units) for each in (bar.at_m, bar.at_low_m))
    limit = "" if at == low else f": no further than {low}"
    return f"{text}. The head stays before it{limit}."
