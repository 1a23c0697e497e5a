"""What technicians know, as whole jobs. Every fact here is common practice, no source.

Each fact must hold with the preferences taken out of the technique rules (the order of techniques comes
from minutes and chances alone), and must flip when its cause is taken away.
"""

from __future__ import annotations

import pytest

from tests.cases.jobs import (
    kit_text,
    note,
    outcome,
    planned,
    rules,
    rules_without_preferences,
    spot,
    studied,
    technique,
    tried,
    troubles,
)

BRANCH_INTO_MAIN = """
site: one branch, one main
region: north america
built: 1955
map: measured
lines:
  - line: main
    kind: drain
    size: MAIN
    material: WALL
    condition: sound
    pieces:
      - capped: yes
      - pipe: 6 ft
      - joined by: branch line
        fitting: FITTING
        LIES
      - pipe: 12 ft
      - end: public sewer
  - line: branch line
    kind: branch
    size: BRANCH
    material: WALL
    condition: sound
    pieces:
      - opening: way in
        kind: OPENING
PIECES
task: {look at: "main, from branch line to public sewer", complaint: {holding: HOLDING}}
"""


def branch_into_main(
    main: str = "4 in",
    branch: str = "3 in",
    wall: str = "pvc",
    fitting: str = "sanitary tee",
    lies: str = "lies: on its side",
    opening: str = "toilet flange",
    pieces: str = "      - bend: closet bend\n      - pipe: 3 ft",
    holding: str = "no",
) -> str:
    words = {
        "MAIN": main,
        "WALL": wall,
        "FITTING": fitting,
        "LIES": lies,
        "BRANCH": branch,
        "OPENING": opening,
        "PIECES": pieces,
        "HOLDING": holding,
    }
    text = BRANCH_INTO_MAIN
    for key, value in words.items():
        text = text.replace(key, value)
    return text


both = pytest.mark.parametrize("base", [rules, rules_without_preferences], ids=["rules", "no preferences"])


class TestTeeOnItsSide:
    """(a) A 3 in toilet line enters a 4 in main through a tee on its side."""

    @both
    def test_head_runs_at_the_far_wall_then_turn_the_rod_then_quick_push(self, base):
        hard = spot(studied(branch_into_main(), kit_text(), base=base()), "way in", "sanitary tee")
        assert "runs at far wall" in troubles(hard)
        assert hard.rulings[0].facts["passage.runs_at_far_wall"] > 0.5
        assert tried(hard)[:2] == ["turn the rod", "quick push"]

    def test_steps_of_the_quick_push(self):
        push = technique(
            note(planned(branch_into_main(), kit_text()), "way in", "sanitary tee"), "quick push"
        )
        steps = " ".join(push.steps).lower()
        for words in ("rod turned", "back off about", "front hand", "loose guide", "rear hand", "one smooth"):
            assert words in steps
        assert push.tries == 2

    @both
    def test_flips_in_a_wye(self, base):
        job = branch_into_main(fitting="wye", lies="side: left")
        spots = outcome(studied(job, kit_text(), base=base()), "way in").spots
        assert not any(s.passage.piece.kind == "junction" for s in spots)

    @both
    def test_flips_when_bends_eat_the_run_up(self, base):
        turns = "\n".join(["      - bend: long sweep\n      - pipe: 1 ft"] * 4)
        job = branch_into_main(pieces=f"      - pipe: 1 ft\n{turns}", opening="end cleanout")
        hard = spot(studied(job, kit_text(), base=base()), "way in", "sanitary tee")
        assert "quick push" not in tried(hard)


class TestSmallBranchIntoLargeMain:
    """(b) A small head on a soft spring, 2 in branch, combination, 4 in main."""

    @staticmethod
    def job(main: str = "4 in", wall: str = "cast iron") -> str:
        return branch_into_main(
            main=main,
            wall=wall,
            branch="2 in",
            fitting="combination",
            lies="side: left",
            opening="end cleanout",
            pieces="      - pipe: 3 ft",
        )

    @both
    def test_warns_of_folding_and_quick_push_comes_first(self, base):
        hard = spot(studied(self.job(), kit_text(), base=base()), "way in", "combination")
        assert "folds back" in troubles(hard)
        assert tried(hard)[0] == "quick push"

    def test_warning_says_what_happens(self):
        told = " ".join(note(planned(self.job(), kit_text()), "way in", "combination").difficulty).lower()
        assert "fold" in told
        assert "backwards" in told

    def test_flips_with_a_firm_spring(self):
        study = studied(self.job(), kit_text("stiffness: 0.15 N m2, feel: firm"))
        assert "folds back" not in troubles(spot(study, "way in", "combination"))

    def test_flips_with_a_smaller_main_of_smooth_wall(self):
        spots = outcome(studied(self.job(main="2 in", wall="pvc"), kit_text()), "way in").spots
        assert all("folds back" not in troubles(s) for s in spots)


class TestTightTurnsAfterTheOpening:
    """(c) Several tight turns in a short stretch after the opening, then a tee on its side."""

    @staticmethod
    def job(turns: int, holding: str = "no") -> str:
        bends = "\n".join(["      - bend: long sweep\n      - pipe: 1 ft"] * turns)
        return branch_into_main(
            pieces=f"      - pipe: 1 ft\n{bends}\n      - pipe: 1 ft", opening="end cleanout", holding=holding
        )

    @both
    def test_no_run_up_left_so_string(self, base):
        hard = spot(studied(self.job(3), kit_text("feel: firm"), base=base()), "way in", "sanitary tee")
        assert "quick push" in hard.rulings[0].rejected
        assert "string" in tried(hard)

    def test_reason_and_steps(self):
        tee = note(planned(self.job(3), kit_text("feel: firm")), "way in", "sanitary tee")
        assert technique(tee, "quick push").verdict == "rejected"
        assert "stroke" in technique(tee, "quick push").because
        string = " ".join(technique(tee, "string").steps).lower()
        assert "let one end go" in string
        assert "draw the cord clear" in string
        water = technique(tee, "water")
        assert water.verdict in ("try", "required")
        assert "downstream" in " ".join(water.steps).lower()

    def test_no_water_while_the_line_holds_or_nobody_knows(self):
        for holding in ("yes", "unknown"):
            tee = note(planned(self.job(3, holding), kit_text("feel: firm")), "way in", "sanitary tee")
            assert technique(tee, "water").verdict == "rejected"

    @both
    def test_flips_with_more_run_up(self, base):
        hard = spot(studied(self.job(0), kit_text("feel: firm"), base=base()), "way in", "sanitary tee")
        assert "quick push" in tried(hard)


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
