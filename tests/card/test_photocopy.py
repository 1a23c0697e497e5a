"""A card after the photocopier: black or white at 200 dots an inch, read by a general-purpose OCR program.

Run with `pytest -m slow`; it needs Debian's tesseract-ocr and is skipped, saying so, without it.
"""

from __future__ import annotations

import io
import re
import shutil
import subprocess

import pytest
from PIL import Image
from pypdf import PdfReader

from tests.card.cards import DEMOS, card, printer

FOUND = 0.98  # of the words


@pytest.mark.slow
@pytest.mark.parametrize("stem", DEMOS)
def test_the_words_survive_a_photocopy(stem, tmp_path):
    if shutil.which("tesseract") is None:
        pytest.skip("tesseract is not installed (Debian: tesseract-ocr)")
    fitted = printer().fitted(card(stem, log=False), "letter")
    page = Image.open(io.BytesIO(printer().printed(fitted, None, "letter", "png")))
    copy = tmp_path / "copy.png"
    page.convert("L").point(lambda value: 255 if value > 127 else 0).convert("1").save(copy, dpi=(200, 200))
    read = subprocess.run(
        ["tesseract", str(copy), "-", "--psm", "4"], capture_output=True, check=True, text=True
    ).stdout
    told = PdfReader(io.BytesIO(printer().printed(fitted, None, "letter", "pdf"))).pages[0].extract_text()

    def words(text: str) -> list[str]:
        return [word.lower() for word in re.findall(r"[A-Za-z]{3,}", text)]

    known = set(words(read))
    wanted = words(told)
    share = sum(word in known for word in wanted) / len(wanted)
    print(f"{stem}: {share:.3f} of {len(wanted)} words", [w for w in wanted if w not in known])
    assert share >= FOUND
