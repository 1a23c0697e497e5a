"""A plan whose run a push has seen whole says so before it asks for it again, and what is left of the rest.

From a trial: "target reached" at a trap, and the plan after it was the same camera run again.
In at the floor plug the sink joins 3 m in, and the trap is 9 m in.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from functools import cache

import pytest

import advisor.terminal.ask_command as ask_command
from advisor.card.build import card_of
from advisor.interview.dialogue import Session
from advisor.interview.store import Kept
from advisor.job.folder import Job
from advisor.plan import plan
from advisor.push.before.looked_at import as_pushes_show
from advisor.push.log.log import Log
from advisor.push.seen_whole import seen_whole
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.target_model import SeenNote
from advisor.tables.place import rules_dir
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import rules, tables
from tests.push.test_report import Told, entries
from tests.terminal.test_now_shown import NOON, case_of

SITE = """
site: invented
region: north america
built: 1962
map: measured
lines:
  - line: drain
    kind: drain
    size: 4 in
    material: plastic
    pieces:
      - opening: floor plug
        kind: floor cleanout
      - pipe: 3 m
      - joined by: sink line
        fitting: wye
      - pipe: 6 m
      - trap: house trap
      - pipe: 12 m
      - end: public sewer
  - line: sink line
    size: 2 in
    pieces:
      - fixture: kitchen sink
      - pipe: 4 m
task:
  look at: suspect section
  complaint:
    gas smell: no
    holding: no
    chemicals: no
    slow: [kitchen sink]
"""
START: Told = ("start", 0.0, {"opening": "floor plug", "direction": "downstream"})
MET: tuple[Told, ...] = (
    ("sighting", 3.0, {"what": "tie-in", "name": "sink line"}),
    ("find", 7.0, {"what": "roots"}),
)


def end(at: float, what: str, reached: bool) -> tuple[Told, ...]:
    return ("sighting", at, {"what": what}), ("end", at, {"reached": reached, "out": True})


def after(*told: Told):
    """The study after a push that told this, and what it says of that."""
    standing, case = entries(START, *MET, *told), replace(case_of(SITE), worlds=50)
    study = plan(as_pushes_show(case, standing, tables(), rules()), tables(), rules())
    return study, seen_whole(study, standing)


@cache
def planned():
    study, note = after(*end(9.0, "trap", reached=True))
    return plan_of(study).model_copy(update={"seen": note})


def test_it_is_told_before_all_else_with_what_is_left_and_how_that_is_come_at(capsys):
    show_plan(planned(), Units.METRIC, Page())
    told = " ".join(capsys.readouterr().out.split()).partition("DO THIS FIRST ")[2]
    assert told.startswith("Seen whole by the push of ")
    assert "drain, from sink line to house trap. Again only to look again" in told
    left = told.partition("Not seen whole: drain, from house trap to public sewer, 12 m")[2]
    assert (
        left.index("no head goes past it")
        < left.index("Use its two plugs")
        < left.index("look at: drain, from")
    )
    assert "pen floor plug" in left, "a look again stays possible"


def test_the_card_begins_with_it():
    made = planned()
    card = card_of(made, made.routes[0], tables().card, Units.METRIC, "", False)
    first = f"{card.first} {card.first_left}"  # printed one behind the other
    assert first.startswith("Seen whole on 20")
    assert first.endswith("Left: drain, from house trap to public sewer, from beyond the house trap.")


@pytest.mark.parametrize(
    "told",
    [
        end(9.0, "trap", reached=False),  # nobody says that it was all
        end(7.5, "nothing", reached=True),  # and the counter says that it was not
    ],
)
def test_what_may_not_all_have_been_seen_is_not_told_as_seen(told):
    assert after(*told)[1] == SeenNote()


@pytest.mark.parametrize("reached", [True, False])
def test_who_asks_on_is_told_the_same_before_what_the_plan_would_say(tmp_path, reached):
    """`Now: every way ends at what a push met`, of a run that was seen to its end."""
    (tmp_path / "site.yaml").write_text(SITE)
    log = Log.open(Job(tmp_path).log)
    for at, told in enumerate((START, *MET, *end(9.0, "trap", reached))):
        log.append(*told, NOON + timedelta(minutes=at))
    log.close()
    wanted = ask_command.Wanted(tmp_path, None, False, None, "metric", 50, None, rules_dir())
    stands = Session(ask_command._known(wanted, Kept("job", SITE), Job(tmp_path))).standing(())
    assert stands is not None
    first, _, then = stands.words().partition("or after work on it. ")
    assert first.startswith("Seen whole by the push of ") is reached
    assert bool(then) is reached
