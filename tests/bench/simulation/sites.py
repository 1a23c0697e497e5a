"""One site of either region for each number; the same for the same seed."""

from __future__ import annotations

from advisor.tables.load import Tables
from tests.bench.simulation.american import AmericanHouse
from tests.bench.simulation.british import BritishHouse
from tests.bench.simulation.houses import House

FEWEST, MOST = 3, 6  # openings
TRIALS = 1000  # houses drawn before a number is given up


def site_text(number: int, seed: int, tables: Tables) -> str:
    """Sheet text of random site `number`, with three to six openings; two of three are North American."""
    kind = BritishHouse if number % 3 == 2 else AmericanHouse
    for trial in range(TRIALS):
        house: House = kind(number, seed + 1_000_003 * trial, tables)
        text = house.build()
        if FEWEST <= house.openings <= MOST:
            return text
    raise ValueError(f"no house {number} with {FEWEST} to {MOST} openings")
