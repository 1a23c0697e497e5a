"""What a card says to do where the head is held: each hard spot by its place, what to try, when to leave."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cached_property

from advisor.card import worth
from advisor.card.content import KEPT, Block, Line
from advisor.card.spans import joined, span_words
from advisor.result.attempts import doubted, shut_case, shut_words, to_do
from advisor.result.model import PassageNote, Plan, RouteNote, TechniqueNote
from advisor.result.readings import AT_OPENING, at_opening
from advisor.tables.card import CardFile

READ = "read, then do"
_FITTED = ("guide",)  # techniques that begin before the head goes in


class Held:
    """The hard spots of one way."""

    def __init__(
        self, plan: Plan, route: RouteNote, words: CardFile, reading: Callable[[float], str]
    ) -> None:
        self.plan, self.route, self.words, self.reading = plan, route, words, reading

    def blocks(self) -> tuple[Block, ...]:
        """Each hard spot once, with what to try there."""
        found: dict[tuple[str, tuple[Line, ...], int], Block] = {}
        for key, title, note in zip(self._alike, self.titles, self.route.passages, strict=True):
            ease = min(note.chance, found[key].ease) if key in found else note.chance
            found[key] = Block(title, READ, key[1], True, ease)
        blocks = list(found.values())
        # What is never done anywhere is short, and it hurts whoever did not read it.
        general = [Line(text, KEPT) for text in self.words.stuck]
        return (*blocks, *self._shut(), Block("Stuck anywhere else", READ, tuple(general)))

    def _shut(self) -> list[Block]:
        """What to do where nobody gets in at all."""
        steps = (a.shut for a in self.plan.attempts if a.opening == self.route.opening)
        return [
            Block(shut_case(shut), READ, (Line(shut_words(self.plan, shut), worth.IF_SHUT),))
            for shut in steps
            if shut is not None
        ]

    @cached_property
    def _alike(self) -> tuple[tuple[str, tuple[Line, ...], int], ...]:
        """What each hard spot is told by: runs of roots in one pipe that ask for the same are one."""
        return tuple(
            (note.name, self._if_held(note), -1 if note.somewhere else place)
            for place, note in enumerate(self.route.passages)
        )

    @cached_property
    def titles(self) -> tuple[str, ...]:
        """Each hard spot by where and what it is."""
        somewhere = (
            "Somewhere " if note.somewhere and not at_opening(note) else "" for note in self.route.passages
        )
        told = zip(somewhere, self.spans, self._alike, strict=True)
        return tuple(f"{where}{span}: {name}" for where, span, (name, *_) in told)

    @cached_property
    def spans(self) -> tuple[str, ...]:
        """Where each hard spot is; runs that are one are told as one."""
        runs: dict[tuple[str, tuple[Line, ...], int], list[PassageNote]] = {}
        for key, note in zip(self._alike, self.route.passages, strict=True):
            runs.setdefault(key, []).append(note)
        return tuple(self._spans(runs[key]) for key in self._alike)

    def _spans(self, notes: Sequence[PassageNote]) -> str:
        """From where to where a block holds; runs that meet are one span."""
        if at_opening(notes[0]):
            return AT_OPENING.capitalize()
        spans = joined(((note.at_low_m, note.at_high_m) for note in notes), self.reading)
        told = " or ".join(span_words(*each, self.reading) for each in spans)
        return f"{told} and on" if any(note.runs_on_m is not None for note in notes) else told

    def _if_held(self, note: PassageNote) -> tuple[Line, ...]:
        lines = self._techniques(self.once_held(note))
        if note.somewhere:
            lines.insert(0, Line(self.words.held_in_roots, worth.STUCK_HEAD, strong=True))
        if note.only_if:
            lines.insert(0, Line(note.only_if, worth.STUCK_HEAD, strong=True))
        if not lines:
            lines.append(Line("Only push gently here.", worth.STUCK_HEAD, strong=True))
        lines += [
            Line(self._not(t), _not_worth(t), strong=t.wedged)
            for t in note.techniques
            if t.verdict == "rejected" and t.chance is not None
        ]
        leave = self._leave(note)
        return (*lines, Line(leave, worth.STUCK_HEAD, strong=True)) if leave else tuple(lines)

    def _not(self, technique: TechniqueNote) -> str:
        if technique.unless:
            return self.words.but_at_rim.format(name=technique.name)
        return f"Not {technique.name} here{': it wedged' if technique.wedged else ''}."

    def likeliest_end(self, note: PassageNote) -> str:
        """Of the place where the push most likely ends, for where the names of what to try find no room."""
        if note.chance > min(each.chance for each in self.route.passages):
            return ""
        if note.somewhere:
            return self.words.held_in_roots
        names = ", ".join(each.name for each in self.once_held(note) if each.tries)
        gentle = f"Gently: {self.plan.chance_words.say(note.chance_plain)}."
        then = f"Then {names}." if names else ""
        leave = self._leave(note).partition(":")[0].rstrip(".")
        return " ".join(filter(None, (gentle, then, leave and f"{leave}.")))

    def once_held(self, note: PassageNote) -> list[TechniqueNote]:
        """What to try where the head stands still; what roots hold is pushed no further into them."""
        tried = to_do(self.plan, note)
        return [each for each in tried if not note.somewhere or each.name in self.words.once_held]

    def _techniques(self, tried: Sequence[TechniqueNote]) -> list[Line]:
        lines: list[Line] = []
        for technique in tried:
            more = f", {technique.tries} times at most"
            times = {0: "", 1: ", once", 2: ", twice at most"}.get(technique.tries, more)
            value = worth.LATER_STEP if any(line.steps for line in lines) else worth.FIRST_STEP
            value = worth.FITTED_STEP if technique.name in _FITTED else value
            steps = technique.steps
            called = technique.name if shows(technique) else doubted(self.plan, technique)
            if shows(technique):  # what it is for, so that nobody takes it for a try
                steps = (technique.because, *steps)
            name = f"{called[:1].upper()}{called[1:]}{times}" + ("" if steps else ".")
            lines.append(Line(name, worth.STUCK_HEAD, True, steps, value))
        return lines

    def among_roots(self) -> list[Line]:
        """How to go on where roots stand, as long as the head moves; alike in every run of them."""
        found: dict[str, Line] = {}
        for note in (each for each in self.route.passages if each.somewhere):
            onward = [each for each in to_do(self.plan, note) if each not in self.once_held(note)]
            lines = self._techniques(onward)
            found.update((line.text, replace(line, worth=min(line.worth, line.rest_worth))) for line in lines)
        return list(found.values())

    def _leave(self, note: PassageNote) -> str:
        for attempt in self.plan.attempts:
            if attempt.opening == self.route.opening:
                for leave in attempt.leave:
                    if leave.spot == note.name:
                        words = f"then {leave.then()}" if note.somewhere else leave.say()
                        return words[0].upper() + words[1:] + "."
        return ""


def _not_worth(technique: TechniqueNote) -> int:
    """What wedged a head there is no habit to be forgotten."""
    return worth.STUCK_HEAD if technique.wedged else worth.LATER_STEP


def shows(technique: TechniqueNote) -> bool:
    """Asked for by a rule though no try there is worth its minutes: it shows or eases, and passes nothing."""
    return technique.chance is not None and not technique.tries
