"""Some cases of a batch of pushes give what they give in the whole batch."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest

from advisor.mechanics.junction import steady_push
from advisor.mechanics.junction_case import JunctionKind, Lie, Push
from tests.cases.jobs import tables


def test_some_cases_are_as_in_the_whole_batch():
    n = 50
    draw = np.random.default_rng(7)

    def row(low: float, high: float):
        return draw.uniform(low, high, n).astype(np.float32)

    push = Push(
        force=row(5, 100),
        friction=row(0.2, 0.6),
        rod_stiffness=row(0.1, 3),
        rod_diameter=0.008,  # one number for all stays so
        spring_stiffness=row(0.002, 0.2),
        spring_length=row(0.1, 0.3),
        head_length=row(0.05, 0.15),
        head_diameter=row(0.025, 0.045),
        curl=row(0, 6.28),
        bore_branch=row(0.052, 0.08),
        bore_main=row(0.08, 0.102),
        flat_nose=draw.uniform(size=n) < 0.5,
    )
    some = np.array([0, 7, 31, 49])
    constants = tables().junction
    for kind in (JunctionKind.SANITARY_TEE, JunctionKind.WYE):
        whole = steady_push(kind, Lie.FLAT, push, constants)
        part = steady_push(kind, Lie.FLAT, push.only(some), constants)
        for each in fields(whole):
            expected = np.broadcast_to(getattr(whole, each.name), n)[some]
            assert np.broadcast_to(getattr(part, each.name), 4) == pytest.approx(expected, rel=1e-5, abs=1e-7)
    assert np.ndim(push.only(some).rod_diameter) == 0
    assert push.only(some).flat_nose.tolist() == push.flat_nose[some].tolist()
