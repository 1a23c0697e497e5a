"""Who reads: the units and the trade words that sentences are filled in with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from advisor.quantity import Units


@dataclass(frozen=True, slots=True)
class Reader:
    """Units, and what the reader's trade calls the plain names of sheets and tables."""

    units: Units
    words: Mapping[str, str] = field(default_factory=dict)

    def call(self, name: str) -> str:
        """The reader's word for a plain name."""
        return self.words.get(name, name)
