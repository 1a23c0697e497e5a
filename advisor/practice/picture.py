"""A small picture of the pipe ahead in plain signs, for each kind of thing that a lens may show."""

from __future__ import annotations

# The round edge is the pipe, what is inside it is what lies ahead; 17 columns, 7 rows.
PICTURES: dict[str, tuple[str, ...]] = {
    "straight": (
        "     .-----.     ",
        "   /  .---.  \\   ",
        "  |  /  _  \\  |  ",
        "  | |  (_)  | |  ",
        "  |  \\     /  |  ",
        "   \\  '---'  /   ",
        "     '--~--'     ",
    ),
    "bend": (
        "     .-----.     ",
        "   /     .--\\\\   ",
        "  |    /    |||  ",
        "  |   |  >> |||  ",
        "  |    \\    |||  ",
        "   \\     '--//   ",
        "     '--~--'     ",
    ),
    "crossing": (
        "     .-----.     ",
        "   /=========\\   ",
        "  |  |     |  |  ",
        "  | <|     |> |  ",
        "  |  |     |  |  ",
        "   \\=~~~~~~~=/   ",
        "     '-----'     ",
    ),
    "side hole": (
        "     .-----.     ",
        "   /  .---.  \\   ",
        "  |  /  _  \\(_|  ",
        "  | |  (_)  |_|  ",
        "  |  \\     /  |  ",
        "   \\  '---'  /   ",
        "     '--~--'     ",
    ),
    "water": (
        "     .-----.     ",
        "   /  .---.  \\   ",
        "  |  /     \\  |  ",
        "  |~~~~~~~~~~~|  ",
        "  |~ ~ ~ ~ ~ ~|  ",
        "   \\~~~~~~~~~/   ",
        "     '~~~~~'     ",
    ),
    "step": (
        "     .-----.     ",
        "   /  .---.  \\   ",
        "  |  /  _  \\  |  ",
        "  | |  (_)  | |  ",
        "  |__\\_____/__|  ",
        "   \\#########/   ",
        "     '-----'     ",
    ),
    "roots": (
        "     .-----.     ",
        "   /||'| |'|'\\   ",
        "  | |' | |.|  |  ",
        "  | '  |'| '  |  ",
        "  |    ' |    |  ",
        "   \\     '   /   ",
        "     '--~--'     ",
    ),
    "stop": (
        "     .-----.     ",
        "   / ####### \\   ",
        "  | ######### |  ",
        "  | ######### |  ",
        "  | ######### |  ",
        "   \\ ####### /   ",
        "     '-----'     ",
    ),
    "wall": (
        "  . . . . . . .  ",
        " . . . . . . . . ",
        "  . . . . . . .  ",
        " . . . . . . . . ",
        "  . . . . . . .  ",
        " . . . . . . . . ",
        "  . . . . . . .  ",
    ),
    "held": (
        "     .-----.     ",
        "   /  .---. |\\   ",
        "  |  /     \\| |  ",
        "  | |   o   | |  ",
        "  |  \\     /| |  ",
        "   \\  '---' |/   ",
        "     '-----'     ",
    ),
    "folded": (
        "     .-----.     ",
        "   / /-/-/-/ \\   ",
        "  | /-/-/-/-/ |  ",
        "  | -/-/-/-/- |  ",
        "  | /-/-/-/-/ |  ",
        "   \\ /-/-/-/ /   ",
        "     '-----'     ",
    ),
    "target": (
        "     .-----.     ",
        "   /  \\   /  \\   ",
        "  |    \\ /    |  ",
        "  |     X     |  ",
        "  |    / \\    |  ",
        "   \\  /   \\  /   ",
        "     '--~--'     ",
    ),
}
# What is seen after a head went where it should not: a pipe like any other.
PICTURES["other way"] = PICTURES["straight"]
PICTURES["across"] = PICTURES["side hole"]


def picture(kind: str) -> tuple[str, ...]:
    """The rows of a picture; none where there is nothing to see."""
    return PICTURES.get(kind, ())
