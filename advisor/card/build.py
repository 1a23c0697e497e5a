"""A plan and one of its routes to a card."""

from __future__ import annotations

import re
from collections.abc import Sequence

from advisor.card import worth
from advisor.card.content import KEPT, Block, Box, Card, Line, Sight, ended
from advisor.card.strip import strip_svg, strip_words
from advisor.quantity import Dimension, Units, show
from advisor.result.attempts import to_do
from advisor.result.model import AskNote, CautionNote, PassageNote, Plan, RouteNote, SightNote
from advisor.tables.card import CardFile

READ, TICK = "read, then do", "do, then tick"
MOST_ITEMS = 9  # of a block: fewer than ten are read (Gawande's checklists, as told in several places)
MOST_DANGERS, MOST_WARNINGS = 1, 3
LOG_ROWS = 8
_TURNING = ("bend", "into main", "up the main", "into branch", "fork", "stop", "target", "end")


def card_of(plan: Plan, route: RouteNote, words: CardFile, units: Units, date: str, log: bool) -> Card:
    """Everything that could stand on the card; what finds no room is left out when it is set."""
    told = _Told(plan, route, words, units)
    boxes, lesser = told.boxes()
    stuck, blocks = told.stuck(), told.blocks(lesser)
    return Card(
        job=plan.site,
        date=date,
        opening=route.opening,
        where=f"{route.opening_kind}, {route.place}",
        target=plan.target.words,
        kit=told.kit(),
        keys=told.keys(),
        boxes=boxes,
        sights=told.sights(),
        stuck=stuck,
        blocks=blocks,
        log_rows=LOG_ROWS if log else 0,
        strip=strip_svg(route, units),
        strip_words=strip_words(route, units),
        strip_worth=worth.STRIP,
        log_worth=worth.LOG,
        fallback=told.fallback(),
        chance=told.chance(),
        left_out=told.over,
    )


class _Told:
    def __init__(self, plan: Plan, route: RouteNote, words: CardFile, units: Units) -> None:
        self.plan, self.route, self.words, self.units = plan, route, words, units
        self.over = 0  # lines beyond what a block may hold

    def length(self, value: float) -> str:
        return show(value, Dimension.LENGTH, self.units)

    def span(self, low: float, high: float) -> str:
        """A range, its unit told once where both ends share it."""
        one, other = self.length(low), self.length(high)
        number, _, unit = one.rpartition(" ")
        return f"{number} to {other}" if number and other.endswith(f" {unit}") else f"{one} to {other}"

    def force(self, value: float) -> str:
        return show(value, Dimension.FORCE, self.units)

    def kit(self) -> tuple[str, ...]:
        own = self.route.loadout
        parts = [own.head, own.spring, own.rod, own.guide or "no guide"]
        if any(t.name == "string" and t.verdict == "try" for p in self.route.passages for t in p.techniques):
            parts.append("string")
        take = f"Take: {', '.join(parts)}."
        return (take, f"Bring: {', '.join(self.route.bring)}.") if self.route.bring else (take,)

    def keys(self) -> tuple[tuple[str, str], ...]:
        route = self.route
        return (
            (self.length(route.hand_distance_m), "most from hand to opening"),
            (self.length(route.stroke_m), "longest stroke"),
            (self.length(route.length_m), "to the far end"),
            (self.length(min(route.reach_m, route.reel_m)), "push is good for"),
            (self.force(route.pull_limit_n), "never pull more"),
        )

    def boxes(self) -> tuple[tuple[Box, ...], list[CautionNote]]:
        """At most one danger and three warnings in boxes; the rest as lines, gravest first."""
        found = {note.id: note for note in (*self.plan.cautions, *self.route.cautions)}
        boxed: list[Box] = []
        lesser: list[CautionNote] = []
        for word, most in (("danger", MOST_DANGERS), ("warning", MOST_WARNINGS)):
            notes = [note for note in found.values() if note.word == word]
            boxed += [Box(note.word.upper(), note.text) for note in notes[:most]]
            lesser += notes[most:]
        lesser += [n for word in ("caution", "notice") for n in found.values() if n.word == word]
        return tuple(boxed), lesser

    def sights(self) -> tuple[Sight, ...]:
        return tuple(self._sight(note) for note in self.route.sights)

    def _sight(self, note: SightNote) -> Sight:
        words = self.words.sights[note.sight]
        hard = self.route.passages[note.hard] if note.hard is not None else None
        if hard is not None:
            value = worth.HARD_SIGHT
        else:
            value = worth.TURNING_SIGHT if note.sight in _TURNING else worth.EASY_SIGHT
        side = {"left": "at left", "right": "at right", "top": "on top"}.get(note.side or "", "")
        return Sight(
            reading=self.length(note.at_m),
            span=self.span(note.at_low_m, note.at_high_m),
            see=" ".join(words.see.format(name=note.name, side=side).split()).replace(" :", ":"),
            do=f"{self._do(hard)} Feel: {words.feel}." if hard is not None else f"Feel: {words.feel}.",
            missed=self.words.missed_assumed if note.assumed else words.missed,
            hard=hard is not None,
            worth=value,
        )

    def _do(self, note: PassageNote) -> str:
        tried = [each.name for each in to_do(self.plan, note)][:2]
        gentle = f"Push gently: {self.plan.chance_words.say(note.chance_plain)}."
        return f"{gentle} Then {', '.join(tried)}." if tried else gentle

    def stuck(self) -> tuple[Block, ...]:
        blocks = []
        for note in self.route.passages:
            lines: list[Line] = []
            for place, technique in enumerate(to_do(self.plan, note)):
                times = {0: "", 1: ", once", 2: ", twice at most"}.get(
                    technique.tries, f", {technique.tries} times at most"
                )
                lines.append(Line(f"{technique.name.capitalize()}{times}:", worth.STUCK_HEAD, strong=True))
                value = worth.FIRST_STEP if place == 0 else worth.LATER_STEP
                lines += [Line(step, value) for step in technique.steps]
            lines += [
                Line(f"Not {t.name} here.", worth.LATER_STEP)
                for t in note.techniques
                if t.verdict == "rejected" and t.chance is not None
            ]
            leave = self._leave(note)
            if leave:
                lines.append(Line(leave, worth.STUCK_HEAD, strong=True))
            if lines:
                span = self.span(note.at_low_m, note.at_high_m)
                blocks.append(self._block(f"{span}: {note.name}", READ, lines))
        general = [Line(text, worth.FIRST_STEP) for text in self.words.stuck]
        return (*blocks, self._block("Anywhere else", READ, general))

    def _leave(self, note: PassageNote) -> str:
        for attempt in self.plan.attempts:
            if attempt.opening == self.route.opening:
                for leave in attempt.leave:
                    if leave.spot == note.name:
                        words = leave.say()
                        return words[0].upper() + words[1:] + "."
        return ""

    def blocks(self, lesser: Sequence[CautionNote]) -> tuple[Block, ...]:
        plan, words = self.plan, self.words
        opening = [Line(text, worth.OPENING_STEP) for text in self.route.opening_steps]
        # The whole text stands on the screen; here the question and what it is about.
        asked = (*plan.ask, *self.route.ask)
        ask = [Line(f"{_question(a)} {_first_sentence(a.caution.text)}", worth.ASK) for a in asked]
        mind = [Line(f"{note.word.capitalize()}: {note.text}", _worth_of(note)) for note in lesser]
        assumed = [Line(f"{a.about}: {a.taken}", worth.ASSUMED) for a in plan.assumed]
        return (
            self._block("Before", TICK, [Line(text, worth.BEFORE) for text in words.before]),
            self._block("Opening it", READ, opening),
            self._block("Not known: ask first", "", ask),
            self._block("Mind as well", "", mind),
            self._block("Water that tells", READ, self._taps()),
            self._block("Marking it above ground", READ, self._marks()),
            self._block("After", TICK, [Line(text, worth.AFTER) for text in words.after]),
            self._block("Assumed, not seen", "", assumed),
        )

    def _block(self, title: str, how: str, lines: Sequence[Line]) -> Block:
        """A block of no more items than are read; what is over is counted as left out."""
        kept = list(lines)
        while len(kept) > MOST_ITEMS:
            least = min(line.worth for line in kept)
            kept.pop(max(i for i, line in enumerate(kept) if line.worth == least))
            self.over += 1
        return Block(title, how, ended(kept))

    def fallback(self) -> tuple[Line, ...]:
        """What the order of attempts has after this way, in its own words."""
        say = self.plan.chance_words.say
        steps = [a for a in self.plan.attempts if a.opening != self.route.opening]
        return tuple(Line(f"{a.opening}, {a.loadout}: {say(a.chance)}", KEPT) for a in steps)

    def chance(self) -> tuple[Line, ...]:
        """From the opening to the far end: what each hard spot leaves of the chance."""
        plan, route, say = self.plan, self.route, self.plan.chance_words.say
        found = [
            f"{self.length(p.at_m)}, {p.name}: gently {say(p.chance_plain)}, with all {say(p.chance)}"
            for p in route.passages
        ]
        found.append(
            f"Push is good for {self.length(route.reach_m)}; the way is {self.length(route.length_m)}."
        )
        found.append(f"In all {say(route.chance)}, over {plan.worlds:,} cases of what is not known.")
        if plan.weak:
            found.append("Weak ground: " + "; ".join(plan.weak) + ".")
        return tuple(Line(text, KEPT) for text in found)

    def _taps(self) -> list[Line]:
        found = []
        for tap in self.route.taps:
            comes = "from behind" if tap.from_behind else "toward you"
            found.append(
                Line(
                    f"Run {tap.fixture}: enters at {self.length(tap.at_m)}, then flows {comes}.",
                    worth.TAP,
                )
            )
        return found

    def _marks(self) -> list[Line]:
        found = []
        for note in self.route.sights:
            if note.sight not in ("target", "end", "into main") and note.hard is None:
                continue
            if not note.level:
                continue
            text = f"Mark {self.length(note.at_m)}: {note.name}"
            if note.depth_m is not None and note.depth_m > 0:
                sure = "" if note.depth_measured else " (slope assumed)"
                text += f", about {self.length(note.depth_m)} deep{sure}"
            found.append(Line(text + ".", worth.MARK))
        found += [Line(text, worth.MARK) for text in self.words.locating]
        return found


def _question(note: AskNote) -> str:
    words = ", ".join(note.about)
    return f"{words[0].upper()}{words[1:]}?"


def _first_sentence(text: str) -> str:
    return re.split(r"(?<=[.?!])\s", text.strip())[0]


def _worth_of(note: CautionNote) -> int:
    known = {"danger": KEPT, "warning": worth.WARNING, "notice": worth.NOTICE}
    return known.get(note.word, worth.CAUTION)
