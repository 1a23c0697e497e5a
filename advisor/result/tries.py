"""How many tries, in words."""

from __future__ import annotations

_NUMBERS = ("no tries", "one try", "two tries", "three tries", "four tries", "five tries", "six tries")


def count_words(tries: int) -> str:
    """`three tries` for 3; the gentle first push counts as one."""
    tries = max(tries, 1)
    return _NUMBERS[tries] if tries < len(_NUMBERS) else f"{tries} tries"
