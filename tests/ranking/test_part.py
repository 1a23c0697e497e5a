"""The part of a stretch that one push shows, where nothing is worth it for all: costs and shares by hand."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from advisor import demo
from advisor.interview.leading import standing
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.ranking.part import part_worth, reach_part
from advisor.result.build import plan_of
from advisor.result.decisions import decisions
from advisor.result.study import Study
from advisor.site.sheet import site_of_text
from advisor.site.suspects import Suspect
from advisor.site.target import Target
from tests.cases.jobs import rules, tables

PIECES = {
    "a": SimpleNamespace(kind="opening", name="toilet", along=0.0, landmark=None, branch=None),
    "b": SimpleNamespace(kind="pipe", name="pipe", along=3.0, landmark=None, branch=None),
    "c": SimpleNamespace(kind="opening", name="yard cleanout", along=0.0, landmark=None, branch=None),
    "d": SimpleNamespace(kind="pipe", name="pipe", along=9.0, landmark=None, branch=None),
    "e": SimpleNamespace(kind="end", name="public sewer", along=0.0, landmark=None, branch=None),
}
NETWORK = SimpleNamespace(pieces=PIECES)
WHOLE = Target("drain", "line", "drain", ("a", "b", "c", "d", "e"))
ABOVE, BELOW = ("a", "b", "c"), ("c", "d", "e")


def push(span: tuple[str, ...], arrived: float, minutes: float, opening: str = "yard cleanout"):
    """One way in that passes `span`; in hand-made outcomes only what is read is there."""
    passages = [SimpleNamespace(piece=SimpleNamespace(id=key)) for key in span]
    walk = SimpleNamespace(arrived=np.full(4, arrived), minutes=np.full(4, minutes), harm_minutes=np.zeros(4))
    covers = sum(PIECES[key].along for key in span) / 12
    route = SimpleNamespace(
        covers=covers, passages=passages, target_from=0, opening=SimpleNamespace(name=opening)
    )
    return SimpleNamespace(route=route, walk=walk, part_chance=arrived)


def suspect(span: tuple[str, ...], share: float) -> Suspect:
    return Suspect("drain", "", "", span, share, ())


def found(pushes, suspected=()):
    return part_worth(pushes, WHOLE, suspected, NETWORK, tables())


FAILING = 480  # of rules/tables/costs.yaml, which the hand calculations below use


def test_a_job_left_undone_costs_what_these_hand_calculations_take():
    assert tables().costs["failing"].likely == FAILING


def test_what_is_likelier_seen_than_it_costs_is_gone_for_and_named_as_look_at_takes_it():
    # 40 min + (1 - 0.8 x 9/12) x 480 = 232 < 480.
    part = found([push(BELOW, 0.8, 40)])
    assert part.target == Target("drain, from yard cleanout to public sewer", "stretch", "drain", BELOW)
    assert part.of == WHOLE
    assert (part.covers, part.trouble) == pytest.approx((0.75, 0.75))
    assert part.rest == ()


def test_a_part_that_costs_more_than_it_saves_is_left():
    # It saves 0.25 x 0.5 x 480 = 60 min at most: worth 59 min of work, not 61.
    assert found([push(ABOVE, 0.5, 61)]) is None
    assert found([push(ABOVE, 0.5, 59)]).target.span == ABOVE


def test_a_part_that_is_hardly_ever_seen_is_none():
    # Told as one that does not reach from 5 % (rules/tables/limits.yaml), however cheap.
    assert found([push(BELOW, 0.04, 0)]) is None


def test_the_part_goes_by_where_the_complaint_points():
    # Of the target the upper 3 m hold 0.6 / 0.8, the lower 9 m 0.2 / 0.8; the rest lies on another line.
    signs = (suspect(ABOVE, 0.6), suspect(BELOW, 0.2), suspect(("x",), 0.2))
    PIECES["x"] = PIECES["b"]
    part = found([push(ABOVE, 0.8, 40), push(BELOW, 0.8, 40)], signs)
    assert part.target.span == ABOVE
    assert part.trouble == pytest.approx(0.75)
    assert part.covers == pytest.approx(0.25)
    # What the other push shows is left for a push of its own.
    (rest,) = part.rest
    assert (rest.words, rest.opening) == ("drain, from yard cleanout to public sewer", "yard cleanout")
    assert (rest.covers, rest.chance) == pytest.approx((0.75, 0.8))


def test_a_section_that_is_half_seen_holds_half_of_its_share():
    # One section over all of it: 9 of its 12 m.
    part = found([push(BELOW, 0.8, 40)], (suspect(WHOLE.span, 0.5),))
    assert part.trouble == pytest.approx(0.75)


def test_of_two_loadouts_the_cheaper_counts():
    # 40 + (1 - .75 x .9) x 480 = 196 against 20 + (1 - .75 x .2) x 480 = 428.
    part = found([push(BELOW, 0.2, 20), push(BELOW, 0.9, 40), push(ABOVE, 0.9, 40)])
    assert part.target.span == BELOW
    assert [each.chance for each in part.rest] == [0.9]


LINES = SimpleNamespace(pieces=PIECES, lines={"drain": WHOLE.span})


@pytest.mark.parametrize(
    ("arrived", "minutes", "chosen"),
    [
        # Above: 40 + (1 - 0.8 x 3/12) x 480 = 424. Below: 40 + (1 - 0.8 x 9/12) x 480 = 232, at 0.2 448.
        (0.8, 232, True),
        (0.2, None, False),
    ],
)
def test_as_far_as_the_rod_gets_is_gone_for_where_that_saves_more_than_a_section(arrived, minutes, chosen):
    section = found([push(ABOVE, 0.8, 40)])
    assert section.minutes == pytest.approx(424)
    near = Target("drain, from yard cleanout to public sewer", "stretch", "drain", BELOW)
    far = push(BELOW, arrived, 40)
    far.chance = arrived
    reached = reach_part([far], near, WHOLE, (), LINES, tables(), section)
    assert (reached is not None) is chosen
    if reached is not None:
        assert reached.minutes == pytest.approx(minutes)
        assert [each.words for each in reached.rest] == ["drain, from toilet to yard cleanout"]


def test_what_overlaps_the_part_is_no_rest_of_it():
    section = found([push(("c", "d"), 0.8, 400)])  # 400 + (1 - 0.8 x 9/12) x 480 is too dear
    assert section is None
    section = found([push(("a", "b", "c", "d"), 0.4, 100)])  # 100 + 0.6 x 480 = 388
    far = push(BELOW, 0.8, 40)
    far.chance = 0.8
    reached = reach_part([far], Target("", "stretch", "drain", BELOW), WHOLE, (), LINES, tables(), section)
    assert reached.rest == ()


SITE = """
site: a house
region: north america
septic: no
pumps: no
roof safe: no
lines:
  - line: house drain
    kind: drain
    size: 3 in
    material: pvc
    condition: sound
    pieces:
      - opening: roof vent
        kind: roof vent
      - pipe: 20 ft
      - change: {size: 4 in}
      - opening: yard cleanout
        kind: two-way cleanout
        opens: yes
      - pipe: 40 ft
      - end: public sewer
task:
  look at: house drain
  complaint: {holding: no, gas smell: no, chemicals: no}
"""


def studied(look_at: str, out: int = 0) -> Study:
    """Planned with the demo's kit, of which the first `out` loadouts kinked."""
    sheet = site_of_text(SITE.replace("look at: house drain", f"look at: {look_at}"), "site", tables())
    kit = kit_of(read_kit(demo.KIT), tables())
    kinked = frozenset(part for each in kit.loadouts[:out] for part in each.can_kink)
    return plan(Case(sheet, kit, Units.INCH, 400, kinked=kinked), tables(), rules())


def test_where_no_push_shows_all_the_plan_is_that_of_the_part_asked_for_by_itself():
    study = studied("house drain")
    assert study.part is not None
    assert study.wanted.words == "house drain"
    part, alone = plan_of(study), plan_of(studied(study.part.target.words))
    assert part.camera_now
    assert part.target.part is not None
    assert part.target.part.of == "house drain"
    assert alone.target.part is None
    assert (part.routes, part.attempts) == (alone.routes, alone.attempts)
    # The chance to end the job is that of the push, by what the part may hold of the trouble.
    assert study.chance == pytest.approx(alone.attempts_chance * study.part.trouble)


def test_gear_that_kinked_makes_no_part_worth_a_push():
    assert studied("house drain", out=3).part is None


def test_what_is_worth_knowing_is_reckoned_with_what_the_part_may_hold():
    """By hand: minutes spent, harm, and a job left undone where the push arrives at the wrong part."""
    study = studied("house drain")
    costs, walk = decisions(study), study.ranked[0].outcome.walk
    undone = (1 - walk.arrived * study.part.trouble) * FAILING
    assert costs[0] == pytest.approx(walk.minutes + walk.harm_minutes + undone, rel=1e-5)
    assert np.all(costs[-1] == FAILING)
    now = standing(study)
    assert now.nowhere, "no way shows all that is to be seen"
    assert f"that shows {study.part.covers:.0%} of what is to be seen" in now.words()
    whole = standing(studied("house drain, from yard cleanout to public sewer"))
    assert not whole.nowhere
    assert "that shows" not in whole.words()


def test_where_one_push_shows_all_nothing_is_taken_from_it():
    study = studied("house drain, from yard cleanout to public sewer")
    assert study.part is None
    assert study.settled.attempts
    assert study.wanted == study.target
    assert study.chance == study.settled.order.chance
