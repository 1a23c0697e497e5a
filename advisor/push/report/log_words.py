"""One entry of the log in plain words, with everything that it says."""

from __future__ import annotations

from dataclasses import replace

from advisor.push.learn.turn_words import turn_words
from advisor.push.log.kinds import (
    END,
    HAD_OUT,
    KINDS,
    LOOKED,
    OFFERED,
    SHUT,
    SIGHTING,
    STOPPED,
    TRY,
    UNDO,
    WATER,
)
from advisor.push.log.log import Entry, entry_number
from advisor.push.log.sign_words import sign_words
from advisor.push.now.datum import Datum
from advisor.push.report.log_datum import ALONG
from advisor.push.report.words import OUTCOME_WORDS, SEEN, lengths, said, technique_words
from advisor.quantity import Units
from advisor.tables.stuck import StuckFile

# Where nothing stands here, a value is told behind its own name.
_PHRASES = {
    "opening": "in at {}",
    "direction": "direction {}",
    "mouth": "into the mouth of {}",
    "found": "found to lead {} before",
    "loadout": "with {}",
    "target": "to see {}",
    "sheet": "by version {} of the sheet",
    "operator": "pushed by {}",
    "told": "told before: {}",
    "drains": "seen to run away: {}",
    "what": "{}",
    "text": "{}",
    "name": "{}",
    "technique": "{}",
    "open": "{}",
    "clock": "at {} on the clock face",
    "line": "on {}",
    "distance": "by the sheet {}",  # what the counter has stands before it
    "material": "to {}",
    "size": "about {} wide",
    "spot": "at the {}",
    "way": "fitting: {}",
    "force": "{} push",
    "water": "water: {}",
    "book": "one try passes in {} by the book",
    "fixture": "run at {}",
    "seconds": "it came after {}",
    "side": "from {} the lens",
    "sign": "seen: {}",
    "feel": "felt: {}",
    "to": "to {} in",
    "brought": "came back: {}",
    "stood": "the picture stood from {} on",
    "now": "set to {}",
    "sure": "{} sure of the pipe",
    "low": "by the sheet {} at the least",
    "high": "{} at the most",
    "past": "counted from {}",
    "run": "{} more than there by the counter",
    "off": "{} either way",
    "near": "signal low over the spot {}",
    "far": "signal raised {}",
    "raised": "raised by {}",
    "spacing": "{} from null to null",
    "receiver": "coil {} over the ground",
    "offset": "{} from lens to transmitter",
    "tape_a": "first tape from {}",
    "from_a": "{} long",
    "tape_b": "second tape from {}",
    "from_b": "{} long",
    "between": "{} between the two",
    "why": "why: {}",
}
_ENDS = ("low", "high")
_EITHER_SIDE = {"low": "by the sheet from {}", "high": "to {}"}  # up the line the one, down it the other
_FIRST = ("what", "text", "name", "technique", "fixture")
_FLAGS = {
    ("dye", True): "with dye",
    ("dye", False): "without dye",
    ("drains", True): "seen to run away",
    ("drains", False): "it stood or rose",
    ("planned", True): "as planned",
    ("planned", False): "not as planned",
    ("outside", True): "all of the rod drawn out for it",
    ("outside", False): "the rod not known to be out for it",
    ("free", True): "told to come back again",
    ("free", False): "told to be held still",
    ("dry", True): "the standing water ended there",
    ("dry", False): "its end was not seen",
    ("somewhere", True): "somewhere between the two",
    ("upright", True): "in a riser",
    ("upright", False): "not in a riser",
    ("anew", True): "led in anew",
    ("renewed", True): "what kinked said to be sound again",
    ("looked", True): "head, spring and coupling said to be looked at and sound",
    ("out", True): "all of it is out",
    ("out", False): "the head stays in the pipe",
    ("reached", True): "target reached",
    ("reached", False): "target not reached",
}
_KINDS = {
    SHUT: "does not open",
    HAD_OUT: "head and rod had out",
    LOOKED: "looked whether it drains",
    STOPPED: "went no further",
    TRY: "tried",
    OFFERED: "advised",
    END: "ended",
    UNDO: "taken back",
}


def kind_words(entry: Entry) -> str:
    """What kind of entry it is."""
    return _KINDS.get(entry.kind, entry.kind)


def told_words(entry: Entry, units: Units, table: StuckFile, datum: Datum | None = None) -> str:
    """Everything that the entry says, phrase after phrase; lengths in those units, signs by `table`.

    `datum`: from where lengths along a line count; else from its upper end.
    """
    # Not in the order of the file: what it is first, then as the kinds of entry list it.
    listed = (*_FIRST, *KINDS.get(entry.kind, ()), *entry.data)
    hidden = {"distance"} if entry.data.get("somewhere") else set()  # as on the screen: the span alone
    names = [name for name in dict.fromkeys(listed) if name in entry.data and name not in hidden]
    zero = datum or Datum("", 0.0, "", used=False, sure=True)
    entry = _from_there(entry, zero)
    # Of water that was run it is always told whether it came: that it did not is what was seen.
    came = entry.kind != WATER or entry.data.get("seconds") is not None
    told = [_phrase(entry, name, units, table, zero) for name in names if came or name != "seconds"]
    return "; ".join(told if came else (*told[:1], "not seen to come", *told[1:]))


def _from_there(entry: Entry, zero: Datum) -> Entry:
    """With the least of its lengths along the line as low: the log has them from the line's upper end."""
    low, high = (entry_number(entry, name) for name in _ENDS)
    if low is None or high is None or max(low, high) > zero.at:
        return entry
    near, far = max(low, high), min(low, high)
    return replace(entry, data={**entry.data, "low": near, "high": far})


def _on_either_side(entry: Entry, zero: Datum) -> bool:
    low, high = (entry_number(entry, name) for name in _ENDS)
    return low is not None and high is not None and low < zero.at < high


def _phrase(entry: Entry, name: str, units: Units, table: StuckFile, zero: Datum) -> str:
    value = entry.data[name]
    if isinstance(value, bool) and (name, value) in _FLAGS:
        return _FLAGS[name, value]
    text = said(entry, name, units)
    if name in ALONG and isinstance(value, float | int):
        text = zero.point(value, lengths(units), "it")
    if entry.kind == SHUT:
        return text
    if entry.kind == HAD_OUT:
        return f"in from {text}" if name == "opening" else f"left in by the push of entry {text}"
    if name == "technique":
        text = technique_words(entry)
    elif name == "way":
        text = turn_words(text)
    elif name == "loadout" and entry.kind == TRY:
        text = _rigged(text, entry, table)
    elif name == "run" and isinstance(value, float | int) and value < 0:
        return f"{text.removeprefix('-')} less than there by the counter"
    elif name in ("sign", "feel"):
        text = sign_words(text.split(", "), table)
    elif name == "outcome":
        return OUTCOME_WORDS.get(text, text)
    elif name == "what" and entry.kind == SIGHTING:
        text = SEEN.get(text, text)
    elif name == "of" and entry.kind == UNDO:
        return f"entry {text}"
    elif name in _ENDS and _on_either_side(entry, zero):
        return _EITHER_SIDE[name].replace("{}", text)
    return _PHRASES.get(name, f"{name.replace('_', ' ')} {{}}").replace("{}", text)


def _rigged(loadout: str, entry: Entry, table: StuckFile) -> str:
    """With what was put on it outside for that try: the loadout is what the push began with."""
    on_it = entry.data.get("technique")
    added = entry.data.get("outside") is True and on_it in table.rigged_outside.techniques
    return f"{loadout}, {on_it} on it" if added and not loadout.endswith(f" + {on_it}") else loadout
