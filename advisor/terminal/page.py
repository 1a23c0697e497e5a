"""A plain page for the terminal: headings, numbered steps, boxes and tables in black and white."""

from __future__ import annotations

import sys

from rich import box
from rich.console import Console
from rich.padding import Padding
from rich.panel import Panel
from rich.table import Table
from rich.text import Text

from advisor.errors import printable
from advisor.rulebase.rule import GRAVE
from advisor.terminal.called import as_called

WIDEST = 100
# What is said instead where a terminal lacks the sign.
_IN_WORDS = {"°": " deg", "×": "x", "–": "-", "→": "->", "½": "1/2"}


class _Console(Console):
    def on_broken_pipe(self) -> None:
        """Leave it to whoever runs the command: a reader that has seen enough is no fault."""
        raise BrokenPipeError


class Page:
    """Writes to the terminal; user text is never read as markup and never raw."""

    def __init__(self) -> None:
        for stream in (sys.stdout, sys.stderr):
            # An ASCII or cp437 terminal gets a question mark for a sign it lacks, never a crash.
            if hasattr(stream, "reconfigure"):
                stream.reconfigure(errors="replace")
        self.console = _Console(highlight=False, markup=False, color_system=None, emoji=False)
        if self.console.width > WIDEST:
            self.console.width = WIDEST
        self.told_whole: set[str] = set()  # warnings that need not be told word for word again

    @property
    def narrow(self) -> bool:
        """True where a table of several columns has no room."""
        return self.console.width < 60

    def text(self, words: str, style: str = "") -> Text:
        """Words as they can be shown here: never as markup, never raw, signs that are missing in words."""
        shown = printable(as_called(words))
        for sign, instead in _IN_WORDS.items():
            if sign in shown and not self._has(sign):
                shown = shown.replace(sign, instead)
        return Text(shown, style=style)

    def _has(self, sign: str) -> bool:
        try:
            sign.encode(self.console.encoding)
        except UnicodeEncodeError:
            return False
        return True

    def heading(self, words: str) -> None:
        """A heading with a blank line before it."""
        self.console.print()
        self.console.print(self.text(words.upper(), "bold"))

    def line(self, words: str = "", indent: int = 2) -> None:
        """One paragraph."""
        self.console.print(Padding(self.text(words), (0, 0, 0, indent)))

    def strong(self, words: str, indent: int = 2) -> None:
        """One paragraph that stands out."""
        self.console.print(Padding(self.text(words, "bold"), (0, 0, 0, indent)))

    def as_is(self, lines: list[str]) -> None:
        """Lines that this page has laid out before: styles and all, not folded again."""
        self.console.file.write("".join(f"{line}\n" for line in lines))
        self.console.file.flush()

    def steps(self, items: list[str], indent: int = 2, mark: str | None = None) -> None:
        """Numbered steps, or marked ones."""
        for number, item in enumerate(items, start=1):
            table = Table.grid(padding=(0, 1))
            table.add_column(width=len(mark) if mark else 3, justify="right")
            table.add_column()
            table.add_row(Text(mark or f"{number}."), self.text(item))
            self.console.print(Padding(table, (0, 0, 0, indent)))

    def boxed(self, word: str, texts: list[str]) -> None:
        """A box with a signal word: for what can hurt somebody."""
        body = self.text("\n".join(texts))
        shape = box.HEAVY if word in GRAVE else box.SQUARE
        if not self.console.encoding.lower().startswith("utf"):
            shape = box.ASCII
        panel = Panel(body, title=Text(word.upper(), style="bold"), title_align="left", box=shape)
        self.console.print(Padding(panel, (0, 0, 0, 2)))

    def table(self, header: list[str], rows: list[list[str]], right: frozenset[int] = frozenset()) -> None:
        """A table; on a narrow screen each row becomes a short list."""
        if self.narrow:
            for row in rows:
                self.strong(row[0])
                for name, cell in zip(header[1:], row[1:], strict=True):
                    self.line(f"{name}: {cell}", indent=4)
            return
        ascii_only = not self.console.encoding.lower().startswith("utf")
        table = Table(box=box.ASCII2 if ascii_only else box.SIMPLE_HEAD, padding=(0, 1), pad_edge=False)
        for index, name in enumerate(header):
            table.add_column(self.text(name), justify="right" if index in right else "left", overflow="fold")
        for row in rows:
            table.add_row(*(self.text(cell) for cell in row))
        self.console.print(Padding(table, (0, 0, 0, 2)))
