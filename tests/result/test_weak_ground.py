"""What the first way rests on that nobody outside has been seen to say, told with the plan."""

from __future__ import annotations

from tests.cases.jobs import kit_text, planned

SITE = """
site: weak
region: north america
map: measured
lines:
  - line: run
    kind: sewer
    size: 4 in
    material: pvc
    condition: sound
    pieces:
      - {opening: yard, kind: KIND, opens: yes}
      - pipe: 6 m
      - end: public sewer
task: {look at: run, complaint: {holding: no}}
"""
LARGE = (
    "kit: x\nheads: [{head: h, like: large reel}]\nsprings: [{spring: s, like: large reel}]\n"
    "rods: [{rod: long one, like: large reel, core: 6.7 mm}]\n"
)


def weak(kind: str, kit: str) -> str:
    return "; ".join(planned(SITE.replace("KIND", kind), kit, 300).weak)


def test_the_curve_of_a_two_way_cleanout_is_weak_ground_and_an_open_end_has_none():
    """No text gave a dimension of it (rules/tables/openings.yaml)."""
    curve = "curve of the downstream throat at yard: our judgement, no source"
    assert curve in weak("two-way cleanout", kit_text())
    assert "curve of" not in weak("end cleanout", kit_text())


def test_a_rod_stiffer_than_any_that_was_tried_is_weak_ground():
    """The engine's rods went to 3 N m2 (tests/outside/engine); a core of 6.7 mm at 38 GPa has 3.8 N m2."""
    assert "how the rod end of long one turns" in weak("two-way cleanout", LARGE)
    assert "how the rod end" not in weak("two-way cleanout", kit_text())
