"""Why a spot is hard where nobody knows which fitting is there: each reason is told of what it holds for."""

from __future__ import annotations

import re
from functools import cache

from advisor.explain.how import how_spot
from advisor.outcome.walk import HardSpot
from advisor.result.build import plan_of
from advisor.result.model import PassageNote
from advisor.result.study import Study
from tests.cases.jobs import kit_text, outcome, rules, studied, tables

# What it is, nobody knows: over a wide main a head hardly ever gets round a tee on its side, and mostly
# round a wye (common practice, no source).
UNSEEN = """
site: one branch, one main
region: north america
built: 1973
map: measured
lines:
  - line: main
    kind: drain
    size: 4 in
    material: abs
    condition: sound
    pieces:
      - capped: yes
      - pipe: 6 ft
      - joined by: branch line
        fitting: unknown
      - pipe: 12 ft
      - end: public sewer
  - line: branch line
    kind: branch
    size: 2 in
    material: abs
    condition: sound
    pieces:
      - opening: way in
        kind: wall cleanout
      - drop: 2 ft
      - bend: long sweep
      - pipe: 12 ft
task: {look at: "main, from branch line to public sewer", complaint: {holding: no}}
"""


@cache
def study() -> Study:
    return studied(UNSEEN, kit_text(), worlds=600)


def tie_in() -> HardSpot:
    return next(each for each in outcome(study(), "way in").spots if each.passage.piece.kind == "junction")


def told() -> PassageNote:
    plan = plan_of(study())
    return next(
        p for r in plan.routes for p in r.passages if p.kind == max(tie_in().rulings, key=share).variant
    )


def share(ruling) -> float:
    return ruling.share


def test_the_fitting_is_in_doubt_and_a_tee_is_the_least_likely():
    shares = {ruling.variant: ruling.share for ruling in tie_in().rulings}
    assert min(shares, key=lambda name: shares[name]) == "sanitary tee"
    assert shares["sanitary tee"] < 0.15


def test_what_holds_for_a_tee_alone_says_so():
    """A reason or a trick that names the tee names it as one of the things that may be there."""
    note = told()
    texts = [*note.difficulty, *(t.because for t in note.techniques if t.verdict in ("try", "required"))]
    of_tee = [text for text in texts if "sanitary tee" in text]
    assert any("backwards" in text for text in of_tee)
    assert any("Running water does" in text for text in of_tee)
    part = next(ruling.share for ruling in tie_in().rulings if ruling.variant == "sanitary tee")
    for text in of_tee:
        assert re.match(rf"If it is a sanitary tee \({100 * part:.0f} %\): [a-z]", text), text


def test_of_what_is_likeliest_a_reason_is_told_where_something_there_holds_many_a_push():
    """From the share on from which anything is told; the tables say which."""
    notable = tables().limits["notable_share"].likely
    likeliest = max(tie_in().rulings, key=share)
    for fact, said in (
        ("passage.runs_at_far_wall", "runs at the far wall"),
        ("passage.rod_end_sticks", "stiff rod end must turn too"),
    ):
        holds = likeliest.facts[fact]
        assert isinstance(holds, float)
        of_it = [w for w in told().difficulty if w.startswith("If it is a combo") and said in w]
        assert bool(of_it) == (holds >= notable), (fact, holds)
    assert likeliest.facts["passage.runs_at_far_wall"] >= notable, "one of the two is"


def test_the_tree_of_reasons_tells_each_of_what_it_holds_for():
    at = outcome(study(), "way in")
    tree = how_spot(study(), at, at.spots.index(tie_in())).tree
    folds = [each.text for each in tree.under if each.of == "rule head-folds-back"]
    assert folds
    assert all(text.startswith("If it is ") for text in folds)


def test_what_holds_for_the_same_fittings_is_told_in_one_breath():
    heads = [why.partition(":")[0] for why in told().difficulty]
    assert len(heads) == len(set(heads))


def test_a_fitting_that_is_known_is_called_by_its_name():
    seen = studied(UNSEEN.replace("fitting: unknown", "fitting: sanitary tee"), kit_text(), worlds=200)
    spot = next(p for r in plan_of(seen).routes for p in r.passages if p.kind == "sanitary tee")
    assert any("fold in the sanitary tee" in why for why in spot.difficulty)
    assert not any(why.startswith("If it is") for why in spot.difficulty)


def test_the_rules_speak_from_the_share_on_from_which_anything_is_told():
    difficulty = {rule.id: rule for rule in rules().by_stratum["difficulty"]}
    for name in ("head-runs-at-far-wall", "rod-end-sticks-at-turn"):
        assert "limits.notable_share" in set(difficulty[name].when.names())
