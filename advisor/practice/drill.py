"""A drill and its grade: not right or wrong, but what the choice costs in expected minutes.

Regret is the extra expected minutes of a choice against the best, the lost chance counted at the cost of
failing. What can hurt somebody fails whatever it would save.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from advisor.interview.sketch import sketch
from advisor.practice.marks import Marks
from advisor.quantity import Units
from advisor.rulebase.rule import Caution
from advisor.site.network import Network


@dataclass(frozen=True)
class Option:
    """One choice: what it costs over the best, and how far the drawn worlds leave that open, in minutes.

    `lost_chance` is the part of `regret` that is chance: less of it to see the target. `why` says what
    this choice does, cause first; `unsafe` is the caution of a choice that can hurt somebody or cost the
    head.
    """

    words: str
    regret: float
    doubt: float = 0.0
    lost_chance: float = 0.0
    why: tuple[str, ...] = ()
    unsafe: Caution | None = None


def harmful(words: str, why: str, caution: Caution, beside: Sequence[Option]) -> Option:
    """A choice that can hurt somebody; its regret is that of the worst of the others."""
    return Option(words, max(option.regret for option in beside), why=(why,), unsafe=caution)


@dataclass(frozen=True)
class Ask:
    """One question of a drill with its choices; `hint` helps without telling, `loses` words the regret of an
    answer, `best_is` what the right one is."""

    question: str
    options: tuple[Option, ...]
    hint: str
    loses: str = "costs, on average,"
    best_is: str = "Best"

    @property
    def best(self) -> Option:
        """The choice of least regret that hurts nobody."""
        return min((o for o in self.options if not o.unsafe), key=lambda option: option.regret)


@dataclass(frozen=True)
class Drain:
    """The lines that a drill is about, to be drawn; `open_with` draws them before the first question."""

    network: Network
    units: Units
    lines: tuple[str, ...]
    open_with: bool

    def rows(self, width: int) -> tuple[str, ...]:
        """The sketch in rows no wider than `width` signs."""
        return sketch(self.network, self.units, width, self.lines)


@dataclass(frozen=True)
class Drill:
    """One exercise: `about` is the fitting or the like that it turns on, `story` what is known.

    `task` is what is to be seen, in a line that stands above each question: a long drawing moves the story
    off the screen. `words` are the trade words in it with what each means; `afterwards` is what really came
    of it, where the drill was made from a job.
    """

    kind: str
    seed: int
    about: str
    story: tuple[str, ...]
    asks: tuple[Ask, ...]
    drain: Drain
    task: str
    words: tuple[tuple[str, str], ...] = ()
    afterwards: str = ""


@dataclass(frozen=True)
class Grade:
    """What the answers of a drill came to: one chosen option for each question."""

    regret: float
    credit: float
    lost_chance: float
    unsafe: tuple[Caution, ...]
    chosen: tuple[Option, ...]
    less: tuple[str, ...] = ()  # what it earns less for beside its minutes


def grade(drill: Drill, answers: tuple[int, ...], marks: Marks) -> Grade:
    """Grade the numbers of the chosen options, one for each question of the drill, in order."""
    if len(answers) != len(drill.asks):
        raise ValueError(f"{len(answers)} answers to {len(drill.asks)} questions")
    chosen = tuple(ask.options[answer] for ask, answer in zip(drill.asks, answers, strict=True))
    unsafe = tuple(dict.fromkeys(option.unsafe for option in chosen if option.unsafe))
    credit = 0.0 if unsafe else sum(marks.credit(option) for option in chosen) / len(chosen)
    return Grade(
        sum(option.regret for option in chosen),
        credit,
        sum(option.lost_chance for option in chosen),
        unsafe,
        chosen,
    )
