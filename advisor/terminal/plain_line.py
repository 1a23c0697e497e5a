"""A line outside any page, as a fault: whole into a file or a pipe, on a terminal broken between words."""

from __future__ import annotations

import shutil
import sys
from textwrap import wrap
from typing import TextIO

from advisor.terminal.called import as_called


def complain(words: str) -> None:
    """Say on stderr what is wrong or left out."""
    say(words, sys.stderr)


def say(words: str, stream: TextIO | None = None) -> None:
    """Say it, on stdout unless told otherwise; a word longer than the terminal is wide stays whole."""
    stream = stream or sys.stdout
    print(folded(as_called(words), stream), file=stream)


def folded(words: str, stream: TextIO) -> str:
    """The words as they go there."""
    if not stream.isatty():
        return words
    width = shutil.get_terminal_size().columns
    rows = (
        wrap(row, width, subsequent_indent="  ", break_long_words=False, break_on_hyphens=False)
        for row in words.split("\n")
    )
    return "\n".join("\n".join(each) for each in rows)
