"""What a push has shown so far of line and rod that bears on every try and on every way back."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.push.now.course import Met
from advisor.tables.in_the_pipe import InPipeFile


@dataclass(frozen=True)
class Plight:
    """`drains`: it runs away, it stands, or nothing was shown; `drained` is whether it was seen to run away
    before a stop, which counts no more. `kinked`: rod or spring is; `beside`: a machine ran beside the rod.

    `roots` are the readings, m, at which roots held the head and which it is past: the rod lies in them.
    `through` are the hard spots of the plan that the rod lies through: a twist at the hand goes through them.
    `stopper` is the trap, valve or tank that may begin where the head is; `found`, that a find which no head
    goes past is near it or behind it. `elsewhere` is how likely what other pushes told of this pipe holds the
    head here, before any sign, by the causes; `near` how likely a turn, and a branch, is where the head is.
    `across` is the chance that the head is in the arm opposite of a double fitting, `no_wall` that such a one
    is the only fitting about: it has no wall there. `roots_seen` is whether they were in the job,
    `held_back` whether a find, or what an earlier push told, may hold water back somewhere.
    """

    drains: bool | None = None
    kinked: bool = False
    beside: bool = False
    roots: tuple[float, ...] = ()
    stopper: str | None = None
    through: tuple[Met, ...] = ()
    found: bool = False
    out: bool = False  # it is held while it is drawn out
    elsewhere: tuple[tuple[str, float], ...] = ()
    near: tuple[tuple[str, float], ...] = ()
    still_look: bool = False  # what backs up was seen low with no water run, if at all
    watched: str = ""  # how water is run in a line that was known to back up
    across: float = 0.0
    no_wall: bool = False
    roots_seen: bool = False
    drained: bool = False
    held_back: bool = False

    @property
    def over(self) -> bool:
        """Whether the push is, wherever the head is: see `over_for`."""
        return self.kinked or self.beside or self.drains is False


NOTHING = Plight()


def over_for(plight: Plight, in_pipe: InPipeFile) -> tuple[str, ...]:
    """Why the push is over, wherever the head is: for its gear, or as the line stands."""
    said = (
        (plight.kinked, in_pipe.kinked.stop),
        (plight.beside, in_pipe.machine_run.stop),
        (plight.drains is False, in_pipe.drained_before.stood),
    )
    return tuple(words for holds, words in said if holds)
