"""What a report is made of: sections of lines, tables and sketches, every text printable."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.errors import printable
from advisor.push.report.sketch import Sketch


@dataclass(frozen=True)
class Section:
    """A heading with lines below it, perhaps a table, perhaps a sketch."""

    heading: str
    lines: tuple[str, ...] = ()
    header: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    sketch: Sketch | None = None
    strong: bool = False


@dataclass(frozen=True)
class Report:
    """A title and sections in order; every text is printable."""

    title: str
    subtitle: str
    sections: tuple[Section, ...]


def clean(section: Section) -> Section:
    """The same with every text printable on one line each."""

    def plain(text: str) -> str:
        return " ".join(printable(text).split())

    return Section(
        section.heading,
        tuple(map(plain, section.lines)),
        section.header,
        tuple(tuple(map(plain, row)) for row in section.rows),
        section.sketch,
        section.strong,
    )
