"""A plan and one of its routes to a card."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import inf

from advisor.card import worth
from advisor.card.behind import chance_lines, fallback_lines, gets_there
from advisor.card.content import KEPT, Block, Card, Line, Sight
from advisor.card.hazards import Hazards
from advisor.card.held import READ, Held, shows
from advisor.card.outside import mark_lines, tap_lines
from advisor.card.pushes import before_all, found_row, seen_elsewhere
from advisor.card.spans import span_words
from advisor.card.strip import strip_signs, strip_svg, strip_words
from advisor.outcome.attempts import STEADY
from advisor.quantity import Dimension, Units, show, show_counter, show_reading
from advisor.result.attempts import doubted, quick_push_told, to_do
from advisor.result.beyond import NOT_PAST, end_seen, limit_of, turn_before
from advisor.result.model import CautionNote, PassageNote, Plan, RouteNote, SightNote
from advisor.result.readings import AT_OPENING, at_opening
from advisor.result.told import asks_told, assumed_near, cautions_told, ended_at, found_on
from advisor.result.way_model import FoundNote
from advisor.site.target import SUSPECT
from advisor.tables.card import ENDS, GO_ON, PERHAPS, CardFile
from advisor.tables.conditions import ROOTS

TICK = "do, then tick"
LOG_ROWS = 8
_BOUNDS = (*NOT_PAST, "target", *ENDS)  # what the push is for lies between them, and what none goes past
_MOUTHS = ("joins", "into branch", "fork", "opening", PERHAPS)  # alike as the lens comes to them
_TURNING = ("bend", "into main", "up the main", "into branch", "fork")


def card_of(plan: Plan, route: RouteNote, words: CardFile, units: Units, date: str, log: bool) -> Card:
    """Everything that could stand on the card; what finds no room is left out when it is set."""
    told, (place, _, stands) = _Told(plan, route, words, units), route.place.partition(", ")
    return Card(
        job=plan.site,
        date=date,
        first=before_all(plan, words, units),
        first_left=plan.seen.card_left,
        lead=words.again if plan.seen.told else words.open,
        opening=route.opening,
        where=f"{route.opening_kind}, {place}",
        stands=stands,
        target=told.target(),
        kit=told.kit(),
        keys=told.keys(),
        pull_rests_on=f"by the {route.pull_rests_on}",
        lasts=f"push lasts {told.length(min(route.reach_m, route.reel_m))} (middle case)",
        minds=route.difficulty,
        boxes=told.hazards.boxes(),
        sights=told.sights(),
        stuck=told.held.blocks(),
        blocks=told.blocks(),
        log_rows=LOG_ROWS if log else 0,
        strip=strip_svg(route, units),
        strip_words=strip_words(route, units),
        strip_signs=strip_signs(route, words),
        strip_worth=worth.STRIP,
        log_worth=worth.LOG,
        fallback=fallback_lines(plan, route),
        chance=chance_lines(plan, route, units),
        gets_there=gets_there(plan, route, told.target()),
        called=(words.untold["chance"], words.untold["left"]),
    )


def _met_from(note: SightNote | FoundNote) -> float:
    """The reading by which a row is told: of what must not be passed the first at which it may begin."""
    return note.at_low_m if isinstance(note, SightNote) and note.sight in NOT_PAST else note.at_m


class _Told:
    def __init__(self, plan: Plan, route: RouteNote, words: CardFile, units: Units) -> None:
        self.plan, self.route, self.words, self.units = plan, route, words, units
        steps = {each.name for note in route.passages for each in to_do(plan, note)}
        self.string = "string" in steps
        stop = next((note for note in route.sights if note.sight in NOT_PAST), None)
        self.turn = turn_before(route.sights, stop.at_low_m) if stop is not None else None
        # Nobody comes to what lies behind it.
        self.ends_m = inf if stop is None or stop.unless else stop.at_high_m
        self.bar = ended_at(plan, route)
        self.held = Held(plan, route, words, self.reading)
        told = {each.id for note in route.passages for each in self._heeded(note)}  # in the rows
        notes = [note for note in cautions_told(plan, (route,)) if note.id not in told]
        self.hazards = Hazards(plan, notes, asks_told(plan, (route,)), words)

    def length(self, value: float) -> str:
        return show(value, Dimension.LENGTH, self.units)

    def reading(self, value: float) -> str:
        return show_reading(value, self.units)

    def place(self, note: SightNote | PassageNote) -> str:
        return AT_OPENING if at_opening(note) else self.reading(note.at_m)

    def kit(self) -> tuple[str, ...]:
        own = self.route.loadout
        parts = [own.head, own.spring, own.rod, own.guide or "no guide"]
        if self.string:
            parts.append("string")
        take = f"Take: {', '.join(parts)}."
        bring = f"Bring: {', '.join(self.route.bring)}." if self.route.bring else None
        return tuple(filter(None, (*self.plan.left_in, take, bring, self.plan.out)))

    def keys(self) -> tuple[tuple[str, str], ...]:
        route = self.route
        limit = limit_of(route)
        far = (self.length(route.length_m), "to the far end")
        if limit is not None:  # a glance at the far end would send the head on into it
            far = (self.reading(limit.at_low_m), f"no further{self._unless(limit.unless)}: {limit.name}")
        quick = ((self.length(route.stroke_m), "longest guided stroke"),) if quick_push_told(route) else ()
        return (
            (self.length(route.hand_distance_m), "most free rod at the hand"),
            *quick,
            far,
            (show(route.pull_limit_n, Dimension.FORCE, self.units), "never pull more"),
        )

    def sights(self) -> tuple[Sight, ...]:
        """The rows of the route in the order in which they may be met; where the part to see begins at
        something else, that row says so. Runs of roots that are one hard spot are one row: the harder."""
        rows: list[Sight] = []
        mouths: list[int] = []
        there: list[SightNote | FoundNote] = [*self.route.sights, *found_on(self.plan, self.route)]
        for note in sorted(there, key=_met_from):
            if isinstance(note, FoundNote):
                rows.append(found_row(note, self.plan, self.words, self.units))
                continue
            row = self._sight(note)
            alike = next((n for n, each in enumerate(rows) if row.hard and each.short == row.short), None)
            if note.sight == ROOTS and alike is not None:
                rows[alike] = min(rows[alike], row, key=lambda each: each.ease)
                continue
            here = rows and (rows[-1].reading, rows[-1].span) == (row.reading, row.span)
            if note.sight == "target" and here:
                last = rows.pop()
                see = f"{last.see}; {self.words.seen_from}"
                heed = " ".join(filter(None, (f"{self.words.seen_from.capitalize()}.", last.heed)))
                row = replace(last, see=see, heed=heed, worth=max(last.worth, row.worth))
            elif note.sight in _MOUTHS:
                mouths.append(len(rows))
            rows.append(row)
        # Whoever looks for one mouth counts those before it: the first that comes is else taken for it.
        for before, after in reversed([*pairwise(mouths)]):
            own, needed = rows[before].worth, min(rows[after].worth, worth.TURNING_ROW)
            if own < needed:
                rows[before] = replace(rows[before], worth=needed, rest_worth=own)
        return tuple(rows)

    def _sight(self, note: SightNote) -> Sight:
        words = self.words.sights[note.goes_on or note.sight]
        hard = self.route.passages[note.hard] if note.hard is not None else None
        if note.sight in _BOUNDS:
            value = KEPT if note.at_low_m <= self.ends_m else worth.EASY_SIGHT
        elif hard is not None:
            value = worth.LIKELIEST_ROW if self.held.likeliest_end(hard) else worth.HARD_ROW
        elif note is self.turn:
            value = worth.TURNING_ROW  # by it what must not be passed is known to be near
        else:
            value = worth.TURNING_SIGHT if note.sight in _TURNING else worth.EASY_SIGHT
        # What must not be entered may begin where its range does; of all else the middle is what to look for.
        at = self.reading(_met_from(note)) if note.sight in NOT_PAST else self.place(note)
        see = self._see(note)
        span = "" if at_opening(note) else span_words(note.at_low_m, note.at_high_m, self.reading)
        if note.sight == ROOTS and note.hard is not None:  # runs that are one hard spot are told as one
            span = self.held.spans[note.hard]
        run = note.sight == ROOTS  # at any joint of it: one reading would be taken for the place
        return Sight(
            reading=span if run else at,
            span="" if run else span,
            see=see,
            do=f"{self._do(hard)} Feel: {words.feel}." if hard is not None else f"Feel: {words.feel}.",
            missed=self._missed(note),
            hard=hard is not None,
            worth=value,
            rest_worth=worth.HARD_SIGHT if hard is not None else KEPT,
            short=f"{at}: {see}" if note.hard is None else self.held.titles[note.hard],
            heed=self._heed(hard) if hard is not None else "",
            behind=self._missed_short(note),
            likeliest_end=self.held.likeliest_end(hard) if hard is not None else "",
            ease=hard.chance if hard is not None else 0.0,
        )

    def _unless(self, told: str | bool) -> str:
        return f" {self.words.unless}" if told else ""

    def _see(self, note: SightNote) -> str:
        side = {"left": "at left", "right": "at right", "top": "on top"}.get(note.side or "", "")
        see, unless = self.words.sights[note.goes_on or note.sight].see, self._unless(note.unless)
        words = see.format(name=note.name, side=side, unless=unless)
        see = " ".join(words.split()).replace(" :", ":")
        turn = turn_before(self.route.sights, note.at_low_m) if note.sight in NOT_PAST else None
        if turn is None or turn.to_stop_m is None:
            return see
        return f"{see}. {self.words.from_turn.format(seen=turn.name, on=self.length(turn.to_stop_m))}"

    def _missed(self, note: SightNote) -> str:
        """What it means when it does not come; what is the opening itself cannot be the wrong pipe."""
        if at_opening(note):
            return self.words.missed_opening
        words, stop = self.words, self.route.not_past
        if note.sight in ENDS and (seen := end_seen(self.route, self.plan.found)) is not None:
            return words.missed_seen_end.format(reading=show_counter(seen.at_m, self.units))
        told = words.missed_assumed if note.assumed else words.sights[note.goes_on or note.sight].missed
        if not told.startswith(GO_ON) and note.sight not in ENDS:
            return told
        if stop is not None and note.at_high_m >= stop.at_low_m:
            return words.missed_stop.format(name=stop.name)
        if note.sight == "end" and stop is not None and stop.holds:
            told = words.missed_end.format(name=stop.name, reading=self.reading(stop.at_low_m))
        return told.replace(GO_ON, self._behind(note, words.missed_slow) or GO_ON, 1)

    def _missed_short(self, note: SightNote) -> str:
        """The same of an end, for half a sheet: who is to stop there stops on every paper."""
        if note.sight not in ENDS:
            return ""
        told = self._missed(note)
        # What else nobody goes past has a row of its own, and half a sheet has no room to say it twice.
        own = self.words.sights[note.goes_on or note.sight].missed
        if told.startswith(GO_ON) or own.startswith(GO_ON):
            return self._behind(note, self.words.missed_short)
        return self.words.missed_half.format(missed=told)

    def _behind(self, note: SightNote, words: str) -> str:
        """What may hold or hurt behind the end of the way, where nothing that ends it may come before."""
        stop = self.route.not_past
        ends = inf if stop is None else stop.at_low_m if note.at_high_m < stop.at_low_m else 0.0
        behind = [each for each in self.route.behind_end if each.at_low_m < ends]
        froms = ["here" if each.at_low_m <= note.at_m else self.reading(each.at_low_m) for each in behind]
        places = (f"{at} ({', '.join(each.names)})" for at, each in zip(froms, behind, strict=True))
        return words.format(places=" and ".join(places)) if behind else ""

    def _do(self, note: PassageNote) -> str:
        tries = (each for each in self.held.once_held(note) if each.name != STEADY and not shows(each))
        tried = [doubted(self.plan, each) for each in tries][:2]
        drags = ", never if it drags" if note.somewhere else ""
        gentle = f"Push gently{drags}: {self.plan.chance_words.say(note.chance_plain)}."
        # In full where it is first met: said again word for word it is read by nobody.
        before = self.route.passages[: self.route.passages.index(note)]
        told = {each.id for other in before for each in self._heeded(other)}
        heed = [each.short if each.short and each.id in told else each.text for each in self._heeded(note)]
        if note.only_if:
            heed, gentle = [note.only_if, *heed], f"Seen open? {gentle}"
        wedged = [f"Not {each.name}: it wedged here." for each in note.techniques if each.wedged]
        return " ".join((*heed, f"{gentle} Then {', '.join(tried)}." if tried else gentle, *wedged))

    def _heed(self, note: PassageNote) -> str:
        told = [*filter(None, (note.only_if,)), *(each.short or each.text for each in self._heeded(note))]
        told += [f"Not {each.name}: it wedged." for each in note.techniques if each.wedged]
        return " ".join((*told, self.words.in_roots) if note.somewhere else told)

    def _heeded(self, note: PassageNote) -> list[CautionNote]:
        return [each for each in note.here if each.id in self.words.in_the_row]

    def blocks(self) -> tuple[Block, ...]:
        plan, words = self.plan, self.words
        before = [Line(text, worth.BEFORE_SAFE, called=words.untold["before"]) for text in words.before_safe]
        before += [Line(text, worth.BEFORE) for text in words.before]
        opening = [Line(text, worth.OPENING_STEP) for text in self.route.opening_steps]
        # What the push will show of the water nobody knows yet.
        after = ((words.after_string,) if self.string else ()) + words.after_push(water=None)
        marks = mark_lines(self.route, self.bar, self.units, words)
        assumed = [Line(f"{a.about}: {a.taken}", worth.ASSUMED) for a in assumed_near(plan, self.route)]
        return (
            *seen_elsewhere(plan, self.route, words),
            Block("Among roots, while it moves", "", tuple(self.held.among_roots())),
            Block("Before", TICK, tuple(before)),
            Block("Opening it", READ, tuple(opening)),
            *self.hazards.blocks(),
            Block("Water that tells", READ, tuple(tap_lines(self.route, self.units))),
            Block("Marking it above ground", READ, tuple(marks)),
            Block("After", TICK, tuple(Line(text, worth.AFTER) for text in after)),
            Block("Assumed, not seen", "", tuple(assumed)),
        )

    def target(self) -> str:
        """What the push is for; where the trouble is likelier elsewhere, that too, with both chances."""
        target, first = self.plan.target, next(iter(self.plan.suspects), None)
        chances = {each.section: each.chance for each in self.plan.suspects}
        here = f"{target.told} ({chances.get(target.words, 0.0):.0%})"
        if first is None or target.kind != SUSPECT or target.part or target.words == first.section:
            on = target.straight_on
            if on is None or on.opening != self.route.opening:
                return target.words  # of what it is a part goes for want of room
            return f"{here}. As well straight on: {on.section} ({on.chance:.0%})"
        return f"{here}. The trouble is likelier in {first.section} ({first.chance:.0%})"
