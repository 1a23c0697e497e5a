"""A core at the edge of what rods of its class have: it is told as that, in one way of writing inches."""

from __future__ import annotations

import re

import pytest

from advisor.kit.loadouts import default_kit
from advisor.quantity import Units
from advisor.terminal.droop_ask import read_droop
from advisor.terminal.droop_screen import tell_droop
from advisor.terminal.page import Page
from tests.cases.jobs import tables

LARGE = next(e.rod for e in default_kit(tables()).loadouts if e.rod.name == "large reel")
AGAIN = "Measure again before this is kept: what hangs, both falls, the weight, and the rod bare."


def told_of(length, falls, weight, units, capsys, rod=LARGE):
    tell_droop(read_droop(length, *falls, weight, rod, tables()), rod, tables(), units, Page())
    return " ".join(capsys.readouterr().out.split())


def test_a_core_partly_within_the_usual_is_not_called_unusual_outright(capsys):
    """A technician's rod of 1/2 in: EI of some 4.9 N m2 by w l^4/(8 d), so by E of 35 to 45 GPa a core of
    6.6 to 7.6 mm, 7.2 mm the likeliest (d^4 = 64 EI / (pi E)); the class has 4 to 7 mm (kits.yaml)."""
    said = told_of("6 ft", ("20-1/4 in", "4-3/4 in"), "0.8 lb per 10 ft", Units.INCH, capsys)
    cores = re.search(r"So stiff is a core of (0\.\d+) in to (0\.\d+) in\.", said)
    assert cores, "as the usual ones are written: in hundredths of an inch and finer, not in sixteenths"
    assert float(cores[1]) == pytest.approx(6.64 / 25.4, abs=0.002)
    assert float(cores[2]) == pytest.approx(7.57 / 25.4, abs=0.002)
    assert "That is an unusual core" not in said
    likeliest = re.search(r"That may be an unusual core: (0\.\d+) in is likeliest, and large reel's", said)
    assert likeliest
    assert float(likeliest[1]) == pytest.approx(7.17 / 25.4, abs=0.002)
    assert AGAIN in said, "what may be a slip is measured again all the same"


def test_a_tenth_of_the_weight_that_just_reaches_the_usual_is_doubted_still(capsys):
    said = told_of("1.8 m", ("440 mm", "360 mm"), "14 g/m", Units.METRIC, capsys)  # 140
    assert "That may be an unusual core" in said
    assert AGAIN in said
