"""Every exception of the advisor, and what a caller may do about it.

AdvisorError                 anything that this program raises on purpose
├── QuantityError            a piece of text is not the quantity that was asked for
├── BadInput                 one or more faults in what the user wrote; carries every fault at once
└── InputEnded               nobody can answer any more; says what was kept and how to go on

What cannot be judged (an unknown fitting, a route past every stopper) is a result, not an exception.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from json import dumps


class AdvisorError(Exception):
    """Anything that this program raises on purpose."""


class QuantityError(AdvisorError):
    """A piece of text is not the quantity that was asked for; the message says what would be."""


@dataclass(frozen=True)
class Slip:
    """Where in a file's tree a fault stands, and what to take instead so that the rest can be read on."""

    path: tuple[str | int, ...]
    value: str | None = "unknown"  # in place of what is written there; None: nothing belongs there
    entry: str | None = None  # where the entry's own name is misspelt: the one that was meant
    mends: bool = True  # False where anything else in its place would be at odds with the rest


@dataclass(frozen=True, order=True)
class Fault:
    """One thing wrong in one place of a file."""

    file: str
    line: int
    message: str
    slip: Slip | None = field(default=None, compare=False, repr=False)

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        return printable(f"{place}: {self.message}").replace("\n", " ")


class BadInput(AdvisorError):
    """Faults in a file or an option, all found at once, in the order of the file."""

    def __init__(self, faults: list[Fault]) -> None:
        self.faults = sorted(set(faults))
        super().__init__("\n".join(str(fault) for fault in self.faults))


class InputEnded(AdvisorError):
    """The input ended while a question was open; the message says what was kept and how to go on."""


def printable(text: str) -> str:
    """The text with control, bidi and zero-width characters shown as escapes.

    Sheets are other people's text: an escape sequence must never reach a terminal or a card raw.
    """
    return "".join(c if c.isprintable() or c == "\n" else f"\\u{ord(c):04x}" for c in text)


def printable_json(text: str) -> str:
    """JSON that reads back as the same, with nothing in it that a terminal would obey."""
    return "".join(c if c.isprintable() or c == "\n" else dumps(c)[1:-1] for c in text)


def cell(text: str) -> str:
    """The text as a cell of a table that a spreadsheet opens: printable, and never taken for a formula."""
    shown = printable(text).replace("\n", " ")
    return f"'{shown}" if shown.lstrip().startswith(("=", "+", "-", "@")) else shown
