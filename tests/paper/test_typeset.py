"""What is printed: the same bytes each time, the carried font only, and user text never read as markup."""

from __future__ import annotations

import io
import json
import subprocess
import sys

import pytest
import typst
from pypdf import PdfReader

from advisor.paper.typeset import FONTS, Press

SOURCE = """
#set document(title: "a page", date: none)
#set page(width: 8.5in, height: 11in, margin: 0.5in)
#set text(font: "DejaVu Sans", size: 12pt, lang: "en")
#let given = json(bytes(sys.inputs.given))
#for line in given [#par(line)]
"""
HOSTILE = '*b* _i_ #panic("x") [y] $z$ <a> \\ // /* = - + / @r "q" \'s\' `c` #image("/etc/passwd") <svg>&amp;'


def data(*lines: str) -> dict[str, str]:
    return {"given": json.dumps(lines)}


def text_of(pdf: bytes) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


def test_text_of_users_is_printed_as_it_stands():
    assert HOSTILE in text_of(Press(SOURCE).pdf(data(HOSTILE)))


def test_the_same_data_gives_the_same_bytes_in_another_process_too():
    press = Press(SOURCE)
    press.pdf(data("something else"))
    made = press.pdf(data("one"))
    program = (
        "import sys; from advisor.paper.typeset import Press; "
        "from tests.paper.test_typeset import SOURCE, data; "
        "sys.stdout.buffer.write(Press(SOURCE).pdf(data('one')))"
    )
    other = subprocess.run([sys.executable, "-c", program], capture_output=True, check=True).stdout
    assert made == other
    assert press.png(data("one")) == Press(SOURCE).png(data("one"))
    assert press.svg(data("one")) == Press(SOURCE).svg(data("one"))


def test_a_page_is_as_high_as_its_pdf_says():
    press = Press(SOURCE)
    page = PdfReader(io.BytesIO(press.pdf(data("line")))).pages[0]
    assert press.height(data("line")) == pytest.approx(float(page.mediabox.height), abs=0.1)


def test_only_the_carried_font_is_used_and_the_file_says_that_it_is_tagged():
    reader = PdfReader(io.BytesIO(Press(SOURCE).pdf(data("words"))))
    fonts = reader.pages[0]["/Resources"]["/Font"]
    names = {str(font.get_object()["/BaseFont"]).split("+")[-1] for font in fonts.values()}
    assert names == {"DejaVuSansCondensed"}
    # ISO 14289-1 (PDF/UA-1): the file is marked as tagged and names the standard in its metadata.
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]
    assert b"pdfuaid:part" in reader.trailer["/Root"]["/Metadata"].get_object().get_data()


def test_the_family_is_carried_in_both_weights():
    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS]).fonts()
    assert {(font.family, font.weight) for font in fonts} == {("DejaVu Sans", 400), ("DejaVu Sans", 700)}
