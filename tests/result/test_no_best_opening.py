"""An opening at which nothing goes in is no best one; one from which no way goes there is told as that."""

from __future__ import annotations

import pytest

from advisor.interview.leading import standing
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.terminal.explain_command import _story
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import kit_text, studied

# The rod cannot reach what is to be seen: no opening is a good one. The nearest by far does not open.
FAR = """
site: far
region: north america
built: 1995
lines:
  - line: main
    kind: drain
    size: 4 in
    material: pvc
    pieces:
      - opening: far plug
        kind: end cleanout
        opens: yes
      - pipe: 900 ft
      - opening: near plug
        kind: two-way cleanout
        {near}
      - pipe: 900 ft
      - joined by: side
        fitting: wye
      - pipe: 20 ft
      - opening: street side
        kind: yard cleanout
      - pipe: 20 ft
      - end: public sewer
  - line: side
    size: 2 in
    pieces:
      - fixture: basin
      - pipe: 10 ft
task: {{look at: "main, from near plug to side"}}
"""


def job(near: str):
    return studied(FAR.format(near=near), kit_text())


def test_one_that_does_not_open_is_best_in_no_case_and_stands_last():
    study = job("opens: no")
    shut = [ranked for ranked in study.ranked if ranked.outcome.route.opening.name == "near plug"]
    assert shut, "else this tells nothing"
    assert not any(ranked.leads for ranked in shut)
    assert study.ranked[-1] in shut
    assert study.ranked[0] not in shut
    made = plan_of(study)
    assert made.cannot, "no opening here is a good one"
    assert "near plug" not in made.first_step
    assert "near plug" not in standing(study).words()


def test_where_none_is_good_none_comes_out_best(capsys):
    show_plan(plan_of(job("opens: no")), Units.INCH, Page())
    said = capsys.readouterr().out
    assert "OPENINGS, BEST FIRST" in said
    assert "comes out best" not in said


def test_where_none_opens_none_is_called_best():
    sheet = FAR.format(near="opens: no").replace("opens: yes", "opens: no")
    no_trap = sheet.replace("- fixture: basin", "- capped: yes")
    study = studied(no_trap, kit_text())
    assert all(ranked.outcome.shut for ranked in study.ranked)
    assert "No opening can be used" in plan_of(study).first_step
    assert standing(study).words() == "no opening can be used yet"


@pytest.mark.parametrize("question", ["how", "why-not"])
def test_one_from_which_no_way_goes_there_is_told_with_where_it_leads(question):
    """A yard cleanout sweeps towards the street only (rules/tables/openings.yaml, as its kind is asked)."""
    study = job("opens: yes")
    (told,) = plan_of(study).no_way_in
    assert told.opening == "street side"
    assert "only down the line" in told.why
    story = _story(study, question, ["street side"])
    assert story.story == (told.why,)
