"""The way in on the screen: the kit, what comes before, the hands at the opening, each hard spot in turn."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees

from advisor.quantity import Dimension, Units, never_certain, show, show_counter, show_reading
from advisor.result.attempts import quick_push_told, to_do
from advisor.result.beyond import NOT_PAST, turn_before
from advisor.result.ends import LEAST
from advisor.result.model import PassageNote, Plan, RouteNote, SightNote, TechniqueNote
from advisor.result.readings import AT_OPENING, at_opening
from advisor.result.told import found_on
from advisor.result.way_model import FoundNote, NotPastNote
from advisor.rulebase.rule import GRAVE
from advisor.terminal.page import Page

SHOWN_ENDS = 3  # what ends a way: more is noise


def show_way_in(plan: Plan, units: Units, page: Page) -> None:
    """Print the first way of a plan that has one."""
    _Way(plan, units, page).whole(plan.routes[0])


class _Way:
    def __init__(self, plan: Plan, units: Units, page: Page) -> None:
        self.plan, self.units, self.page = plan, units, page
        self.say = plan.chance_words.say

    def length(self, value: float) -> str:
        return show(value, Dimension.LENGTH, self.units)

    def whole(self, route: RouteNote) -> None:
        page = self.page
        page.heading(f"The way in from {route.opening}{self.plan.seen.aim}")
        name, spring = route.loadout.name, route.loadout.spring
        page.line(f"Kit: {name}." if route.loadout.names_spring else f"Kit: {name}, with the {spring}.")
        on = self.plan.target.straight_on
        if on is not None:
            page.strong(f"It may lie straight on behind {on.behind} as well, {on.chance:.0%}: {on.section}.")
            page.line(
                "The rod mostly lasts to its end. For both in one push, plan anew with this on the sheet:"
            )
            page.line(f"look at: {on.look_at}", indent=5)
        page.strong("Before the head goes in")
        page.steps(list(route.before))
        page.strong("At the opening")
        page.line(f"Free rod between hand and opening: at most {self.length(route.hand_distance_m)}.")
        if quick_push_told(route):
            self._stroke(route)
        # Where the drain ends far behind the way nobody comes to it.
        seen = route.not_past is not None and not route.not_past.behind
        if route.not_past is not None and (seen or any(note.sight in NOT_PAST for note in route.sights)):
            self._not_past(route.not_past, turn_before(route.sights, route.not_past.at_low_m))
        page.line(
            f"The way is {self.length(route.length_m)}; "
            f"in the middle case the push lasts {self.length(route.reach_m)}; "
            f"the reel holds {self.length(route.reel_m)}."
        )
        page.line(
            f"Drawing back takes about {show(route.pull_n, Dimension.FORCE, self.units)}; "
            f"never pull more than {show(route.pull_limit_n, Dimension.FORCE, self.units)}. "
            "That is the least that spring, coupling or hand may bear; what their makers say stands above it."
        )
        if not route.ended:
            page.line(
                f"A head that gets there will have shown about {self.length(route.seen_m)} of what is to be "
                "seen." + "".join(f" Not seen: {u}." for u in route.unseen)
            )
            page.line(self._ends(route))
        for why in route.difficulty:
            page.line(f"Mind: {why}")
        if not route.passages:
            page.line(
                "Nothing that is drawn on it is hard for this kit. The broken place is not drawn: it may be "
                "anywhere on it, and hold the head."
                if self.plan.broken
                else "Nothing that is drawn on it is hard for this kit. What held a push on it is not drawn."
                if route.stops
                else "Nothing that is drawn on it is hard for this kit. Bends that a push saw are not drawn."
                if route.turns_undrawn
                else "No spot on it is hard for this kit."
            )
        met = found_on(self.plan, route)
        there: list[PassageNote | FoundNote] = [*route.passages, *met]
        for note in sorted(there, key=lambda note: note.at_m):
            if isinstance(note, FoundNote):
                page.console.print()
                page.strong(f"{self._seen_at(note)}: {note.see}")
                page.line(" ".join(filter(None, (note.do, note.desk))), indent=4)
            else:
                self._spot(note, met)
        at_spots = {each.id for note in route.passages for each in note.here}
        notices = [n.text for n in route.cautions if n.word == "notice" and n.id not in at_spots]
        if notices:
            page.heading("Take note")
            page.steps(notices, mark="-")
        if route.bring:
            page.heading("Bring")
            page.steps(list(route.bring), mark="-")

    def _seen_at(self, note: FoundNote) -> str:
        """Its reading; of what no head goes past with its span, for the limit is where that may begin, and of
        what stands by lengths of the sheet."""
        span = note.span_m or (note.at_low_m, 2 * note.at_m - note.at_low_m)
        at, low, high = (show_reading(each, self.units) for each in (note.at_m, *span))
        read = show_counter(note.at_m, self.units)
        return f"{read} ({low} to {high})" if (note.not_past or note.span_m) and low != at else read

    def _stroke(self, route: RouteNote) -> None:
        stroke = f"Longest safe quick stroke: {self.length(route.stroke_m)}, one hand at the rim as a guide."
        if route.fold_m is not None:
            stroke += (
                " Without it the rod folds when the head stops, "
                f"and {self.length(route.fold_m)} more of the hand may harm it."
            )
        self.page.line(stroke)

    def _not_past(self, note: NotPastNote, turn: SightNote | None) -> None:
        at, low, high = (
            show_reading(each, self.units) for each in (note.at_m, note.at_low_m, note.at_high_m)
        )
        span = "" if low == high else f", from there to {high}, likeliest at {at}"
        self.page.strong(f"Not past {low}: {note.name}{span}.")
        if note.unless:
            self.page.line(f"From there on no further {note.unless}.", indent=4)
        if turn is not None and turn.to_stop_m is not None:
            on = self.length(turn.to_stop_m)
            self.page.line(f"Once the {turn.name} was passed: at most {on} more.", indent=4)
        if note.holds:
            self.page.line(f"It holds the head. {note.why} {note.instead}".rstrip(), indent=4)

    def _ends(self, route: RouteNote) -> str:
        """What becomes of a hundred pushes, so that the chance of the whole way can be understood."""
        chance = route.chance if route.covers >= 1 else route.part_chance
        ends = "; ".join(f"{100 * end.share:.0f} end because {end.why}" for end in route.ends[:SHOWN_ENDS])
        told = f"Of 100 such pushes {100 * never_certain(chance):.0f} get to the end of it and back."
        if ends:
            return f"{told} Of the others {ends}."
        return f"{told} Nothing that is drawn ends the others by itself: no push is certain."

    def _spot(self, note: PassageNote, seen: Sequence[FoundNote]) -> None:
        page = self.page
        page.console.print()
        at, low, high = (
            show_reading(each, self.units) for each in (note.at_m, note.at_low_m, note.at_high_m)
        )
        span = f"{at} ({low} to {high})"
        if note.somewhere:
            span = f"Somewhere from {low} to {high}{' and on beyond' if note.runs_on_m else ''}"
        where = AT_OPENING.capitalize() if at_opening(note) else span
        page.strong(f"{where}: {note.name}, {note.direction} the flow")
        page.line(
            f"A gentle push: {self.say(note.chance_plain)}. With what follows: {self.say(note.chance)}.",
            indent=4,
        )
        if note.only_if:
            page.strong(note.only_if, indent=4)
        for each in note.here:  # before anything is done there, not under it or at the end
            if each.word == "notice":
                page.strong(each.text, indent=4)
        if note.kinks >= LEAST:
            page.line(
                f"Of 100 pushes there about {max(100 * note.kinks, 1):.0f} harm rod or spring: "
                "not every bend past the least radius does, and each try counts anew.",
                indent=4,
            )
        for why in note.difficulty:
            page.line(f"Why: {why}", indent=4)
        if note.runs_on_m is not None:
            on = show_reading(note.runs_on_m, self.units)
            there = (each for each in seen if note.at_high_m < each.at_m <= note.runs_on_m)
            met = "; ".join(f"at {show_counter(each.at_m, self.units)}: {each.see}" for each in there)
            # Where pushes have been nobody goes by chances alone.
            told = f"Pushes met there, {met}. Elsewhere on it roots" if met else "Roots"
            page.line(
                f"The same pipe goes on past {high}, by the sheet to {on}. {told} are as likely"
                f"{'' if met else ' there'}.",
                indent=4,
            )
        if note.looked:
            page.line(note.looked, indent=4)
        for technique in to_do(self.plan, note):
            self._technique(technique)
        for technique in note.techniques:
            if technique.verdict == "allowed" and technique.steps:
                page.line(f"With {technique.name}:", indent=4)
                page.steps(list(technique.steps), indent=6)
        for technique in note.techniques:
            if technique.verdict == "rejected" and technique.chance is not None:
                told = f"Not {technique.name}: {technique.because} {technique.unless}"
                page.line(told.rstrip(), indent=4)
        for caution in note.cautions:
            if caution.word in GRAVE:
                page.line(f"{caution.word.upper()}: {caution.text}", indent=4)

    def _technique(self, note: TechniqueNote) -> None:
        tries = {0: "", 1: ", once", 2: ", twice at most"}.get(note.tries, f", {note.tries} times at most")
        chance = f"{self.say(note.chance)} a try" if note.tries and note.chance is not None else note.before
        told = ", ".join(filter(None, (f"{note.name}{tries}", chance)))
        self.page.line(f"Do: {told}. {note.because}".rstrip(), indent=4)
        self.page.steps(list(note.steps), indent=6)


def turns_words(route: RouteNote) -> str:
    """Those of the sheet, and how many more a push saw: of how many degrees nobody knows."""
    more = f", {route.turns_undrawn} more seen" if route.turns_undrawn else ""
    return f"{route.bends}, in all {degrees(route.total_turn_rad):.0f}°{more}"
