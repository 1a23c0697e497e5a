"""Black and white drawings for the docs, written as text: lines, shapes and words, in pixels."""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape

Point = tuple[float, float]
LETTER = 7.2  # px, about, of a letter of 13 px


class Drawing:
    """Grows mark by mark; `text()` is the whole."""

    def __init__(self, wide: float, high: float, title: str) -> None:
        self.wide, self.high, self.title = wide, high, title
        self.marks: list[str] = []

    def line(self, points: Iterable[Point], width: float = 1.5, dash: str = "", arrow: bool = False) -> None:
        """A line through the points."""
        path = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
        more = f' stroke-dasharray="{dash}"' if dash else ""
        more += ' marker-end="url(#arrow)"' if arrow else ""
        self.marks.append(
            f'<polyline points="{path}" fill="none" stroke="black" stroke-width="{width}"{more}/>'
        )

    def shape(self, points: Iterable[Point], fill: str = "white", width: float = 1.5) -> None:
        """A closed shape."""
        path = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
        self.marks.append(f'<polygon points="{path}" fill="{fill}" stroke="black" stroke-width="{width}"/>')

    def box(self, x: float, y: float, wide: float, high: float, fill: str = "white") -> None:
        """An upright rectangle."""
        self.shape([(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)], fill)

    def words(
        self, x: float, y: float, text: str, anchor: str = "start", size: float = 13, bold: bool = False
    ) -> None:
        """A line of words; `y` is their foot."""
        more = ' font-weight="bold"' if bold else ""
        self.marks.append(
            f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" text-anchor="{anchor}"{more}>'
            f"{escape(text)}</text>"
        )

    def text(self) -> str:
        """The file."""
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.wide:g} {self.high:g}" '
            f'width="{self.wide:g}" height="{self.high:g}" font-family="sans-serif" role="img">\n'
            f"<title>{escape(self.title)}</title>\n"
            '<defs><marker id="arrow" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="8" markerHeight="8" '
            'orient="auto"><path d="M0,0 L8,4 L0,8 z"/></marker></defs>\n'
            f'<rect width="{self.wide:g}" height="{self.high:g}" fill="white"/>\n'
        )
        return head + "\n".join(self.marks) + "\n</svg>\n"
