"""Why an opening is tried next though one behind it in the list reaches it oftener by itself."""

from __future__ import annotations

import pytest

from advisor.explain.why_not import why_not_route
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.attempts import next_note
from advisor.result.build import plan_of
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import rules, tables

# The toilet has to be taken up: it reaches it oftener than the gully, for twice the minutes.
SITE = """
site: yard
region: britain
lines:
  - line: drain
    size: 100 mm
    material: clay
    condition: roots
    pieces:
      - {opening: kitchen gully, kind: gully}
      - pipe: 1 m
      - joined by: toilet pipe
      - pipe: 1 m
      - {opening: yard chamber, kind: inspection chamber, there: yes, depth: 600 mm}
      - pipe: 10 m
      - end: public sewer
  - line: toilet pipe
    size: 100 mm
    pieces:
      - {opening: toilet, kind: P-outlet toilet}
      - pipe: 1 m
task:
  look at: drain, from yard chamber to public sewer
  complaint: {gas smell: no, chemicals: no, holding: no}
"""


@pytest.fixture(scope="module")
def study():
    sheet = site_of_text(SITE, "yard", tables())
    return plan(Case(sheet, default_kit(tables()), Units.METRIC, 100), tables(), rules())


def test_its_worth_and_that_of_the_other_count_the_worlds_in_which_the_first_failed(study):
    first, second = study.settled.attempts[:2]
    assert (first.route.opening.name, second.route.opening.name) == ("yard chamber", "kitchen gully")
    (other,) = [r.outcome for r in study.ranked if r.outcome.route.opening.name == "toilet"]
    assert other.chance > second.chance
    left = [1 - float(p) - float(q) for p, q in zip(first.reached, first.walk.lost, strict=True)]
    note = next_note(1, study, ())
    assert note.after == ("yard chamber",)
    assert [each.opening for each in note.worth] == ["kitchen gully", "toilet"]
    by_hand = sum(w * float(p) for w, p in zip(left, second.reached, strict=True)) / sum(left)
    assert note.worth[0].chance == pytest.approx(by_hand, rel=1e-4)
    assert note.worth[0].chance == pytest.approx(study.settled.order.step_chances[1], rel=1e-4)
    assert note.worth[0].minutes < note.worth[1].minutes
    assert next_note(0, study, ()) is None
    assert next_note(1, study, {first.route.id}) is None, "a push met what ends it: no chance is told"


def test_list_and_explanation_give_the_same_reason(study, capsys):
    made = plan_of(study)
    show_plan(made, Units.METRIC, Page())
    said = " ".join(capsys.readouterr().out.split())
    _, why, told = said.partition("Why kitchen gully is next: ")
    assert why
    assert said.index("Openings, best first".upper()) < said.index(why) < said.index("ORDER OF ATTEMPTS")
    assert "Where yard chamber failed: kitchen gully" in told[:120]
    for name in ("kitchen gully", "toilet"):
        (way,) = [r.outcome for r in study.ranked if r.outcome.route.opening.name == name]
        story = why_not_route(study, way)
        assert f"{name} by itself costs" in story.about
        assert told.startswith(story.story[-1].removeprefix(why))
        assert len(story.story) <= 3
