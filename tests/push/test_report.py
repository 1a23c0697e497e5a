"""The report: nothing examined never reads as nothing wrong, and the same is said in every form."""

from __future__ import annotations

import re
import time
from datetime import UTC, datetime, timedelta
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from fontTools.ttLib import TTFont

from advisor.cli import main
from advisor.kit.loadouts import default_kit
from advisor.paper.typeset import FONTS
from advisor.plan import Case
from advisor.push.log import Entry, Log
from advisor.push.report import NO_FINDS, NOTHING_EXAMINED, report_of
from advisor.push.report_pages import html_of, pdf_of, text_of
from advisor.push.report_parts import Report
from advisor.push.seen import coverage_of, runs_of
from advisor.quantity import Units
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.site.target import target_of
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables
from tests.push.test_marks import HOUSE

NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)
TASK = "task:\n  look at: house drain\n  complaint: {slow: [washing machine]}\n"
Told = tuple[str, float | None, dict[str, object]]
START: Told = ("start", 0.0, {"opening": "yard cleanout", "direction": "known", "loadout": "large reel"})
# Words by which a reader would take the drain for sound.
GOOD = re.compile(
    r"\b(no (defects?|faults?|problems?)|sound|good condition|clear of|all well|nothing wrong|ok)\b", re.I
)


def entries(*told: Told) -> tuple[Entry, ...]:
    times = [NOON + timedelta(minutes=i) for i in range(len(told))]
    return tuple(
        Entry(i + 1, times[i], times[i], kind, counter, data)  # type: ignore[arg-type]
        for i, (kind, counter, data) in enumerate(told)
    )


def case(text: str = HOUSE + TASK) -> Case:
    return Case(site_of_text(text, "site", tables()), default_kit(tables()), Units.METRIC, 200)


def report(*told: Told, text: str = HOUSE + TASK) -> Report:
    return report_of("a job", entries(*told), case(text), tables(), rules(), rules_dir())


def section(made: Report, heading: str) -> str:
    found = next(each for each in made.sections if each.heading.startswith(heading))
    return " ".join([*found.lines, *(cell for row in found.rows for cell in row)])


# -- nothing examined -------------------------------------------------------------------------


@pytest.mark.parametrize(
    "told",
    [
        (),
        (("note", None, {"text": "lid would not open"}),),
        (START,),
        (START, ("end", None, {"reached": False, "why": "lid stuck"})),
        (
            ("start", None, {"opening": "yard cleanout", "direction": "unknown"}),
            ("sighting", 9.0, {"what": "bend"}),
        ),
    ],
)
def test_nothing_examined_never_reads_as_nothing_wrong(told):
    made = report(*told)
    text = text_of(made)
    assert not GOOD.search(text), GOOD.search(text)
    first = made.sections[0].lines[0]
    assert first == NOTHING_EXAMINED or "nothing of house drain" in first
    assert first in html_of(made)
    assert "Not shown to have been seen: 0 m to 26 m down house drain" in text.replace("\n", " ")


def test_a_push_without_finds_is_no_clean_bill():
    made = report(
        START, ("sighting", 10.5, {"what": "tie-in"}), ("end", 10.5, {"reached": False, "why": "no time"})
    )
    text = " ".join(text_of(made).split())
    assert NO_FINDS in text
    assert "Seen: 10 m of the 26 m of house drain" in text
    beyond = "(from where laundry line joins to public sewer). Why: no time."
    assert f"Not shown to have been seen: 10 m to 26 m down house drain {beyond}" in text
    assert "says nothing of what was not seen" in text
    assert not GOOD.search(text)


def test_what_passed_under_water_was_not_seen():
    made = report(START, ("sighting", 4.0, {"what": "lens under water"}), ("sighting", 9.0, {"what": "bend"}))
    assert "Passed without being seen at 4 m: lens under water" in section(made, "What was not seen")


# -- how much was seen ------------------------------------------------------------------------


def seen(*told: Told) -> tuple[tuple[float, float], ...]:
    sheet = site_of_text(HOUSE + TASK, "site", tables())
    network, target = target_of(sheet, network_of(sheet, tables()))
    assert target is not None
    return coverage_of(runs_of(entries(*told)), network, tables(), target, lambda _: None, lambda _: {}).seen


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        # The cleanout lies half a metre above the line: so much less of it is passed than the counter shows.
        ([START, ("sighting", 12.0, {"what": "x"})], ((0, 11.5),)),
        ([START, ("sighting", 0.4, {"what": "x"})], ()),  # on the way down
        ([START, ("sighting", 12.0, {"what": "x"}), ("pulled back", 3.0, {})], ((0, 11.5),)),
        ([START, ("sighting", 99.0, {"what": "x"})], ((0, 26),)),  # never more than there is
        (
            [
                START,
                ("sighting", 6.0, {"what": "x"}),
                ("counter reset", 6.0, {"now": 0.0}),
                ("sighting", 5.0, {"what": "x"}),
            ],
            ((0, 10.5),),  # 6 m, and 5 m of a counter that began anew there
        ),
        # From the upper end of the other line: 3 m to where it joins, and either way from there: not counted.
        ([("start", 0.0, {"opening": "washing machine"}), ("sighting", 9.0, {"what": "x"})], ()),
        # Nobody knows which way it went: only what was tied to the line counts.
        (
            [
                ("start", 0.0, {"opening": "yard cleanout", "direction": "unknown"}),
                ("sighting", 9.0, {"what": "x"}),
            ],
            (),
        ),
        (
            [
                ("start", 0.0, {"opening": "yard cleanout", "direction": "unknown"}),
                ("find", 9.0, {"what": "roots", "line": "house drain", "distance": 9.0}),
            ],
            ((0, 9),),
        ),
        ([START], ()),
        # A mark is made above ground: it shows nothing of the pipe.
        ([START, ("mark", 20.0, {"name": "x", "line": "house drain", "distance": 20.0})], ()),
    ],
)
def test_what_counts_as_seen(told, expected):
    found = seen(*told)
    assert len(found) == len(expected)
    assert sum(found, ()) == pytest.approx(sum(expected, ()))


# -- what it says -----------------------------------------------------------------------------

WHOLE = (
    START,
    ("sighting", 10.1, {"what": "tie-in", "clock": 9.0, "name": "laundry line"}),
    (
        "find",
        12.5,
        {"what": "crack <b>", "clock": 12.0, "line": "house drain", "distance": 12.5, "photo": "a.jpg"},
    ),
    ("mark", 12.5, {"name": "crack", "line": "house drain", "distance": 12.5, "depth": 0.8, "offset": 0.3}),
    ("stopped", 17.2, {"sign": "wall ahead", "spot": "1/8 bend"}),
    ("end", 17.2, {"reached": False, "why": "would not turn"}),
)


def test_the_whole_story_is_told_in_order():
    made = report(*WHOLE)
    headings = [each.heading for each in made.sections]
    assert headings == [
        "In short", "Task", "Pushes", "Seen in this order", "Finds", "Recommended", "Marks and sketch",
        "Before anybody digs", "Photos", "What was not seen",
    ]  # fmt: skip
    assert "washing machine" in section(made, "Task")
    order = section(made, "Seen in this order")
    assert order.index("laundry line") < order.index("crack") < order.index("a wall across the picture")
    assert "dig here" in section(made, "Finds")
    recommended = section(made, "Recommended")
    assert "Have it repaired" in recommended
    assert "new opening here" in recommended
    assert "* Our judgement, no source." in recommended
    assert "800 mm (read off)" in section(made, "Marks")
    assert "lens and transmitter are 300 mm apart" in section(made, "Marks")
    assert "WARNING: A spade" in section(made, "Before anybody digs")
    assert "Call 811" in section(made, "Before anybody digs")
    assert "a.jpg" in section(made, "Photos")


def test_a_smell_of_sewage_that_was_complained_of_stands_under_the_task():
    smell = TASK.replace("{slow", "{sewage smell: yes, slow")
    assert "smell of sewage" in section(report(START, text=HOUSE + smell), "Task")
    assert "smell of sewage" not in section(report(START), "Task")


@pytest.mark.parametrize(
    ("told", "says"),
    [
        ("comes up", "Water was said to come up in the cellar."),
        ("when used", "The cellar was said to be wet when water is used."),
        ("after rain", "The cellar was said to be wet after rain."),
        ("yes", "The cellar was said to be wet; nobody knew when."),
        ("no", ""),
    ],
)
def test_a_wet_cellar_that_was_complained_of_stands_under_the_task(told, says):
    task = section(report(START, text=HOUSE + TASK.replace("{slow", f"{{wet cellar: {told}, slow")), "Task")
    assert says in task
    assert ("cellar" in task) == bool(says)


def test_nobody_is_sent_to_dig_without_the_warning():
    british = (HOUSE + TASK).replace("north america", "britain").replace("floor cleanout", "rodding eye")
    assert "Ask the utilities" in section(report(*WHOLE, text=british), "Before anybody digs")
    own = report(START, ("find", 3.0, {"what": "odd", "advice": "dig up"}))
    assert "WARNING" in section(own, "Before anybody digs")
    plain = report(START, ("sighting", 3.0, {"what": "nothing"}), ("end", 3.0, {"reached": True}))
    assert not any(each.heading == "Before anybody digs" for each in plain.sections)


ROOTS: tuple[Told, ...] = (
    START,
    ("stopped", 6.2, {"sign": "blocked"}),
    ("pulled back", 5.8, {}),
    ("find", 6.2, {"what": "roots at a joint", "line": "house drain", "distance": 6.0, "sure": 0.9}),
    ("end", 5.8, {"reached": False}),
)


@pytest.mark.parametrize(
    ("shared", "says"),
    [
        ("yes", "NOTICE: Ask the neighbours before you go past"),
        (
            "unknown",
            "Not known whether neighbours share the drain. Until it is known, NOTICE: Ask the neighb",
        ),
        ("no", ""),
    ],
)
def test_whatever_is_told_of_a_place_says_what_comes_before_a_spade(shared, says):
    """Plans, then locating, then digging by hand: the three steps of the British guidance."""
    text = (HOUSE + TASK).replace("region: north america", f"region: britain\nshared: {shared}")
    told = section(report(*ROOTS, text=text), "Before anybody digs")
    for step in ("can kill", "Ask the utilities for their plans", "cable detector", "dig by hand"):
        assert step in told
    assert says in told
    assert ("neighbours" in told) is bool(says)


def test_an_undone_find_is_not_in_the_report(tmp_path):
    log = Log.open(tmp_path / "log.db")
    log.append("start", 0.0, {"opening": "yard cleanout"}, NOON)
    find = log.append("find", 3.0, {"what": "roots"}, NOON)
    log.undo(find.number, NOON)
    made = report_of("a job", log.standing(), case(), tables(), rules(), rules_dir())
    assert "roots" not in text_of(made)
    log.close()


def test_a_sketch_in_plan_only_where_measured():
    plan, strip = report(*WHOLE), report(*WHOLE, text=(HOUSE + TASK).replace("map: measured", "map: sketch"))
    for made, words in ((plan, "Plan sketch to scale"), (strip, "Strip sketch")):
        sketch = next(each.sketch for each in made.sections if each.sketch)
        assert sketch.words.startswith(words)
        assert ElementTree.fromstring(sketch.svg).tag.endswith("svg")
    assert "from a sketch, not measured" in text_of(strip)


# -- forms ------------------------------------------------------------------------------------


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


# -- names and times --------------------------------------------------------------------------


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
