"""A report as plain text, as one HTML file, and as PDF; black on white, nothing fetched from anywhere."""

from __future__ import annotations

import json
import re
from html import escape
from pathlib import Path
from textwrap import fill

from advisor.paper.typeset import Press
from advisor.push.report.parts import Report, Section

WIDE = 78  # letters of a line of plain text
_NO_BREAK = "\u00a0"
_UNIT = re.compile(r"(?<=[0-9]) (?=(?:mm|cm|m|ft|in)\b|%)")
_STYLE = (
    "body{font:16px/1.4 sans-serif;color:#000;background:#fff;max-width:46em;margin:1em auto;padding:0 1em}"
    "table{border-collapse:collapse;width:100%}td,th{border:1px solid #000;padding:.3em;text-align:left;"
    "vertical-align:top}.strong{border:2px solid #000;padding:0 .7em}svg{max-width:100%;height:auto}"
)


def text_of(report: Report) -> str:
    """The report in letters alone; a table becomes a list, so that it reads at any width."""
    parts = [report.title, report.subtitle, ""]
    for section in report.sections:
        parts += ["", section.heading.upper()]
        for row in section.rows:
            cells = [f"{name}: {cell}" for name, cell in zip(section.header, row, strict=True) if cell]
            parts.append(_folded(" | ".join(cells), "- "))
        parts += [_folded(line, "") for line in section.lines]
        if section.sketch is not None:
            parts.append(_folded("The sketch is in the PDF and HTML forms of this report.", ""))
    return "\n".join(parts) + "\n"


def _folded(line: str, mark: str) -> str:
    indent = " " * len(mark)
    folded = fill(_bound(line), WIDE, initial_indent=mark, subsequent_indent=indent, break_on_hyphens=False)
    return folded.replace(_NO_BREAK, " ")


def _bound(text: str) -> str:
    """The same with no line ending between a number and its unit."""
    return _UNIT.sub(_NO_BREAK, text)


def html_of(report: Report) -> str:
    """The report as one file that needs no other."""
    body = [f"<h1>{escape(report.title)}</h1><p>{escape(report.subtitle)}</p>"]
    body += [_html_section(section) for section in report.sections]
    head = f'<meta charset="utf-8"><title>{escape(report.title)}</title><style>{_STYLE}</style>'
    # Whatever the text holds, the page may load and run nothing.
    policy = "default-src 'none'; style-src 'unsafe-inline'"
    guard = f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
    lang = '<!DOCTYPE html><html lang="en">'
    return f"{lang}<head>{guard}{head}</head><body>{''.join(body)}</body></html>\n"


def _html_section(section: Section) -> str:
    parts = [f"<h2>{escape(section.heading)}</h2>"]
    if section.rows:
        head = "".join(f'<th scope="col">{escape(name)}</th>' for name in section.header)
        rows = ("".join(f"<td>{escape(cell)}</td>" for cell in row) for row in section.rows)
        parts.append(f"<table><tr>{head}</tr>{''.join(f'<tr>{row}</tr>' for row in rows)}</table>")
    parts += [f"<p>{escape(line)}</p>" for line in section.lines]
    if section.sketch is not None:
        words = escape(section.sketch.words, quote=True)
        parts.append(
            f'<figure role="img" aria-label="{words}">{section.sketch.svg}<figcaption>{words}</figcaption>'
        )
        parts.append("</figure>")
    inside = "".join(parts)
    return f'<section class="strong">{inside}</section>' if section.strong else f"<section>{inside}</section>"


def pdf_of(report: Report, paper: str) -> bytes:
    """The report as a tagged PDF on `a4` or `letter`; its text is data and is never read as markup."""
    return press().pdf(data_of(report, paper))


def press() -> Press:
    """What sets the pages."""
    return Press((Path(__file__).parent / "report.typ").read_text(encoding="utf-8"))


def data_of(report: Report, paper: str) -> dict[str, str]:
    """The report as the setter takes it."""
    sections = [
        {
            "heading": section.heading,
            "lines": [_bound(line) for line in section.lines],
            "header": section.header,
            "rows": [[_bound(cell) for cell in row] for row in section.rows],
            "strong": section.strong,
            "sketch": section.sketch.svg if section.sketch else None,
            "words": section.sketch.words if section.sketch else None,
        }
        for section in report.sections
    ]
    whole = {"title": report.title, "subtitle": report.subtitle, "paper": paper, "sections": sections}
    return {"report": json.dumps(whole)}
