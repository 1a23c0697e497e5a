"""The report: nothing examined never reads as nothing wrong, and the same is said in every form."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta

import pytest

from advisor.kit.loadouts import default_kit
from advisor.plan import Case
from advisor.push.log.log import Entry, Log
from advisor.push.now.seen import coverage_of, runs_of
from advisor.push.report.build import NO_FINDS, NOTHING_EXAMINED, report_of
from advisor.push.report.pages import html_of, text_of
from advisor.push.report.parts import Report
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


# -- forms ------------------------------------------------------------------------------------


# -- names and times --------------------------------------------------------------------------
