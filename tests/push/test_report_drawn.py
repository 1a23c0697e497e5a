"""The report as a paper and as a command: its sketch, its pages, its words and times."""

from __future__ import annotations

import time
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from fontTools.ttLib import TTFont

from advisor.cli import main
from advisor.paper.typeset import FONTS
from advisor.push.report.build import NOTHING_EXAMINED
from advisor.push.report.pages import html_of, pdf_of, text_of
from tests.cases.jobs import tables
from tests.push.test_marks import HOUSE
from tests.push.test_report import START, TASK, WHOLE, report, section


def test_a_sketch_in_plan_only_where_measured():
    plan, strip = report(*WHOLE), report(*WHOLE, text=(HOUSE + TASK).replace("map: measured", "map: sketch"))
    for made, words in ((plan, "Plan sketch to scale"), (strip, "Strip sketch")):
        sketch = next(each.sketch for each in made.sections if each.sketch)
        assert sketch.words.startswith(words)
        assert ElementTree.fromstring(sketch.svg).tag.endswith("svg")
    assert "from a sketch, not measured" in text_of(strip)


class Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        assert not any(name.startswith("on") for name, _ in attrs)

    def handle_data(self, data: str) -> None:
        self.text += data


def test_hostile_words_stay_words():
    bad = "<script>alert(1)</script> #import \u202e\x1b[31m ${x} *bold* & \" '"
    made = report(
        START,
        ("find", 3.0, {"what": bad, "line": "house drain", "distance": 3.0}),
        ("note", 3.0, {"text": bad}),
    )
    reader = Reader()
    reader.feed(html_of(made))
    assert "script" not in reader.tags
    assert "<script>alert(1)</script>" in reader.text
    for text in (text_of(made), html_of(made)):
        assert all(c.isprintable() or c == "\n" for c in text)
    assert pdf_of(made, "letter").startswith(b"%PDF-")


def test_the_pdf_is_the_same_each_time_and_tagged():
    made = report(*WHOLE)
    pdf = pdf_of(made, "letter")
    assert pdf == pdf_of(made, "letter")
    assert b"/MarkInfo" in pdf


def run(*arguments: str) -> int:
    with pytest.raises(SystemExit) as ended:
        main(list(arguments))
    return int(ended.value.code or 0)


def test_the_command(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path / "own"))
    job = tmp_path / "job"
    job.mkdir()
    assert run("report", str(job)) == 2
    assert "no site.yaml" in capsys.readouterr().err
    (job / "site.yaml").write_text(HOUSE + TASK)
    assert run("report", str(job), "-o", "-") == 0
    assert NOTHING_EXAMINED.split(":")[0] in capsys.readouterr().out
    assert run("report", str(job)) == 0
    assert (job / "report.pdf").read_bytes().startswith(b"%PDF-")
    assert run("report", str(job)) == 2
    assert "--force" in capsys.readouterr().err
    assert run("report", str(job), "--force") == 0
    assert run("report", str(job), "-o", str(tmp_path / "r.html")) == 0
    assert Path(tmp_path / "r.html").read_text().startswith("<!DOCTYPE html>")
    # A name that promises another kind of file is not given to a PDF.
    assert run("report", str(job), "-o", str(tmp_path / "r.doc")) == 2
    assert "expected .pdf, .html or .txt" in capsys.readouterr().err
    assert not (tmp_path / "r.doc").exists()
    (job / "log.db").write_bytes(b"broken")
    assert run("report", str(job), "-o", str(tmp_path / "x.txt")) == 2
    assert not (tmp_path / "x.txt").exists()


NARROW = TTFont(FONTS / "DejaVuSansCondensed.ttf")


def width_in_points(text: str, size: float) -> float:
    """From the font's own table of advances."""
    signs, advances = NARROW.getBestCmap(), NARROW["hmtx"]
    return sum(advances[signs[ord(sign)]][0] for sign in text) * size / NARROW["head"].unitsPerEm


def test_names_on_the_strip_never_stand_over_each_other():
    """Openings a metre apart on a long line: each name behind the one before it, or in another row."""
    holes = "".join(
        f"      - opening: cleanout by the {n} door\n        kind: floor cleanout\n      - pipe: 1 m\n"
        for n in ("first", "second", "third", "fourth")
    )
    text = (
        "site: crowded\nregion: britain\nlines:\n  - line: main\n    size: 100 mm\n    pieces:\n"
        f"{holes}      - pipe: 20 m\n      - end: public sewer\ntask: {{look at: main}}\n"
    )
    told = (
        ("start", 0.0, {"opening": "cleanout by the first door"}),
        ("find", 9.0, {"what": "roots", "line": "main", "distance": 9.0}),
    )
    sketch = next(each.sketch for each in report(*told, text=text).sections if each.sketch)
    texts = [each for each in ElementTree.fromstring(sketch.svg) if each.tag.endswith("text")]
    names = [each for each in texts if each.get("font-size") == "9"]
    rows: dict[str, list[tuple[float, float]]] = {}
    for each in names:
        left = float(each.get("x") or 0)
        # The font carried with the program, at nine points.
        rows.setdefault(str(each.get("y")), []).append((left, left + width_in_points(each.text or "", 9)))
    assert names
    for spans in rows.values():
        for (_, end), (start, _) in pairwise(sorted(spans)):
            assert end <= start


def test_signs_of_a_stop_are_told_in_the_words_in_which_they_were_chosen():
    """What it could not be told apart from is left out, and no key of the table stands in the report."""
    signs = tables().stuck.signs
    for by in ("eye", "hand"):
        for name, sign in signs.items():
            if sign.by == by:
                keys = f"{sign.of}, {name}" if sign.of else name
                made = report(START, ("stopped", 6.0, {"sign" if by == "eye" else "feel": keys}))
                order = section(made, "Seen in this order")
                assert f"it went no further ({sign.words})" in order


def test_what_was_seen_is_told_in_words_and_finds_count_from_one():
    told = text_of(report(*WHOLE))
    finds = section(report(*WHOLE), "Finds")
    assert "1" in finds.split()
    for raw in ("material;", "what nothing", "stopped;", "feel "):
        assert raw not in told


def test_times_are_those_of_the_place_and_say_how_far_from_utc(monkeypatch):
    """Noon UTC is half past five in the afternoon where the clock is five and a half hours ahead."""
    monkeypatch.setenv("TZ", "XYZ-05:30")
    time.tzset()
    try:
        made = report(START, ("sighting", 1.0, {"what": "bend"}))
        assert "2026-03-04 17:30 to 2026-03-04 17:31, UTC+05:30" in made.subtitle
        assert "2026-03-04 17:30" in section(made, "Pushes")
    finally:
        monkeypatch.undo()
        time.tzset()


def test_who_pushed_is_named_once():
    named = ("start", 0.0, {**START[2], "operator": "Rowan"})
    made = report(named, ("end", 1.0, {"reached": False}), named)
    assert section(made, "Pushes").count("Rowan") == 1
    assert "Pushed by" not in section(report(START), "Pushes")
