"""What a push found, in the plan, the card and the table made after it."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from advisor.batch.row import Planner
from advisor.card import worth
from advisor.card.build import card_of
from advisor.card.content import KEPT, Card
from advisor.card.relief import relief_card
from advisor.card.text import card_text
from advisor.cli import main
from advisor.explain.change import cures
from advisor.interview.dialogue import Session
from advisor.interview.store import Kept
from advisor.job.folder import Job
from advisor.outcome.memory import Memory
from advisor.push.before.found_before import found_before
from advisor.push.log.kinds import SIGHTING, START
from advisor.push.log.log import Log
from advisor.quantity import Units
from advisor.result.beyond import ended_by
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.tables.place import rules_dir
from advisor.terminal import ask_command
from advisor.terminal.ask_written import ended
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import rules, tables
from tests.push.sites import CHAIN
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN, HOLE, OTHER, OUT, PIPE, POOL, read
from tests.push.test_wedged_before import planned_after
from tests.terminal.test_now_shown import NOON, TEE_PLUG, Told, case_of, study_of, tee, trapped


@pytest.fixture(scope="module")
def job(tmp_path_factory) -> Path:
    return tmp_path_factory.mktemp("after")


@pytest.fixture(scope="module")
def after(job) -> Plan:
    return planned_after(job, BEGUN, read(6.0), HOLE, OUT)


def card_of_first(plan: Plan) -> Card:
    return card_of(plan, plan.routes[0], tables().card, Units.METRIC, "", False)


def card_words(plan: Plan) -> str:
    return " ".join(card_text(card_of_first(plan)).split())


def test_plan_and_card_go_no_further_than_it(after, capsys):
    assert "no further than 4.7 m (crack with a hole, soil comes in)" in after.first_step
    assert "getting there" not in after.first_step, "no chance knows of the hole"
    assert "broken-pipe" in [note.id for note in after.cautions]
    card = card_words(after)
    assert "4.7 m no further: crack with a hole, soil comes in" in card
    assert "5 m: seen before: crack with a hole, soil comes in Not past it: no rod, no cutter" in card
    assert "Slowly on" not in card, "nobody goes on past its reading because it was not seen"
    assert "Not seen? No further. It may lie just ahead." in card
    show_plan(after, Units.METRIC, Page())
    assert "Not past 4.7 m: crack with a hole" in " ".join(capsys.readouterr().out.split())


def test_no_chance_is_told_of_a_way_that_ends_at_it(after, capsys):
    """None worked out from the sheet knows of the hole: `likely (99 %)` sends a head into it."""
    show_plan(after, Units.METRIC, Page())
    told = " ".join(capsys.readouterr().out.split())
    openings, rest = told.partition("OPENINGS, BEST FIRST")[2].split("THE BEST OPENINGS SIDE BY SIDE")
    for words in ("likely (", "even (", "comes out best"):
        assert words not in openings
    assert "not past 4.7 m: crack" in openings
    assert "No chance is told: a push met what ends" in openings
    for words in ("Of 100 such pushes", "A head that gets there will have shown"):
        assert words not in rest
    card = card_of_first(after)
    assert card.gets_there == ""
    assert not any("To see all of it" in line.text for line in card.chance)
    data = after.model_dump()
    assert (data["attempts_chance"], data["routes"][0]["chance"], data["routes"][0]["ends"]) == (None, 0, ())


def test_what_lies_behind_it_has_no_place_on_the_way(after):
    route = after.routes[0]
    assert [note.sight for note in route.sights] == ["into main", "target"]
    near = after.found[0].model_copy(update={"at_m": 1.0, "at_low_m": 0.9})
    way = ended_by(route, (near,))
    assert way.passages == ()
    assert way.sights == (), "the tee stands 2.1 m in"


def test_what_was_seen_before_the_end_of_a_way_goes_from_no_card_before_what_lies_behind_it(tmp_path):
    plan = planned_after(tmp_path, BEGUN, read(6.0), POOL, HOLE, OUT)
    seen, bar = (f"{at} m: seen before: {what}" for at, what in ((4, POOL[2]["what"]), (5, HOLE[2]["what"])))
    rows = {each.short: each for each in card_of_first(plan).short().sights}
    assert [*rows][-2:] == [seen, bar], "no end behind it"
    assert rows[bar].worth == KEPT
    assert worth.TURNING_ROW < rows[seen].worth < worth.HARD_ROW, "it asks for care alone"
    trap = {each.see: each.worth for each in card_of_first(plan_of(study_of(trapped()))).sights}
    (end,) = (value for see, value in trap.items() if see.startswith(("the end", "NOT PAST HERE: ")))
    assert end < rows[seen].worth, "behind a trap"


def test_a_warning_that_nobody_has_ruled_out_goes_after_every_step_and_the_drawing(after):
    """A letter card that had the steps of a hard place had no word of the pump."""
    parts = [
        (value, line.text)
        for block in (*card_of_first(after).stuck, *card_of_first(after).blocks)
        for line in block.lines
        for value in (line.worth, line.rest_worth if line.steps else KEPT)
    ]
    pump = next(value for value, text in parts if text.startswith("A pump or ejector can discharge here?"))
    assert "WARNING: A pump" in next(text for _, text in parts if text.startswith("A pump"))
    steps = [rest for rest, text in parts if text.startswith(("Turn the rod", "Quick push"))]
    assert steps
    assert max(steps) < pump
    assert worth.STRIP < pump < worth.WARNING


def test_what_was_met_behind_the_far_end_ends_no_way(after):
    route = after.routes[0].model_copy(update={"not_past": None, "chance": 0.8})
    far = after.found[0].model_copy(update={"at_m": 13.0, "at_low_m": 12.5})
    way = ended_by(route, (far,))
    assert (way.ended, way.chance) == (None, 0.8)


@pytest.mark.parametrize("question", [["how"], ["why-not", TEE_PLUG]])
def test_an_explanation_tells_where_it_ends_and_no_chance(question, job, after, capsys):
    with pytest.raises(SystemExit):
        main(["explain", *question, "--site", str(job), "--worlds", "100", "--units", "metric"])
    told = " ".join(capsys.readouterr().out.split())
    assert "goes no further than 4.7 m: crack with a hole, soil comes in, read at 5 m" in told
    assert "%" not in told


def test_nothing_is_worth_knowing_of_a_way_that_ends_there(tmp_path, capsys):
    """What the pipe is like inside saves minutes while the way leads on, and none once it ends at a hole."""
    begun: Told = (START, 0.0, {"opening": "top plug", "direction": "downstream"})
    planned_after(tmp_path, begun, text=CHAIN.replace("    material: pvc\n", ""))
    asked = ["explain", "matters", "--site", str(tmp_path), "--worlds", "200", "--json"]
    with pytest.raises(SystemExit):
        main(asked)
    assert json.loads(capsys.readouterr().out)
    log = Log.open(Job(tmp_path).log)
    for told in (read(6.0), HOLE, OUT):
        log.append(*told, NOON + timedelta(minutes=1))
    log.close()
    with pytest.raises(SystemExit):
        main(asked)
    assert json.loads(capsys.readouterr().out) == []


def test_ask_knows_it_as_the_plan_does(job, after):
    text = (job / "site.yaml").read_text()
    wanted = ask_command.Wanted(job, None, False, None, "metric", 200, None, rules_dir())
    session = Session(ask_command._known(wanted, Kept("job", text), Job(job)))
    assert session.standing(()).words() == "every way ends at what a push met"
    made = ended(session, (), Job(job))
    assert made is not None
    assert [way.ended for way in made.routes] == [way.ended for way in after.routes]
    assert made.found == after.found
    without = Session(replace(session.known, met=lambda _: ()))
    assert without.standing(()).words().startswith("go in first at wall plug, ")


def test_no_other_value_of_the_sheet_takes_it_away(job, after, capsys):
    with pytest.raises(SystemExit):
        main(["explain", "what-if", "branch/size=4 in", "--site", str(job), "--worlds", "100", "--json"])
    told = json.loads(capsys.readouterr().out)
    assert (told["leader_before"], told["leader_after"]) == ("none", "none")
    assert [(row["chance_before"], row["chance_after"]) for row in told["changes"]] == [(0, 0)]


@pytest.mark.parametrize(("at", "ends"), [(5.0, True), (10.9, False)])
def test_a_plan_goes_no_further_than_an_end_that_was_seen_and_ends_at_the_one_of_the_sheet(at, ends):
    """11 m in by the sheet: seen there it takes nothing from the way that ends there."""
    told = numbered(BEGUN, (SIGHTING, at, PIPE[2]), OUT)
    plan = plan_of(study_of(tee()), found_before(study_of(tee()), told))
    (note,) = plan.found
    assert note.not_past
    assert "the end of the pipe" in note.see
    assert (plan.routes[0].ended is not None, plan.routes[0].chance == 0) == (ends, ends)


def test_nor_does_a_small_change_from_the_same_opening(after):
    """Its way is worth nothing now, so that every change that leads there again would seem a gain."""
    found = cures(case_of(tee()), study_of(tee()), tables(), rules(), Memory(), found=after.found)
    assert TEE_PLUG not in {each.opening_after for each in found}


def test_a_table_of_many_sheets_knows_what_the_pushes_of_a_job_met(job, after):
    planner = Planner(rules_dir(), job / "kit.yaml", 100, 1)
    row = planner.row(job / "site.yaml", "site.yaml")
    assert "no further than" in row.first_step
    assert (row.chance, row.chance_in_all) == ("", "")
    (job / "alone.yaml").write_text((job / "site.yaml").read_text())
    assert planner.row(job / "alone.yaml", "alone.yaml").chance
    assert planner.content(job / "alone.yaml") != row.content, "told anew, it is planned anew"


def test_what_lies_on_another_way_is_told_before_all_else(tmp_path, capsys):
    plan = planned_after(tmp_path, OTHER, read(6.0), HOLE, OUT)
    told = "In from wall plug, upstream, this was seen at 5 m: crack with a hole, soil comes in."
    assert told in card_words(plan).partition("SEEN IN EARLIER PUSHES")[2]
    show_plan(plan, Units.METRIC, Page())
    first = " ".join(capsys.readouterr().out.partition("WHAT IS TO BE SEEN")[0].split())
    assert told in first


def test_a_line_that_holds_is_not_jetted_where_the_pipe_was_seen_broken(tmp_path, capsys):
    """One text told `No jet` and `Use rod, cable or jet`."""
    (tmp_path / "holds").mkdir()
    sound = planned_after(tmp_path / "holds", BEGUN, text=tee(holding="holding: yes, chemicals: no"))
    (tmp_path / "broken").mkdir()
    broken = planned_after(
        tmp_path / "broken", BEGUN, read(6.0), HOLE, OUT, text=tee(holding="holding: yes, chemicals: no")
    )
    assert "Use rod, cable or jet" in " ".join(sound.how)
    met, clearing = broken.how[-3:-1]
    assert "from wall plug: seen before: crack with a hole, soil comes in, 5 m in" in met, (
        "before it is cleared"
    )
    assert "at a step, break or trap no jet and no cutter" in met
    assert clearing.startswith("Clear it")
    assert not any("what pushes met" in step for step in sound.how)
    card = " ".join(card_text(relief_card(broken, tables().card, "")).split())
    show_plan(broken, Units.METRIC, Page())
    for told in (card, " ".join(capsys.readouterr().out.split())):
        assert "cable or jet" not in told
        assert "No jet and no cutter: the pipe may be broken." in told
        assert "this was seen at 5 m: crack with a hole" in told


@pytest.mark.parametrize(("unless", "ends_at"), [("seen open", 4.7), ("", 2.0)])
def test_what_was_seen_ends_the_way_and_not_what_may_begin_before_it_by_the_sheet_alone(
    after, unless, ends_at
):
    """The lens came to 5 m: a trap that may begin at 2 m, or lie further on, has its row all the same."""
    route = after.routes[0]
    trap = route.not_past.model_copy(update={"unless": unless, "at_low_m": 2.0, "name": "house trap"})
    way = ended_by(route.model_copy(update={"not_past": trap}), after.found)
    assert way.not_past is not None
    assert way.not_past.at_low_m == pytest.approx(ends_at, abs=0.05)
    assert not way.not_past.unless
