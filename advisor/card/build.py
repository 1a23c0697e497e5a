"""A plan and one of its routes to a card."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property

from advisor.card import worth
from advisor.card.content import KEPT, Block, Card, Line, Sight
from advisor.card.hazards import Hazards
from advisor.card.outside import mark_lines, tap_lines
from advisor.card.spans import joined
from advisor.card.strip import strip_signs, strip_svg, strip_words
from advisor.outcome.attempts import STEADY
from advisor.quantity import Dimension, Units, show, show_reading
from advisor.result.attempts import doubted, quick_push_told, shut_words, to_do
from advisor.result.beyond import NOT_PAST, limit_of
from advisor.result.model import PassageNote, Plan, RouteNote, SightNote, TechniqueNote
from advisor.result.readings import AT_OPENING, at_opening
from advisor.result.told import asks_told, cautions_told
from advisor.tables.card import GO_ON, CardFile
from advisor.tables.conditions import ROOTS

READ, TICK = "read, then do", "do, then tick"
LOG_ROWS = 8
_FITTED = ("guide",)  # techniques that begin before the head goes in
_TURNING = ("bend", "into main", "up the main", "into branch", "fork", "target", "end")


def card_of(plan: Plan, route: RouteNote, words: CardFile, units: Units, date: str, log: bool) -> Card:
    """Everything that could stand on the card; what finds no room is left out when it is set."""
    told = _Told(plan, route, words, units)
    return Card(
        job=plan.site,
        date=date,
        opening=route.opening,
        where=f"{route.opening_kind}, {route.place}",
        target=plan.target.told,
        kit=told.kit(),
        keys=told.keys(),
        pull_rests_on=f"by the {route.pull_rests_on}",
        minds=(*route.difficulty, *plan.stopped),
        boxes=told.hazards.boxes(),
        sights=told.sights(),
        stuck=told.stuck(),
        blocks=told.blocks(),
        log_rows=LOG_ROWS if log else 0,
        strip=strip_svg(route, units),
        strip_words=strip_words(route, units),
        strip_signs=strip_signs(route, words),
        strip_worth=worth.STRIP,
        log_worth=worth.LOG,
        fallback=told.fallback(),
        chance=told.chance(),
    )


class _Told:
    def __init__(self, plan: Plan, route: RouteNote, words: CardFile, units: Units) -> None:
        self.plan, self.route, self.words, self.units = plan, route, words, units
        steps = {each.name for note in route.passages for each in to_do(plan, note)}
        self.string = "string" in steps
        self.hazards = Hazards(plan, cautions_told(plan, (route,)), asks_told(plan, (route,)), words)

    def length(self, value: float) -> str:
        return show(value, Dimension.LENGTH, self.units)

    def reading(self, value: float) -> str:
        return show_reading(value, self.units)

    def span(self, low: float, high: float) -> str:
        """A range of readings, their unit told once."""
        return f"{self.reading(low).partition(' ')[0]} to {self.reading(high)}"

    def place(self, note: SightNote | PassageNote) -> str:
        return AT_OPENING if at_opening(note) else self.reading(note.at_m)

    def force(self, value: float) -> str:
        return show(value, Dimension.FORCE, self.units)

    def kit(self) -> tuple[str, ...]:
        own = self.route.loadout
        parts = [own.head, own.spring, own.rod, own.guide or "no guide"]
        if self.string:
            parts.append("string")
        take = f"Take: {', '.join(parts)}."
        bring = f"Bring: {', '.join(self.route.bring)}." if self.route.bring else None
        return tuple(filter(None, (take, bring, self.plan.out)))

    def keys(self) -> tuple[tuple[str, str], ...]:
        route = self.route
        limit = limit_of(route)
        far = (self.length(route.length_m), "to the far end")
        if limit is not None:  # a glance at the far end would send the head on into it
            far = (self.reading(limit.at_low_m), f"no further: {limit.name}")
        quick = ((self.length(route.stroke_m), "longest guided stroke"),) if quick_push_told(route) else ()
        return (
            (self.length(route.hand_distance_m), "most free rod at the hand"),
            *quick,
            far,
            (self.length(min(route.reach_m, route.reel_m)), "push lasts (middle case)"),
            (self.force(route.pull_limit_n), "never pull more"),
        )

    def sights(self) -> tuple[Sight, ...]:
        """The rows of the route; where the part to see begins at something else, that row says so."""
        rows: list[Sight] = []
        for note in self.route.sights:
            row = self._sight(note)
            here = rows and (rows[-1].reading, rows[-1].span) == (row.reading, row.span)
            if note.sight == "target" and here:
                last = rows.pop()
                see = f"{last.see}; {self.words.seen_from}"
                row = replace(last, see=see, worth=max(last.worth, row.worth))
            rows.append(row)
        return tuple(rows)

    def _sight(self, note: SightNote) -> Sight:
        words = self.words.sights[note.sight]
        hard = self.route.passages[note.hard] if note.hard is not None else None
        if hard is not None:
            value = worth.HARD_SIGHT
        elif note.sight in NOT_PAST:
            value = KEPT
        else:
            value = worth.TURNING_SIGHT if note.sight in _TURNING else worth.EASY_SIGHT
        # What must not be entered may begin where its range does; of all else the middle is what to look for.
        at = self.reading(note.at_low_m) if note.sight in NOT_PAST else self.place(note)
        side = {"left": "at left", "right": "at right", "top": "on top"}.get(note.side or "", "")
        see = " ".join(words.see.format(name=note.name, side=side).split()).replace(" :", ":")
        span = "" if at_opening(note) else self.span(note.at_low_m, note.at_high_m)
        run = note.sight == ROOTS  # at any joint of it: one reading would be taken for the place
        return Sight(
            reading=span if run else at,
            span="" if run else span,
            see=see,
            do=f"{self._do(hard)} Feel: {words.feel}." if hard is not None else f"Feel: {words.feel}.",
            missed=self._missed(note),
            hard=hard is not None,
            worth=value,
            short=f"{at}: {see}" if note.hard is None else self.titles[note.hard],
        )

    def _missed(self, note: SightNote) -> str:
        """What it means when it does not come; what is the opening itself cannot be the wrong pipe."""
        if at_opening(note):
            return self.words.missed_opening
        words, stop = self.words, self.route.not_past
        told = words.missed_assumed if note.assumed else words.sights[note.sight].missed
        if stop is None or not told.startswith(GO_ON):
            return told
        if note.at_high_m >= stop.at_low_m:
            return words.missed_stop.format(name=stop.name)
        if note.sight == "end" and stop.holds:
            return words.missed_end.format(name=stop.name, reading=self.reading(stop.at_low_m))
        return told

    def _do(self, note: PassageNote) -> str:
        tried = [doubted(self.plan, each) for each in self._once_held(note) if each.name != STEADY][:2]
        drags = ", never if it drags" if note.somewhere else ""
        gentle = f"Push gently{drags}: {self.plan.chance_words.say(note.chance_plain)}."
        heed = [each.text for each in note.here if each.id in self.words.in_the_row]
        return " ".join((*heed, f"{gentle} Then {', '.join(tried)}." if tried else gentle))

    def stuck(self) -> tuple[Block, ...]:
        """Each hard spot once, with what to try there."""
        found = dict(zip(self._alike, self.titles, strict=True))
        blocks = [Block(title, READ, lines, spot=True) for (_, lines, _), title in found.items()]
        # What is never done anywhere is short, and it hurts whoever did not read it.
        general = [Line(text, worth.WARNING) for text in self.words.stuck]
        return (*blocks, *self._shut(), _block("Stuck anywhere else", READ, general))

    def _shut(self) -> list[Block]:
        """What to do where nobody gets in at all."""
        steps = (a.shut for a in self.plan.attempts if a.opening == self.route.opening)
        told = [Line(shut_words(self.plan, shut), worth.IF_SHUT) for shut in steps if shut is not None]
        return [_block("Not there, or does not open", READ, told)] if told else []

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
        runs: dict[tuple[str, tuple[Line, ...], int], list[PassageNote]] = {}
        for key, note in zip(self._alike, self.route.passages, strict=True):
            runs.setdefault(key, []).append(note)
        return tuple(f"{self._spans(runs[key])}: {key[0]}" for key in self._alike)

    def _spans(self, notes: Sequence[PassageNote]) -> str:
        """From where to where a block holds; runs that meet are one span."""
        if at_opening(notes[0]):
            return AT_OPENING.capitalize()
        spans = joined(((note.at_low_m, note.at_high_m) for note in notes), self.reading)
        told = " or ".join(self.span(*each) for each in spans)
        return f"Somewhere {told}" if notes[0].somewhere else told

    def _if_held(self, note: PassageNote) -> tuple[Line, ...]:
        lines = self._techniques(self._once_held(note))
        if note.somewhere:
            lines.insert(0, Line(self.words.held_in_roots, worth.STUCK_HEAD, strong=True))
        if not lines:
            lines.append(Line("Only push gently here.", worth.STUCK_HEAD, strong=True))
        lines += [
            Line(f"Not {t.name} here.", worth.LATER_STEP)
            for t in note.techniques
            if t.verdict == "rejected" and t.chance is not None
        ]
        leave = self._leave(note)
        return (*lines, Line(leave, worth.STUCK_HEAD, strong=True)) if leave else tuple(lines)

    def _once_held(self, note: PassageNote) -> list[TechniqueNote]:
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
            called = doubted(self.plan, technique)
            name = f"{called[:1].upper()}{called[1:]}{times}" + ("" if technique.steps else ".")
            lines.append(Line(name, worth.STUCK_HEAD, True, technique.steps, value))
        return lines

    def _among_roots(self) -> list[Line]:
        """How to go on where roots stand, as long as the head moves; alike in every run of them."""
        found: dict[str, Line] = {}
        for note in (each for each in self.route.passages if each.somewhere):
            onward = [each for each in to_do(self.plan, note) if each not in self._once_held(note)]
            lines = self._techniques(onward)
            found.update(
                (line.text, replace(line, worth=min(line.worth, line.steps_worth))) for line in lines
            )
        return list(found.values())

    def _leave(self, note: PassageNote) -> str:
        for attempt in self.plan.attempts:
            if attempt.opening == self.route.opening:
                for leave in attempt.leave:
                    if leave.spot == note.name:
                        words = f"then {leave.then()}" if note.somewhere else leave.say()
                        return words[0].upper() + words[1:] + "."
        return ""

    def blocks(self) -> tuple[Block, ...]:
        plan, words = self.plan, self.words
        before = [Line(text, worth.SAFE_FIRST) for text in words.before_safe]
        before += [Line(text, worth.BEFORE) for text in words.before]
        opening = [Line(text, worth.OPENING_STEP) for text in self.route.opening_steps]
        # What the push will show of the water nobody knows yet.
        after = ((words.after_string,) if self.string else ()) + words.after_push(water=None)
        assumed = [Line(f"{a.about}: {a.taken}", worth.ASSUMED) for a in plan.assumed]
        return (
            _block("Among roots, while it moves", "", self._among_roots()),
            _block("Before", TICK, before),
            _block("Opening it", READ, opening),
            *self.hazards.blocks(),
            _block("Water that tells", READ, tap_lines(self.route, self.units)),
            _block("Marking it above ground", READ, mark_lines(self.route, self.units, words)),
            _block("After", TICK, [Line(text, worth.AFTER) for text in after]),
            _block("Assumed, not seen", "", assumed),
        )

    def fallback(self) -> tuple[Line, ...]:
        """What the order of attempts has after this way, in its own words."""
        say = self.plan.chance_words.say
        steps = [a for a in self.plan.attempts if a.opening != self.route.opening]
        return tuple(Line(f"{a.opening}, {a.loadout}: {say(a.chance)}", KEPT) for a in steps)

    def chance(self) -> tuple[Line, ...]:
        """From the opening to the far end: what each hard spot leaves of the chance."""
        plan, route, say = self.plan, self.route, self.plan.chance_words.say
        found = [
            f"{self.place(p)}, {p.name}: gently {say(p.chance_plain)}, with all {say(p.chance)}"
            for p in route.passages
        ]
        found.append(
            f"In the middle case the push lasts {self.length(route.reach_m)}; "
            f"the way is {self.length(route.length_m)}."
        )
        cases = f"over {plan.worlds:,} cases of what is not known"
        found.append(f"To see all of it and come back: {say(route.chance)}, {cases}.")
        if plan.weak:
            found.append("Weak ground: " + "; ".join(plan.weak) + ".")
        return tuple(Line(text, KEPT) for text in found)


def _block(title: str, how: str, lines: Sequence[Line]) -> Block:
    return Block(title, how, tuple(lines))
