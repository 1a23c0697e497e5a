"""A typst source and its data to a page, by the typst library alone: no network, no fonts of the machine.

Text of users travels as data (`sys.inputs`), never in the source, so that it cannot be read as markup.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import typst

_HEIGHT = re.compile(rb'<svg [^>]*height="([0-9.]+)pt"')
FONTS = Path(__file__).parent / "font"  # DejaVu Sans in its condensed width


class Press:
    """Sets one source again and again; what did not change between two settings is not worked out anew."""

    def __init__(self, source: str) -> None:
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS])
        self._compiler = typst.Compiler(root=FONTS, font_paths=fonts)
        self._source = source.encode()

    def height(self, data: Mapping[str, str]) -> float:
        """How high the first page is, in points; one without an end is as high as what stands on it."""
        found = _HEIGHT.search(self.svg(data)[0])
        assert found is not None
        return float(found[1])

    def pdf(self, data: Mapping[str, str]) -> bytes:
        """A tagged PDF after PDF/UA-1; it bears no date, so that the same data gives the same bytes."""
        made = self._compiler.compile(
            self._source, format="pdf", sys_inputs=dict(data), pdf_standards="ua-1", timestamp=0
        )
        assert isinstance(made, bytes)
        return made

    def png(self, data: Mapping[str, str], dots_per_inch: float = 200) -> list[bytes]:
        """Each page as a picture."""
        return _many(
            self._compiler.compile(self._source, format="png", ppi=dots_per_inch, sys_inputs=dict(data))
        )

    def svg(self, data: Mapping[str, str]) -> list[bytes]:
        """Each page as a drawing."""
        return _many(self._compiler.compile(self._source, format="svg", sys_inputs=dict(data)))


def _many(made: bytes | list[bytes] | None) -> list[bytes]:
    assert made is not None
    return made if isinstance(made, list) else [made]
