"""What was told as a push began of what the sheet leaves open: it settles that push, and no other."""

from __future__ import annotations

from dataclasses import dataclass, replace

from advisor.outcome.facts import Circumstances


@dataclass(frozen=True)
class AtDoor:
    """What was said there: nobody smells gas, nobody poured in a cleaner, the line was seen to drain."""

    no_gas: bool = False
    none_poured: bool = False
    drains: bool = False

    def settle(self, given: Circumstances) -> Circumstances:
        """The circumstances with that; what the sheet says stands, but for a line seen to drain since."""
        drains = self.drains and given.holding is not False
        return replace(
            given,
            gas_smell=False if self.no_gas and given.gas_smell is None else given.gas_smell,
            chemicals=False if self.none_poured and given.chemicals is None else given.chemicals,
            holding=False if drains else given.holding,
            drains_at_door=drains,
        )


NOTHING_TOLD = AtDoor()
