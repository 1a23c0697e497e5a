"""At the terminal: which way the opening leads, and no water where it may come up. Rules of the trade."""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.push.log.log import Log
from advisor.quantity import Units
from advisor.site.sheet import read_site, site_of_text
from advisor.terminal.push.here import show_now
from advisor.terminal.push.offers import only_way
from advisor.terminal.push.water import warn_before_any
from tests.cases.jobs import rules, tables
from tests.push import test_throat as throat
from tests.push.sites import WALK
from tests.push.test_double_fitting import BEND, DOUBLE, PAST
from tests.terminal.test_now_shown import pushed, shown
from tests.terminal.test_push_session import NOON, job, push

__all__ = ["job", "push", "shown"]  # fixtures
UP = WALK.replace("holding: no", "holding: no, chemicals: no, gas smell: no, backs up: [bath]")
FREE = WALK.replace("holding: no", "holding: no, chemicals: no, gas smell: no")
IN = "11yd\r\r"  # at the floor plug, with what is planned, which way it leads not known
SLAB = next(path for path in demo.ALL if path.stem == "slab-house").read_text()
DOUBT = "One does not go with the other: the line is said to drain away, and bath"
UNTIL = "Run nothing until the line is seen to drain: bath backs up."


def entry(job, kind: str) -> dict[str, object]:
    log = Log.read(job.log)
    try:
        return dict(next(each for each in log.standing() if each.kind == kind).data)
    finally:
        log.close()


@pytest.mark.parametrize(("key", "told"), [("s", "downstream"), ("h", "upstream"), ("d", "unknown")])
def test_which_way_the_opening_leads_is_asked_in_plain_words_and_kept(job, push, key, told):
    job.site.write_text(FREE)
    said = push(f"11y{key}\r\r" + "q")
    assert "Which way does this opening lead?" in said
    assert "downstream: away from the house, to sewer or tank" in said
    assert "upstream: back to the house" in said
    assert entry(job, "start")["direction"] == told


def test_how_it_was_found_to_lead_stands_in_the_log_beside_what_was_told(job, push):
    job.site.write_text(
        throat.job("floor cleanout").replace("holding: no", "holding: no, chemicals: no, gas smell: no")
    )
    log = Log.open(job.log)
    for kind, counter, data in throat.UP_THERE:
        log.append(kind, counter, data, NOON)
    log.close()
    said = push("11ys\r\r" + "q")
    assert "It is followed as leading upstream" in said
    assert "Downstream is behind the lens: likely" in said.rpartition("COUNTER 0")[2]
    log = Log.read(job.log)
    _, again = (each for each in log.standing() if each.kind == "start")
    log.close()
    assert (again.data["direction"], again.data["found"]) == ("downstream", "upstream")


def test_which_way_a_vent_on_a_roof_leads_is_not_asked_and_stands_in_the_log(job, push):
    """It has the house below it and nothing above; that it may not open is asked all the same."""
    job.site.write_text(SLAB)
    said = push("nn2" + "1sy" + "y\r\r" + "q")
    assert "Which way" not in said
    assert "n it does not open, or not without damage" in said
    assert entry(job, "start")["direction"] == "downstream"


def test_a_vent_that_does_not_open_is_kept_as_any_other(job, push):
    job.site.write_text(SLAB)
    push("nn2" + "1sy" + "n" + "b")  # then nobody goes on
    assert entry(job, "shut")["opening"] == "roof vent"


@pytest.mark.parametrize("path", demo.ALL, ids=lambda path: path.stem)
def test_only_behind_a_fixture_and_on_a_roof_it_is_plain_which_way_an_opening_leads(path):
    """By the trade a trap arm and a vent end lead down only; of a plug nobody sees where its pipe goes."""
    study = plan(Case(read_site(path, tables()), default_kit(tables()), Units.INCH, 50), tables(), rules())
    for piece in study.network.openings():
        one = piece.hole.fixture is not None or any(w in piece.name for w in ("toilet", "vent"))
        assert only_way(study, piece.name) == ("downstream" if one else None), piece.name


def test_of_an_access_in_a_fixtures_arm_with_pipe_on_both_sides_it_is_asked():
    pieces = (
        "fixture: basin",
        "pipe: 1 m",
        "{opening: tee, kind: fixture tee}",
        "pipe: 2 m",
        "end: sewer",
    )
    rows = "".join(f"      - {piece}\n" for piece in pieces)
    text = f"site: a\nregion: britain\nlines:\n  - line: drain\n    pieces:\n{rows}task: {{look at: drain}}\n"
    sheet = site_of_text(text, "site", tables())
    study = plan(Case(sheet, default_kit(tables()), Units.METRIC, 50), tables(), rules())
    assert only_way(study, "tee") is None
    assert only_way(study, "basin") == "downstream"


def test_what_does_not_go_together_is_told_at_the_start_and_to_who_goes_on(job, push):
    job.site.write_text(UP)
    assert DOUBT in push("d")
    began_before_it_was_told(job, push)
    assert DOUBT in push("q")
    job.site.write_text(FREE)
    assert "One does not go" not in push("q")


def began_before_it_was_told(job, push) -> None:
    """A push is open when the sheet comes to say that the bath backs up."""
    job.site.write_text(FREE)
    push(IN + "q")
    job.site.write_text(UP)


UNKNOWN = WALK.replace("holding: no", "holding: unknown, chemicals: no, gas smell: no")


@pytest.mark.parametrize("sheet", [UP, UNKNOWN])
@pytest.mark.parametrize("key", ["n", "d"])
def test_no_camera_goes_in_where_nobody_saw_the_line_drain(job, push, sheet, key):
    """A full line is cleared before any camera: not known is not drained, whichever way it is not known."""
    job.site.write_text(sheet)
    said = push(key)
    assert "Does the line drain now, down to what its trap always holds?" in said, "every trap stands full"
    assert "Nothing is begun." in said
    assert "Where does the rod go in?" not in said
    assert not job.log.exists() or not Log.read(job.log).standing()


@pytest.mark.parametrize(
    ("sheet", "key", "told"),
    [
        (UNKNOWN, "y", "yes, seen to drain just now"),
        (UP, "c", "it backed up, is cleared now, and water that was run just now ran away"),
    ],
)
def test_what_was_seen_before_the_push_ends_the_doubt_for_this_push_and_is_logged(
    job, push, sheet, key, told
):
    job.site.write_text(sheet)
    said = push(key + IN + "r5\rn" + "w1n" + "q")
    assert "Did you see the water run away" not in said
    assert UNTIL not in said
    start = entry(job, "start")
    assert (start["drains"], start["told"]) == (True, told)
    again = push("q")
    assert "One does not go" not in again
    assert "whether the line is holding" not in again


def test_cleared_now_is_offered_only_where_it_was_told_to_back_up(job, push):
    job.site.write_text(UNKNOWN)
    assert "is cleared now" not in push("d")
    job.site.write_text(UP)
    assert "is cleared now" in push("d")


def test_nothing_is_run_and_the_way_home_is_conditional_until_it_is_seen_to_drain(job, push):
    """Asked only where it is in doubt; once seen to drain nothing is held back."""
    began_before_it_was_told(job, push)
    said = push("r5\rn" + "w1n" + "y" + "en\ry")
    before, _, after = said.partition("Did you see the water run away")
    assert "No water test until the line is seen to drain: bath backs up." in before
    assert UNTIL in before
    assert "it tells most" not in before
    assert "No water test" not in after
    assert entry(job, "water")["drains"] is True
    home = "run water a little at a time while somebody watches bath. Stop as it rises. Look for leaks."
    assert home in after.partition("COMING HOME")[2], "it backed up before"


@pytest.mark.parametrize(
    ("keys", "home"), [("", "Seen to drain as water ran, nothing poured in?"), ("w1n" + "n", "")]
)
def test_who_has_not_seen_it_drain_runs_none_at_the_end(job, push, keys, home):
    began_before_it_was_told(job, push)
    said = push("r5\rn" + keys + "en\ry")
    assert ("Stop all water now." in said) is bool(keys)
    at_home = said.partition("COMING HOME")[2]
    assert "Run water." not in at_home
    assert ("Seen to drain as water ran, nothing poured in?" in at_home) is bool(home)


def test_on_a_line_that_drains_nobody_is_asked_whether_it_does(job, push):
    job.site.write_text(FREE)
    said = push(IN + "r5\rn" + "w1n" + "q")
    assert "Did you see the water run away" not in said
    assert "drains" not in entry(job, "water")


def test_after_a_stop_in_roots_nothing_above_it_is_run(job, push):
    """The head stands 26 ft down from the plug, past both lines; blocked is the ninth sign by eye, of
    what kind is not told, soft is the second by hand."""
    job.site.write_text(FREE)
    said = push("11ys\r\r" + "s26\r" + "9d0" + "20" + "m" + "w" + "bb" + "en\ry")
    assert "Run nothing until the line is seen to drain: it was stopped at 26 ft." in said
    assert "Seen to drain as water ran, nothing poured in?" in said.partition("COMING HOME")[2]


def test_a_toilet_is_flushed_as_any_fixture_is_run_but_not_the_one_that_is_off(job, push):
    """It carries dye best (the preparation says so); drawn as an opening, for it comes off."""
    wc = "opening: toilet\n        kind: P-outlet toilet"
    job.site.write_text(FREE.replace("fixture: bath", wc))
    said = push(IN + "r5\rn" + "wb" + "q").partition("Which fixture?")[2].partition("b back")[0]
    assert "toilet" in said
    job.log.unlink()
    off = push("5" + "1sy" + "y\r\r" + "r2\rn" + "wb" + "q")
    assert "> toilet" in off
    left = off.partition("Which fixture?")[2].partition("b back")[0]
    assert left.split() == ["1", "laundry", "tub", "2", "kitchen", "sink"]


def test_who_picks_a_fixture_is_warned_as_if_it_had_been_proposed(job, push):
    """Its water comes out of the arm straight across whoever chose it (tests/push/test_double_fitting)."""
    job.site.write_text(DOUBLE)
    said = push("41yy\r\r" + "r0.3\re" + "w" + "2b" + "1b" + "b" + "q")
    assert "w water: run a fixture, or one was run" in said, "so that the warning comes before the water"
    picked = said.partition("> water")[2]
    sink, _, toilet = picked.partition("> toilet two")
    assert "> kitchen sink" in sink
    assert "may splash out of toilet one: cover the opening round the rod" in toilet.replace("┃ ┃ ", "")
    assert "splash" not in sink, "it joins further down and comes out of no arm that faces the opening"


def test_where_nobody_knows_that_it_drains_both_ways_say_the_same(shown):
    only = "Only if the line is seen to drain and no cleaner was poured in:"
    told = pushed(DOUBLE.replace("chemicals: no", "chemicals: unknown"), "toilet one", BEND, PAST)
    assert only in " ".join(shown(show_now, told).split())
    assert only in " ".join(shown(warn_before_any, told).replace("│", "").replace("┃", "").split())
    assert not shown(warn_before_any, pushed(DOUBLE, "toilet one", BEND, PAST))


def test_seconds_that_nobody_waits_are_asked_about(job, push):
    """Dye is waited for ten minutes; 9000 s are two hours and a half, a slip for 90."""
    job.site.write_text(FREE)
    said = push(IN + "r5\rn" + "w1y9000\rn90\ra" + "q")
    assert "longer than anybody waits (10 min). Is it" in said
    assert entry(job, "water")["seconds"] == 90
