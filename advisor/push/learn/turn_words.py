"""Classes of fittings, as techniques are logged and learned by them, in plain words."""

from __future__ import annotations

_TURNS = {
    "none": "straight on",
    "bend": "bend",
    "merge": "out of a branch into the main",
    "hairpin": "out of a branch, against its sweep",
    "leg": "off the main into a branch",
    "fork": "up the main past a branch",
    "past": "down the main past a branch",
    "stop": "trap or flap",
}


def turn_words(way: str) -> str:
    """What the head does in such a fitting; a class that nobody knows stands as it is."""
    return _TURNS.get(way, way)
