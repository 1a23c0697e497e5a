"""A large plausible site as sheet text, for speed: bends a third of the pieces, half the fittings unknown."""

from __future__ import annotations

import numpy as np

KNOWN_BENDS = ("1/8 bend", "1/4 bend", "long sweep", "1/16 bend")


def generated_site(pieces: int = 150, openings: int = 12, seed: int = 1) -> str:
    """Sheet text of a main with branches that each begin at an opening; about `pieces` pieces in all."""
    draw = np.random.Generator(np.random.PCG64(seed))
    branches = max(openings - 2, 1)
    per_branch = max((pieces - 20) // (branches + 1), 4)

    def bend() -> str:
        kind = "unknown" if draw.random() < 0.5 else KNOWN_BENDS[draw.integers(len(KNOWN_BENDS))]
        return f"      - bend: {kind}\n"

    def pipe() -> str:
        return f"      - pipe: {draw.uniform(0.5, 3):.2f} m\n"

    def run(count: int) -> str:
        # One bend to two straights: a third of the pieces are bends.
        return "".join(bend() if i % 3 == 2 else pipe() for i in range(count))

    text = "site: generated\nregion: north america\nbuilt: 1965\nmap: sketch\nlines:\n"
    text += "  - line: main\n    kind: drain\n    size: 4 in\n    pieces:\n"
    text += "      - opening: head of the main\n        kind: end cleanout\n"
    for number in range(branches):
        text += run(max(per_branch // branches, 2))
        fitting = "unknown" if draw.random() < 0.5 else "wye"
        text += f"      - joined by: branch {number}\n        fitting: {fitting}\n"
    text += run(6) + "      - opening: yard cleanout\n        kind: two-way cleanout\n"
    text += pipe() + pipe() + "      - end: public sewer\n"
    for number in range(branches):
        text += f"  - line: branch {number}\n    size: 3 in\n    pieces:\n"
        text += f"      - opening: way in {number}\n        kind: end cleanout\n" + run(per_branch)
    return text + "task: {look at: yard cleanout, complaint: {holding: no}}\n"
