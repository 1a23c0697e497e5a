"""What the hands at the opening are told, against Euler and the elastica's own series."""

from __future__ import annotations

import numpy as np

from advisor.result.routes import route_note
from tests.cases.jobs import SMALL_REEL, SMALL_ROD, studied
from tests.result.test_ends import STRAIGHT

RHO = 0.25


def first_way(stiffness: str):
    values = f"diameter: 6 mm, length: 30 m, stiffness: {stiffness}, minimum radius: {RHO} m, weight: 0.6 N/m"
    rod = f"{{rod: measured, {values}}}"
    kit = SMALL_REEL.replace("SPRING", "feel: soft").replace(SMALL_ROD, rod)
    study = studied(STRAIGHT.format(told="        opens: yes", long="10 m"), kit)
    return route_note(study.ranked[0], 1, study)


def test_what_folds_an_unguided_stroke_follows_the_series_of_the_elastica():
    # By hand from y = a sin(pi x/l): the ends come together by pi^2 a^2/(4 l), the sharpest curve is
    # a pi^2/l^2, so the run to a radius rho is l^3/(4 pi^2 rho^2). The elastica's next term is of the
    # order of (l/(2 pi rho))^2 of it, which is a few hundredths here.
    note = first_way("0.6 N m2")
    # The shortest free rod that folds is harmed first: it is as long as the hand may be from the opening.
    length = note.hand_distance_m
    assert note.fold_m is not None
    assert length < note.stroke_m
    assert abs(note.fold_m / (length**3 / (4 * np.pi**2 * RHO**2)) - 1) < (length / (2 * np.pi * RHO)) ** 2


def test_a_rod_that_no_hand_folds_is_told_of_no_fold():
    # Euler, pi^2 EI/l^2 with EI 40 N m^2: an arm's stroke of 0.6 m folds at 1,100 N, far above any hand.
    assert first_way("40 N m2").fold_m is None
