"""What every made page of the docs shares: where it lies, its first line and its tables."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DOCS, RULES = ROOT / "docs", ROOT / "rules"
MADE = "Made from `rules/` by `python -m tests.architecture.generate_docs`; do not edit by hand.\n\n"


def table(head: str, rows: Iterator[tuple[str, ...]]) -> str:
    columns = head.split(", ")
    text = f"| {' | '.join(columns)} |\n|{'---|' * len(columns)}\n"
    for row in rows:
        cells = (" ".join(cell.split()).replace("|", "\\|") for cell in row)
        text += f"| {' | '.join(cells)} |\n"
    return text
