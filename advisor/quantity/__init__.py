"""Text with units to SI numbers and back, and values that are only partly known."""

from advisor.quantity.belief import Belief, Chances, Estimate, Known, belief_of
from advisor.quantity.parse import Stated, parse, parse_stated, without_assumed
from advisor.quantity.show import Units, show, show_counter, show_reading, show_told
from advisor.quantity.units import Dimension

__all__ = [
    "Belief",
    "Chances",
    "Dimension",
    "Estimate",
    "Known",
    "Stated",
    "Units",
    "belief_of",
    "parse",
    "parse_stated",
    "show",
    "show_counter",
    "show_reading",
    "show_told",
    "without_assumed",
]
