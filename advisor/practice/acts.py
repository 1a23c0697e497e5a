"""What a trainee can do in a simulated push, and what is remembered of it."""

from __future__ import annotations

from dataclasses import dataclass, field

from advisor.outcome.attempts import CLEANED, STEADY

OPEN, SLOW, FIRM, BACK, CLOSER, LOOK = (
    "open",
    "push slow",
    "push firm",
    "pull back",
    "hands closer",
    "look",
)
QUICK, TURN, STRING, WATER, GUIDE = "quick push", "turn the rod", "string", "water", "guide"
CLEAN = CLEANED
CHANGE, GIVE_UP = "change opening", "give up"
# Those that are one try of a technique of the planner.
TRY_OF = {
    SLOW: STEADY,
    FIRM: STEADY,
    QUICK: QUICK,
    TURN: TURN,
    STRING: STRING,
    WATER: WATER,
    GUIDE: GUIDE,
    CLEAN: CLEAN,
}
TARGET, WEDGED, KINKED, GAVE_UP = "target", "wedged", "kinked", "given up"
SPRINGY, DEAD, GRITTY, SLACK, EASY = "springy", "dead", "gritty", "slack", "easy"
FEELS = (SPRINGY, DEAD, GRITTY, SLACK)

Way = tuple[str, str]  # route id and the name of the loadout


@dataclass(frozen=True)
class Act:
    """One action: `way` for opening, `fixture` for water, `expects` for what a hard push should feel like."""

    kind: str
    way: Way | None = None
    fixture: str = ""
    expects: str = ""


@dataclass(frozen=True)
class Seen:
    """What a technician would notice: counter in m, what the lens shows, how the rod feels, what happened."""

    counter: float
    ahead: str  # the kind of picture
    lens: str
    feel: str
    said: str


@dataclass(frozen=True)
class Step:
    """One action with what it cost and brought; `index` is the passage that was tried, if one was."""

    act: Act
    seen: Seen
    minutes: float
    way: Way | None
    index: int | None = None
    passed: bool = False
    chance: float | None = None  # of the try, in the hidden world


@dataclass(frozen=True)
class State:
    """Where a simulated push stands; it is never changed, only followed by another."""

    way: Way | None = None
    index: int = 0  # passages behind the head
    counter: float = 0.0
    farthest: float = 0.0
    hands: float = 0.3
    tries: tuple[tuple[int, str], ...] = ()  # on this way: passage and technique of each failed try
    shown: int = -1  # the passage that was come to and looked at
    died: bool = False  # the push does not reach farther this way
    left: tuple[Way, ...] = ()  # ways in given up
    minutes: float = 0.0
    ended: str = ""
    steps: tuple[Step, ...] = field(default=())

    def tried(self, index: int) -> dict[str, int]:
        """How often each technique has failed at a passage."""
        found: dict[str, int] = {}
        for where, technique in self.tries:
            if where == index:
                found[technique] = found.get(technique, 0) + 1
        return found
