"""What technicians know of fixture tees, vents, forks, head sizes and guides, as whole jobs.

Every fact here is common practice, no source. Each holds with the preferences taken out of the technique
rules, and flips when its cause is taken away.
"""

from __future__ import annotations

from tests.cases.jobs import (
    kit_text,
    note,
    outcome,
    planned,
    spot,
    studied,
    technique,
    tried,
    troubles,
)
from tests.cases.test_trade_facts import both, branch_into_main

FIXTURE = """
site: a sink on a galvanised line
region: north america
built: 1955
map: measured
lines:
  - line: sink line
    kind: branch
    size: SIZE
    material: galvanised steel
    condition: CONDITION
    pieces:
      - fixture: kitchen sink
      - drop: 2 ft
      - pipe: 8 ft
      - end: drain
task: {look at: sink line, complaint: {slow: [kitchen sink], holding: no}}
"""


class TestFixtureTee:
    """(d) In at a fixture tee: trap and trap arm off, and the tee turn is the hard one."""

    @staticmethod
    def job(size: str = "2 in", condition: str = "light scale") -> str:
        return FIXTURE.replace("SIZE", size).replace("CONDITION", condition)

    @both
    def test_tee_turn_is_the_hardest_and_the_string_turns_the_head(self, base):
        out = outcome(studied(self.job(), kit_text("feel: firm"), base=base()), "kitchen sink")
        assert out.hardest is not None
        assert out.hardest.passage.step is not None
        assert "square turn" in out.hardest.passage.step.kind
        assert "string" in tried(out.hardest)

    def test_trap_and_arm_come_off_first(self):
        route = planned(self.job(), kit_text("feel: firm")).routes[0]
        assert "trap" in " ".join(route.before).lower()
        assert "arm" in " ".join(route.before).lower()

    def test_no_camera_here_where_the_bore_left_is_too_small(self):
        plan = planned(self.job("1-1/2 in", "heavy scale"), kit_text())
        assert plan.cannot
        assert "bore" in plan.cannot[0].why

    def test_flips_in_a_clean_wider_pipe(self):
        plan = planned(self.job("3 in", "sound"), kit_text("feel: firm"))
        assert not plan.cannot


VENTS = """
site: two vents that meet
region: north america
built: 1985
map: measured
lines:
  - line: main vent
    kind: stack
    size: 3 in
    material: WALL
    condition: sound
    pieces:
      - opening: roof vent
        kind: roof vent
      - drop: 6 ft
      - joined by: bath vent
        fitting: FITTING
      - drop: 14 ft
      - end: crawl space drain
  - line: bath vent
    kind: vent
    size: 2 in
    material: WALL
    condition: sound
    slope: 1/4 in per ft
    pieces:
      - opening: attic plug
        kind: end cleanout
      - pipe: 3 ft
task: {look at: "main vent, 8 ft below bath vent", complaint: {holding: no}}
"""


class TestTwoVentsMeeting:
    """(e) Where two vents meet: string, and the rod turned so that it pulls the right way."""

    @both
    def test_string_and_turned_rod(self, base):
        job = VENTS.replace("WALL", "cast iron").replace("FITTING", "vent tee")
        hard = spot(studied(job, kit_text("feel: firm"), base=base()), "attic plug", "vent tee")
        assert {"string", "turn the rod"} <= set(tried(hard))

    def test_string_steps_turn_the_rod_to_the_right_side(self):
        job = VENTS.replace("WALL", "cast iron").replace("FITTING", "vent tee")
        vent = note(planned(job, kit_text("feel: firm")), "attic plug", "vent tee")
        words = " ".join((*technique(vent, "string").steps, *technique(vent, "turn the rod").steps)).lower()
        assert "turn" in words
        assert "way you want" in words

    def test_flips_where_a_wye_guides_the_head(self):
        job = VENTS.replace("WALL", "pvc").replace("FITTING", "wye")
        assert not outcome(studied(job, kit_text("feel: firm")), "attic plug").spots


class TestFlowAndForks:
    """(f) With the flow the fitting guides the head; against it the same branch is a fork."""

    JOB = """
site: a branch seen both ways
region: north america
built: 1990
map: measured
lines:
  - line: main
    kind: drain
    size: 4 in
    material: pvc
    condition: sound
    pieces:
      - opening: upper plug
        kind: end cleanout
      - pipe: 10 ft
      - joined by: side line
        fitting: wye
        side: left
      - pipe: 10 ft
      - opening: lower chamber
        kind: inspection chamber
      - pipe: 3 ft
      - end: public sewer
  - line: side line
    kind: branch
    size: 4 in
    material: pvc
    condition: sound
    pieces:
      - opening: side plug
        kind: end cleanout
      - pipe: 6 ft
task: {look at: "TARGET", complaint: {holding: no}}
"""

    def test_with_the_flow_the_wye_is_no_hard_spot(self):
        study = studied(self.JOB.replace("TARGET", "lower chamber"), kit_text())
        assert not [s for s in outcome(study, "side plug").spots if s.passage.piece.kind == "junction"]

    def test_against_the_flow_into_the_branch_must_be_steered(self):
        study = studied(self.JOB.replace("TARGET", "side plug"), kit_text())
        hard = spot(study, "lower chamber", "wye")
        assert hard.rulings[0].facts["passage.must_steer"] is True
        assert "must steer" in troubles(hard)
        assert hard.spot.plain.wrong_way.mean() > 0.5

    def test_against_the_flow_past_the_branch_is_a_fork_but_easy(self):
        study = studied(self.JOB.replace("TARGET", "upper plug"), kit_text())
        shapes = outcome(study, "lower chamber").geometries
        assert [s.turn.way for s in shapes if s.passage.piece.kind == "junction"] == ["fork"]
        assert outcome(study, "lower chamber").chance > 0.7


class TestHeadSize:
    """(g) A small head enters 1-1/2 in pipe, the larger does not."""

    @staticmethod
    def kit(diameter: str, length: str) -> str:
        return kit_text("feel: firm").replace("25 mm", diameter).replace("40 mm", length)

    def test_small_in_large_out(self):
        job = (
            FIXTURE.replace("SIZE", "1-1/2 in")
            .replace("CONDITION", "sound")
            .replace("galvanised steel", "pvc")
        )
        small = outcome(studied(job, self.kit("25 mm", "40 mm")), "kitchen sink")
        large = outcome(studied(job, self.kit("50 mm", "80 mm")), "kitchen sink")
        assert (small.geometries[0].fits > 1).all()
        assert not (large.geometries[0].fits > 1).any()
        assert large.chance == 0


class TestGuide:
    """(h) One guide near the head: pushing tips the view down, pulling tips it up."""

    KIT = (
        kit_text()
        + "guides: [{guide: ring, diameter: 45 mm, length: 15 mm}]\n"
        + ("loadouts: [{head: small head, spring: spring, rod: small reel, guide: GUIDE}]\n")
    )
    JOB = branch_into_main(fitting="sanitary tee")

    def test_told_where_a_guide_is_fitted(self):
        plan = planned(self.JOB, self.KIT.replace("GUIDE", "ring"))
        steps = [s for p in plan.routes[0].passages for t in p.techniques for s in t.steps]
        assert any("Pushing tips the view down, pulling tips it up" in s for s in steps)

    def test_not_told_without(self):
        plan = planned(self.JOB, kit_text())
        steps = [s for p in plan.routes[0].passages for t in p.techniques for s in t.steps]
        assert not any("tips the view" in s for s in steps)
