"""A head and rod that stayed in the pipe: every plan of the job tells it first and pushes nothing onto them.

Rule of the trade: two rods in one drain wedge on each other, and gear that lies in a drain is on no truck.
"""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as session
from advisor.cli import main
from advisor.push.report.build import report_of
from advisor.push.report.log_words import kind_words, told_words
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.tables.place import rules_dir
from advisor.terminal.ready import make_ready
from tests.cases.jobs import rules, tables
from tests.push.test_report import section
from tests.terminal.test_kinked import goes_in, planned
from tests.terminal.test_push_answers import standing
from tests.terminal.test_push_session import BEGIN
from tests.terminal.test_wedged_kinked import LOOKED

job, push = session.job, session.push  # fixtures
PLUG = "stack foot plug"
STAYS = BEGIN + "r17\rn" + "en\rn\r"


def gear_of(job) -> str:
    return str(standing(job)[0].data["loadout"])


def test_plan_and_card_tell_it_before_all_else_and_go_without_it(job, push, capsys):
    before = goes_in(job)
    push(STAYS)
    gear = gear_of(job)
    assert gear in before
    made = planned(job)
    assert gear not in {each.loadout.name for each in made.usable}
    assert (
        plan_of(made)
        .left_in[0]
        .startswith(f"A head and rod lie in the drain: {gear}, in from {PLUG}, about 17 ft")
    )
    assert [each.opening for each in plan_of(made).to_open] == [PLUG], "who draws it out works there alone"
    for given in (["plan"], ["card", "--format", "txt", "-o", "-"]):
        with pytest.raises(SystemExit):
            main([*given, str(job.folder), "--worlds", "200"])
        told = " ".join("".join(capsys.readouterr()).split())
        lies = told.index("A head and rod lie in the drain")
        assert "Nothing goes into that pipe before they are out" in told
        assert all(told.find(word) in (-1, *range(lies, len(told))) for word in ("Open ", "Take:", "No push"))


def test_no_way_through_that_pipe_is_planned_and_it_says_which(job, push):
    push(STAYS)
    made = planned(job)
    rod = made.barred.pieces
    assert rod
    for each in made.ranked:
        assert not rod & {passage.piece.id for passage in each.outcome.route.passages}
    told = " ".join(plan_of(made).left_in)
    shut = [stop.opening for stop in plan_of(made).no_way_in if stop.why == tables().in_pipe.left_in.why]
    assert PLUG in shut
    assert all(name in told for name in shut)


def test_a_push_begins_by_asking_whether_it_is_out(job, push):
    push(STAYS)
    gear = gear_of(job)
    said = push("nbb")
    asked = said.index(f"{gear} stayed in the pipe, in from {PLUG}, downstream, about 17 ft. Is it out now?")
    assert asked < said.index("A head and rod lie in the drain")
    offered = said.partition("Where does the rod go in?")[2]
    assert f"{PLUG} (ruled out: head and rod of a push lie in its way)" in offered
    assert [entry.kind for entry in standing(job)][-1] == "end"


def test_a_second_head_does_not_go_in_there_nor_does_the_gear_that_lies_there(job, push):
    """Chosen all the same, from where the plan rules it out: whichever way nobody knows, or the same."""
    push(STAYS)
    plug = _key(push("nbb"), PLUG)
    for way in ("s", "d"):
        said = push(f"n{plug}y{way}" + "bbb")
        assert "Not in here: a head and rod lie in that pipe." in " ".join(said.replace("┃", " ").split())
        assert "What goes in?" not in said  # the other gear is all that is left
    assert [entry.kind for entry in standing(job)][-1] == "end"
    said = push(f"n{plug}yh\r\r" + "q")  # the other way
    assert "Not in here" not in said
    assert standing(job)[-1].data["loadout"] == "large head on large reel"


def _key(said: str, opening: str) -> str:
    """The key by which an opening is chosen."""
    return said.partition("Where does the rod go in?")[2].partition(f" {opening}")[0].split()[-1]


def test_said_to_be_out_it_is_planned_as_before(job, push):
    before = goes_in(job)
    push(STAYS)
    said = push("ybb")
    assert "A head and rod lie in the drain" not in said
    entry = standing(job)[-1]
    assert (entry.kind, entry.data) == ("had out", {"opening": PLUG, "push": 1.0})
    words = f"{kind_words(entry)}: {told_words(entry, Units.INCH, tables().stuck)}"
    assert words == f"head and rod had out: in from {PLUG}; left in by the push of entry 1"
    assert goes_in(job) == before
    assert "Is it out now?" in push("ybb"), "a slip is noticed at the next question: nothing has begun since"
    assert [entry.kind for entry in standing(job)].count("had out") == 1
    ready = make_ready(job.folder, None, None, 200, None, rules_dir())
    made = report_of("a job", tuple(standing(job)), ready.case, tables(), rules(), rules_dir())
    assert "still in the pipe" not in section(made, "In short")
    assert standing(job)[0].data["sheet"]
    assert "The sheet was changed" not in section(made, "In short"), "it is the one that the push began by"
    assert "the head stayed in the pipe; said to be out" in section(made, "Pushes")


def test_a_push_that_is_gone_on_with_tells_it_too(job, push):
    push(STAYS)
    plug = _key(push("nbb"), PLUG)
    push(f"n{plug}yh\r\r" + "q")
    assert "A head and rod lie in the drain" in push("q")


def test_a_wrong_yes_is_taken_back_where_it_is_asked_anew_and_alone_in_a_push(job, push):
    """From a trial: a key too fast said that it was out, and nothing could take that back."""
    push(STAYS)
    push("ybb")
    assert "A head and rod lie in the drain" in push("nbb")
    assert standing(job)[-1].kind == "end"
    keys = "y" + LOOKED + "r9\rn" + "ul" + "ub" + "r8\rn" + "u1" + "q"
    said = push(keys).rpartition("What is taken back?")[2]
    assert f"1 head and rod are out, in from {PLUG}" in said
    assert "A head and rod lie in the drain" in said
    assert "Not in here: a head and rod lie in that pipe." in " ".join(said.replace("┃", " ").split())
    assert "gentle push" not in said, "no screen sends it on"
    told = [(entry.kind, entry.counter) for entry in standing(job)]
    assert told[-2:] == [("start", 0.0), ("sighting", pytest.approx(8 * 0.3048))], "nothing else is lost"
    assert gear_of(job) not in goes_in(job)
