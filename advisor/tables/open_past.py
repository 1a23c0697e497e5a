"""How much of a pipe is open past what lies in it, as whoever saw it told: in the words that a log keeps."""

from __future__ import annotations

NEARLY_ALL = "nearly all of the pipe open"
MOST = "more than two thirds of the pipe open"
LITTLE = "less than two thirds of the pipe open"
HARDLY = "hardly any of the pipe open"
CANNOT_TELL = "it may fill the pipe"  # nobody could tell
OPEN_PAST = (NEARLY_ALL, MOST, LITTLE, HARDLY, CANNOT_TELL)

FILLS = (LITTLE, HARDLY, CANNOT_TELL)  # a third or more is shut, or may be: as in the words of `filled`


def with_open(what: str, past: str | None) -> str:
    """What was found with how much it leaves open, where that was told."""
    return f"{what}, {past}" if past else what
