"""Typical buildings as site sheets of which nothing has been seen, and random houses made from them."""

from advisor.archetype.building import Archetype, archetypes, read_archetype
from advisor.archetype.typical import typical

__all__ = ["Archetype", "archetypes", "read_archetype", "typical"]
