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
