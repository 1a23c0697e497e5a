"""Text with units to SI numbers and back, and values that are only partly known."""

from advisor.quantity.belief import Belief, Chances, Estimate, Known, belief_of
from advisor.quantity.parse import Stated, parse, parse_stated, with_unit, without_assumed
from advisor.quantity.show import never_certain, show, show_counter, show_reading, show_tape, show_told
from advisor.quantity.units import MINUTE, Dimension, Units, examples
from advisor.quantity.usual import far_from

__all__ = [
    "MINUTE",
    "Belief",
    "Chances",
    "Dimension",
    "Estimate",
    "Known",
    "Stated",
    "Units",
    "belief_of",
    "examples",
    "far_from",
    "never_certain",
    "parse",
    "parse_stated",
    "show",
    "show_counter",
    "show_reading",
    "show_tape",
    "show_told",
    "with_unit",
    "without_assumed",
]
