"""A large plausible site as sheet text, for speed: a third of the pieces bends, half the fittings unknown.

A main with branches and stacks that each begin at an opening. It keeps to the trade's rules: between level
pipes only bends that may lie level, a long sweep at the foot of a stack, wyes and combinations into the
level main, a branch no larger than the main (change-of-direction rules quoted in tests/outside).
"""

from __future__ import annotations

import numpy as np

LEVEL_BENDS = ("1/8 bend", "1/16 bend", "long sweep")
STACK_FOOT = "long sweep"
JOININGS = ("wye", "combination")
BRANCH_OPENINGS = ("end cleanout", "toilet flange", "wall cleanout")


def generated_site(pieces: int = 150, openings: int = 12, seed: int = 1, main_share: float = 0.0) -> str:
    """Sheet text of a site with that many pieces and openings; the same for the same seed.

    `main_share` is how much of the pipes and bends that may lie anywhere lies on the main: the more, the
    more of them every way passes, and the longer a plan takes.
    """
    draw = np.random.Generator(np.random.PCG64(seed))
    branches = openings - 2
    runs = pieces - openings - branches - 1  # what is left for pipes and bends; one piece is the end
    bends = min(pieces // 3, runs // 2)
    pipes = runs - bends
    on_main = branches + 2  # one pipe before each joining and round the yard cleanout
    if branches < 1 or pipes < on_main + branches:
        raise ValueError(f"{pieces} pieces are too few for {openings} openings")
    main_pipes = on_main + round(main_share * (pipes - on_main - branches))
    per_branch = _dealt(pipes - main_pipes, branches)
    per_place = _dealt(main_pipes, on_main)
    # A bend follows some of the pipes, never two bends on end; the main bends seldom where it can.
    wanted = max(min(on_main // 4, bends), round(main_share * bends), bends - (pipes - main_pipes))
    main_bends = min(wanted, main_pipes)
    main_bent = {place * main_pipes // main_bends for place in range(main_bends)}
    bends_per_branch = _dealt(bends - main_bends, branches)
    unknown_bend = _half(bends, draw)
    unknown_joining = _half(branches, draw)

    def bend(known: str) -> str:
        return f"      - bend: {'unknown' if unknown_bend.pop() else known}\n"

    def level_bend() -> str:
        return bend(LEVEL_BENDS[draw.integers(len(LEVEL_BENDS))])

    def pipe(longest: float = 3.0) -> str:
        return f"      - pipe: {draw.uniform(0.5, longest):.2f} m\n"

    def stretch(place: int) -> str:
        """The pipes of the main down to one joining or opening, each with its bend where it has one."""
        first = sum(per_place[:place])
        numbers = range(first, first + per_place[place])
        return "".join(pipe() + (level_bend() if number in main_bent else "") for number in numbers)

    text = "site: generated\nregion: north america\nbuilt: 1965\nmap: sketch\nlines:\n"
    text += "  - line: main\n    kind: drain\n    size: 4 in\n    material: cast iron\n    pieces:\n"
    text += "      - opening: head of the main\n        kind: end cleanout\n"
    for number in range(branches):
        text += stretch(number)
        fitting = "unknown" if unknown_joining.pop() else JOININGS[number % 2]
        text += f"      - joined by: branch {number}\n        fitting: {fitting}\n"
    for number in (branches, branches + 1):
        text += stretch(number)
        text += "      - opening: yard cleanout\n        kind: two-way cleanout\n" * (number == branches)
    text += "      - end: public sewer\n"
    for number in range(branches):
        stack = number % 3 == 2
        kind = "roof vent" if stack else BRANCH_OPENINGS[number % len(BRANCH_OPENINGS)]
        text += f"  - line: branch {number}\n    kind: {'stack' if stack else 'branch'}\n    size: 3 in\n"
        text += f"    pieces:\n      - opening: way in {number}\n        kind: {kind}\n"
        left = bends_per_branch[number]
        for place in range(per_branch[number]):
            first = place == 0
            text += f"      - drop: {draw.uniform(3, 8):.2f} m\n" if stack and first else pipe()
            if left:
                left -= 1
                text += bend(STACK_FOOT) if stack and first else level_bend()
    return text + "task: {look at: yard cleanout, complaint: {holding: no}}\n"


def _dealt(count: int, places: int) -> list[int]:
    """`count` things dealt to `places` as evenly as can be."""
    return [count // places + (place < count % places) for place in range(places)]


def _half(count: int, draw: np.random.Generator) -> list[bool]:
    """As many yes as no, in a drawn order."""
    return [bool(each) for each in draw.permutation(np.arange(count) % 2 == 0)]
