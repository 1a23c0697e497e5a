"""A report is on what the pushes went for, which the plan may have worked out otherwise since."""

from __future__ import annotations

from tests.push.test_report import HOUSE, START, TASK, Told, report, section

SUSPECT = (HOUSE + TASK).replace("look at: house drain", "look at: suspect section")
# All that the washing machine drains through below where it joins: twice as long as its own line.
LIKELIEST = "house drain, from laundry line to public sewer"
MAIN = "house drain, from yard cleanout to laundry line"
SIGHT: Told = ("sighting", 9.0, {"what": "nothing"})


def started(target: str | None) -> Told:
    kind, counter, data = START
    return kind, counter, {**data, "target": target, "direction": "downstream"}


def test_it_tells_what_was_gone_for_and_that_the_likeliest_was_not():
    made = report(started(MAIN), SIGHT, text=SUSPECT)
    task = section(made, "Task")
    assert f"To be seen: {MAIN}, 10 m of house drain" in task
    assert f"No push went for {LIKELIEST}" in task
    assert "One came there" not in task
    assert "8.5 m of the 10 m of house drain" in section(made, "In short")


def test_what_was_seen_of_the_likeliest_is_told_though_no_push_went_for_it():
    """13 m in are 12.5 m down the drain, half a metre being the way down to it: 2.5 past the laundry line."""
    made = report(started(MAIN), ("sighting", 13.0, {"what": "nothing"}), text=SUSPECT)
    assert f"No push went for {LIKELIEST}" in section(made, "Task")
    assert "One came there all the same." in section(made, "Task")
    assert "Seen: 2.5 m of the 16 m of house drain" in section(made, "In short")


def test_counter_and_sheet_are_set_against_each_other_on_what_a_push_went_for():
    """10 m and the half metre down to the line: there what it went for ends, not at the sewer, 26.5 m in."""
    told: tuple[Told, ...] = (("sighting", 10.5, {"what": "nothing"}), ("end", 10.5, {"reached": True}))
    made = report(started(MAIN), *told, text=SUSPECT)
    assert "do not agree" not in section(made, "In short")
    assert section(made, "Pushes").endswith("target reached")


def test_two_pushes_for_two_things_are_both_told():
    made = report(started(MAIN), SIGHT, started(LIKELIEST), SIGHT, text=SUSPECT)
    task = section(made, "Task")
    assert f"To be seen: {MAIN}" in task
    assert f"To be seen: {LIKELIEST}" in task
    assert "Not shown to have been seen: 10 m to 26 m down house drain" in section(made, "In short")


def test_a_part_of_what_is_asked_or_what_is_gone_from_the_sheet_is_what_is_asked():
    for words in ("house drain, from laundry line to 3 m below laundry line", "old drain, at 3 m", None):
        task = section(report(started(words), SIGHT, text=SUSPECT), "Task")
        assert f"To be seen: {LIKELIEST}" in task
        assert "No push went" not in task


def test_what_the_sheet_names_is_the_task_whatever_a_push_went_for():
    assert "To be seen: house drain, 26 m" in section(report(started(MAIN), SIGHT), "Task")
