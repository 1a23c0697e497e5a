"""What holds the head, what next, when to stop, and how to get out; and worlds weighed by tries."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from functools import cache

import numpy as np
import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.push.held.stuck import stuck
from advisor.push.held.way_out import WayOut, _steps, way_out
from advisor.push.log.log import Entry
from advisor.push.now.causes import causes_of
from advisor.push.now.course import Course
from advisor.push.now.drains import water_allowed
from advisor.push.now.evidence import Tried, effective, planned_anew, resampled, weights_of
from advisor.push.now.one_push import Push
from advisor.quantity import Units
from advisor.site.mouths import Mouth
from advisor.site.sheet import site_of_text
from tests.cases.jobs import kit_text, rules, tables

# A branch that comes into the main through a sanitary tee on its side: the head runs at the far wall.
TEE = """
site: invented
region: north america
built: 1956
map: measured
lines:
  - line: house drain
    kind: drain
    size: 4 in
    material: cast iron
    condition: light scale
    pieces:
      - capped: yes
      - pipe: 3 m
      - joined by: branch
        fitting: sanitary tee
        side: left
        lies: on its side
      - pipe: 9 m
      - end: public sewer
  - line: branch
    size: 3 in
    material: cast iron
    condition: light scale
    pieces:
      - opening: wall plug
        kind: end cleanout
      - pipe: 2 m
task:
  look at: house drain, from branch to public sewer
  complaint: {HOLDING}
"""


@cache
def case(holding: str = "holding: no, chemicals: no") -> Case:
    made = kit_of(kit_of_text(kit_text(), "kit"), tables())
    sheet = site_of_text(TEE.replace("HOLDING", holding), "site", tables())
    return Case(sheet, made, Units.METRIC, 1000)


@cache
def course(holding: str = "holding: no, chemicals: no") -> Course:
    study = plan(case(holding), tables(), rules())
    opening = next(piece for piece in study.network.openings() if piece.name == "wall plug")
    return Course(study, opening, study.kit.loadouts[0])


def met(of: Course):
    return next(each for each in of.spots if each.hard.passage.piece.kind == "junction")


ONES = np.ones(1000)


@pytest.mark.parametrize(
    ("signs", "cause"),
    [
        # Common practice, no source: what each of these signs is taken for beside the opening.
        ({"wall ahead", "springs back"}, "far wall"),
        ({"picture still", "water from the wrong side", "soft"}, "folded back"),
        ({"water over the lens"}, "standing water"),
        ({"blocked", "gritty"}, "build-up"),
        ({"rim ahead", "dead"}, "rim"),
        ({"picture still", "soft", "open pipe ahead", "gritty"}, "push fades"),
    ],
)
def test_signs_tell_the_cause_where_nothing_was_foreseen(signs, cause):
    assert causes_of(course(), None, frozenset(signs), ONES)[0].name == cause


def test_the_plan_weighs_in():
    """A soft spring pushed into a tee on its side folds or goes the wrong way; there is no stopper."""
    here = {c.name: c.chance for c in causes_of(course(), met(course()), frozenset(), ONES)}
    nowhere = {c.name: c.chance for c in causes_of(course(), None, frozenset(), ONES)}
    for name in ("folded back", "wrong way"):
        assert here[name] > nowhere[name]
    assert here["stopper"] < nowhere["stopper"]


@pytest.mark.parametrize("signs", [set(), {"wall ahead"}, {"soft", "picture still"}])
def test_causes_add_up(signs):
    for spot in (None, met(course())):
        assert sum(c.chance for c in causes_of(course(), spot, frozenset(signs), ONES)) == pytest.approx(1)


def test_every_cause_has_its_mechanics_and_its_row_of_the_matrix():
    for row in tables().stuck.causes.values():
        assert row.why
        assert {row.trouble, *row.explained_by} <= set(rules().matrix.troubles)


def test_tries_run_out_and_then_it_is_told_to_stop():
    spot = met(course())
    done: list[Tried] = []
    for _ in range(40):
        found = stuck(course(), spot, frozenset({"wall ahead"}), done, 2.0, ())
        if found.stop:
            break
        assert all(each.left > 0 for each in found.tries)
        done.append(Tried(spot.name, found.tries[0].technique, passed=False))
    assert found.stop
    assert "Stop" in found.stop
    limits = tables().limits
    for technique in {tried.technique for tried in done}:
        assert sum(t.technique == technique for t in done) <= round(limits[f"tries, {technique}"].likely)


def test_a_try_that_failed_makes_the_next_one_less_likely():
    spot = met(course())
    before = {e.technique: e.chance for e in stuck(course(), spot, frozenset(), [], 2.0, ()).tries}
    failed = [Tried(spot.name, "steady push", passed=False)] * 3
    after = {e.technique: e.chance for e in stuck(course(), spot, frozenset(), failed, 2.0, ()).tries}
    shared = set(before) & set(after)
    assert shared
    assert all(after[name] <= before[name] + 1e-9 for name in shared)


def test_no_blow_where_the_head_has_folded():
    found = stuck(
        course(),
        met(course()),
        frozenset({"picture still", "water from the wrong side", "soft"}),
        [],
        2.0,
        (),
    )
    assert found.told.name == "folded back"
    assert "quick push" not in {each.technique for each in found.tries}
    assert found.first[0] == "Stop pushing."
    assert any("doubled" in step for step in found.out.steps)


@pytest.mark.parametrize(
    ("holding", "water"),
    [
        ("holding: no, chemicals: no", True),
        ("holding: yes, chemicals: no", False),
        ("holding: no, chemicals: yes", False),
        ("holding: no, chemicals: unknown", None),
        ("holding: unknown", None),
    ],
)
def test_water_only_where_the_line_is_known_to_drain(holding, water):
    of = course(holding)
    out = way_out(of, met(of), 2.0, water_allowed(of.study.circumstances, None))
    assert out.water is water
    words = next(step for step in out.steps if "ater" in step)
    assert words.startswith("No water") == (water is not True)


def test_pulls_are_numbers_with_a_limit_consent_and_no_winch():
    out = way_out(course(), met(course()), 2.0, water=True)
    assert 0 < out.pull <= out.pull_high
    assert out.ask_from == pytest.approx(out.limit / 2)
    text = " ".join(out.steps)
    assert "yes" in text
    assert "Never a winch" in text
    further = way_out(course(), None, 8.0, water=True)
    assert further.pull >= out.pull  # the further in, the harder back


def test_what_the_rod_drags_in_a_straight_pipe_grows_with_its_length_alone():
    """Coulomb: friction times weight. The drain runs straight for 9 m behind the tee 2 m in; the middle case
    of all is not the same one at each length."""
    pulls = [way_out(course(), None, at, water=True).pull for at in (3.0, 6.0, 9.0)]
    assert pulls[1] - pulls[0] == pytest.approx(pulls[2] - pulls[1], rel=0.15)
    assert pulls[0] < pulls[1]


def test_a_head_that_stays_sends_nobody_to_an_opening():
    """Beyond may lie a septic tank alone; and no plan goes into a pipe in which gear lies (`left in`)."""
    last = way_out(course(), met(course()), 2.0, water=True).steps[-1]
    assert "leave it, tape the rod, locate it from above ground" in last
    assert "no tank" in last
    assert "go in" not in last


def test_no_step_allows_a_pull_that_a_later_one_asks_leave_for():
    way = WayOut(90.0, 130.0, 200.0, 100.0, (), True, ())
    told = " ".join(_steps(way, course(), {}))
    # It is asked from 100 N on, so the 130 N that the pull may come to stand in no step of one's own.
    assert "about 90 N, perhaps more than 100 N" in told
    assert "130 N" not in told
    more = " ".join(_steps(replace(way, pull=110.0), course(), {}))
    assert "about 110 N. That is more than 100 N: see below first." in more
    gentle = " ".join(_steps(replace(way, pull_high=99.0), course(), {}))
    assert "at most" in gentle


def test_worlds_are_weighed_by_failures_and_passes():
    """(1 - q) for each failure and q for each pass, worked out here from the planner's own q."""
    spot = met(course())
    q = spot.hard.tries["steady push"].chance.astype(float)
    tries = [Tried(spot.name, "steady push", passed=False)] * 2
    assert weights_of(course(), tries) == pytest.approx((1 - q) ** 2)
    tries.append(Tried(spot.name, "steady push", passed=True))
    assert weights_of(course(), tries) == pytest.approx((1 - q) ** 2 * q)


def test_resampling_keeps_each_world_as_often_as_it_weighs():
    weights = np.array([1.0, 0.0, 3.0, 4.0])
    # By hand: shares 1/8, 0, 3/8, 4/8 of four: steps at 1/8, 3/8, 5/8, 7/8.
    assert resampled(weights) == (0, 2, 3, 3)
    assert effective(weights) == pytest.approx(64 / 26)


def test_the_plan_is_made_anew_from_what_failed():
    spot = met(course())
    before = max(o.chance for o in planned_anew(case(), course(), [], None).outcomes)
    failed = [Tried(spot.name, name, passed=False) for name, count in spot.hard.order for _ in range(count)]
    made = planned_anew(case(), course(), failed, None)
    assert max(o.chance for o in made.outcomes) < before
    again = planned_anew(case(), course(), failed, None)
    assert [o.chance for o in made.outcomes] == [o.chance for o in again.outcomes]
    passed = planned_anew(case(), course(), [Tried(spot.name, "turn the rod", passed=True)], None)
    assert max(o.chance for o in passed.outcomes) > before


def test_an_opening_that_leads_the_other_way_loses_its_routes():
    made = planned_anew(case(), course(), [], None)
    assert {o.route.opening.name for o in made.outcomes} == {"wall plug"}
    kept = planned_anew(case(), course(), [], Mouth("up"))
    assert kept.outcomes  # nothing of the plan went in by that port
    gone = planned_anew(case(), course(), [], Mouth("down"))
    assert not gone.settled.attempts


@pytest.mark.parametrize("wrong_port", [None, Mouth("up")])
def test_gear_that_kinked_is_in_no_plan_made_anew(wrong_port):
    kinked = replace(case(), kinked=course().loadout.can_kink)
    made = planned_anew(kinked, course(), [], wrong_port)
    assert made.outcomes  # that push can still be followed
    assert course().loadout not in {each.outcome.loadout for each in made.ranked}


def test_the_pull_never_to_pass_is_what_the_weakest_bears_in_every_case():
    """Every spring, coupling and hand that the plan thinks of bears it; one of them may bear no more."""
    of = course()
    drawn = of.study.drawn
    bears = np.minimum(drawn.kit(of.loadout).pull_limit, drawn.limit("pull_force"))
    told = way_out(of, met(of), 2.0, water=True).limit
    assert (bears >= told * (1 - 1e-6)).all()
    limits = (
        of.loadout.spring.pull_limit,
        *(tables().limits[n] for n in ("coupling_pull_limit", "pull_force")),
    )
    assert told == pytest.approx(min(each.low for each in limits))


def test_a_fixture_that_was_opened_has_opened():
    text = TEE.replace("opening: wall plug\n        kind: end cleanout", "fixture: basin").replace(
        "HOLDING", "holding: no, chemicals: no"
    )
    sheet = site_of_text(text, "site", tables())
    own = replace(case(), sheet=sheet)
    study = plan(own, tables(), rules())
    opening = next(piece for piece in study.network.openings() if piece.name == "basin")
    assert float(study.outcomes[0].walk.survive[0].mean()) < 1
    made = planned_anew(own, Course(study, opening, study.kit.loadouts[0]), [], None)
    assert float(made.outcomes[0].walk.survive[0].mean()) == 1


def test_gear_that_the_kit_has_no_more_is_told_and_the_push_goes_on():
    start = Entry(
        0, datetime.now(UTC), datetime.now(UTC), "start", 0.0, {"opening": "wall plug", "loadout": "old reel"}
    )
    push = Push(course().study, start)
    assert push.gone == "old reel"
    assert push.loadout == course().study.kit.loadouts[0]
    known = replace(start, data={"opening": "wall plug", "loadout": push.loadout.name})
    assert Push(course().study, known).gone is None
