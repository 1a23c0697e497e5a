"""Typical buildings as site sheets of which nothing has been seen, and random houses made from them."""

from advisor.archetype.building import Archetype, archetypes, read_archetype
from advisor.archetype.plausible import plausible_site
from advisor.archetype.typical import typical

__all__ = ["Archetype", "archetypes", "plausible_site", "read_archetype", "typical"]
