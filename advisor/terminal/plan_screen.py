"""The plan on the screen: what to do first, then where, then how, then what it rests on."""

from __future__ import annotations

from collections.abc import Callable

from advisor.quantity import Dimension, Units, show, show_counter, show_reading
from advisor.result.attempts import listed_words, shut_case, shut_words
from advisor.result.ends import ITSELF, OPENING
from advisor.result.model import Plan, RouteNote, Stopped
from advisor.result.stops import stop_words
from advisor.result.target_model import PartNote
from advisor.result.told import (
    asks_told,
    assumed_near,
    cautions_told,
    first_told,
    found_elsewhere,
    opening_steps,
    way_called,
)
from advisor.rulebase.rule import GRAVE
from advisor.site.target import SUSPECT, UNPOINTED
from advisor.terminal.page import Page
from advisor.terminal.unsettled_screen import show_unsettled
from advisor.terminal.way_screen import show_way_in, turns_words

SHOWN_ROUTES = 8
SIDE_BY_SIDE = 4
LEAST_RADIUS = 0.001  # m; less is shown as nothing


def show_plan(plan: Plan, units: Units, page: Page) -> None:
    """Print a whole plan."""
    shown = _Shown(plan, units, page)
    shown.first()
    if plan.no_plan:
        page.line()
        page.line(f"There is no plan until {plan.until}. Then say so to advisor ask, or on the sheet.")
        return
    shown.where()
    if plan.routes:
        shown.openings()
        shown.attempts()
        shown.side_by_side()
    if plan.cannot:
        shown.cannot()
    elif plan.camera_now:
        show_way_in(plan, units, page)
    if plan.no_way_in:
        shown.no_way_in()
    shown.ground()


class _Shown:
    def __init__(self, plan: Plan, units: Units, page: Page) -> None:
        self.plan, self.units, self.page = plan, units, page
        self.say = plan.chance_words.say

    def length(self, value: float) -> str:
        return show(value, Dimension.LENGTH, self.units)

    def first(self) -> None:
        plan, page = self.plan, self.page
        page.heading("Do this first")
        lead = plan.routes[:1] if plan.camera_now else ()
        way = plan.routes[0] if plan.camera_now and plan.routes and not plan.cannot else None
        seen = (found.left for found in found_elsewhere(plan, way))
        said = (*first_told(plan), *plan.stopped, plan.counted, *seen)
        for text in filter(None, said):
            page.strong(text)
        notes = cautions_told(plan, lead)
        for word in (*GRAVE, "caution"):
            texts = [note.text for note in notes if note.word == word]
            if texts:
                page.boxed(word, texts)
        if not plan.camera_now:
            page.steps(list(plan.how))
            for names, steps in opening_steps(plan.to_open):
                page.strong(f"Opening {names}")
                page.steps(list(steps), mark="-")
            # With a push they stand on the way in; without one there is none for them to stand on.
            notices = [note.text for note in notes if note.word == "notice"]
            if notices and not plan.no_plan:
                page.heading("Take note")
                page.steps(notices, mark="-")
        show_unsettled(asks_told(plan, lead), page)
        for told in plan.told:
            page.line(told)

    def where(self) -> None:
        plan, page = self.plan, self.page
        page.heading("What is to be seen")
        part = plan.target.part
        words, metres = (part.of, part.of_length_m) if part else (plan.target.words, plan.target.length_m)
        length = f" ({self.length(metres)})" if metres else ""
        page.line(f"{plan.site}: {words}{length}")
        if part:
            self._part(part)
        if plan.target.kind == UNPOINTED:
            page.line(
                "Nothing is told to be slow or to back up, so nothing points anywhere: this is the line that "
                "leaves the building. Another is to be seen? Put its name behind `look at` on the sheet."
            )
        if plan.target.kind == SUSPECT and not part and plan.target.words != plan.suspects[0].section:
            page.line("To the likeliest section no opening is worth its minutes: this plan goes for another.")
        if plan.suspects:
            page.line("Where the complaint points (chances, never proof):")
            for suspect in plan.suspects:
                why = f": {', '.join(suspect.because)}" if suspect.because else ""
                page.line(f"{suspect.chance:.0%}  {suspect.section}{why}", indent=4)

    def _part(self, part: PartNote) -> None:
        """Which part the plan goes for, why, and what is left after it."""
        page, target = self.page, self.plan.target
        page.strong(f"This plan looks at a part of it: {target.words} ({self.length(target.length_m)}).")
        page.line("For all of it no opening is worth its minutes.")
        points = f" The complaint points there with {part.points:.0%}." if self.plan.suspects else ""
        page.line(f"That is {part.covers:.0%} of the length.{points}")
        for each in part.rest:
            chance = "" if each.chance is None else f": {self.say(each.chance)}"
            page.line(f"Then the rest, from {each.opening}{chance}. On the sheet:")
            page.line(f"look at: {each.words}", indent=5)
        if not part.rest:
            page.line(
                "The rest is not seen: tell it so. For the rest: advisor explain changes, with this sheet."
            )

    def openings(self) -> None:
        self.page.heading(f"Openings{self.plan.seen.aim}, best first")
        rows = [
            [
                f"{'-' if route.shut else route.rank} {way_called(route, self.plan.routes)}",
                self._chance(route),
                "-" if route.shut else f"{route.minutes:.0f}",
                self._hardest(route),
            ]
            for route in self.plan.routes[:SHOWN_ROUTES]
        ]
        self.page.table(["opening", "reaches it", "minutes", "hardest spot"], rows, frozenset({2}))
        leader = self.plan.routes[0]
        if not self.plan.cannot and not leader.ended:  # else none of them is good in any case
            cases = f"the {self.plan.worlds:,} cases worked through"
            self.page.line(f"{leader.opening} comes out best in {leader.leads:.0%} of {cases}.")
        for words in listed_words(self.plan, SHOWN_ROUTES):
            self.page.line(words)
        if self.plan.preview_of is not None:
            self.page.line(f"A first look: the whole plan works through {self.plan.preview_of:,} cases.")
        others = dict.fromkeys(route.opening for route in self.plan.routes[SHOWN_ROUTES:])
        if others:
            self.page.line(f"Behind these: {', '.join(others)}. Why, tells advisor explain why-not.")
        if self.plan.routes_cut:
            self.page.line("There are more ways than were worked through: the list was cut short.")

    def attempts(self) -> None:
        """What to try after what, and when to leave it."""
        plan, page = self.plan, self.page
        page.heading(f"Order of attempts{plan.seen.aim}")
        if not plan.attempts:
            page.line("None: leaving the job undone costs less than any of these.")
            if plan.camera_now:  # else it stands in what to do first
                page.line("What would help: advisor explain changes, with this sheet.")
            return
        for place, step in enumerate(plan.attempts, start=1):
            come_to = "" if place == 1 else " if it comes to it"
            chance = "" if step.chance is None else f": {self.say(step.chance)}"
            page.strong(f"{place}. {step.opening}, {step.loadout}{chance}{come_to}")
            if step.shut is not None:
                shut = f"{shut_case(step.shut)} ({100 * step.shut.chance:.0f} %)?"
                page.line(f"{shut} {shut_words(plan, step.shut)}", indent=5)
            for leave in step.leave:
                page.line(f"At the {leave.spot}: {leave.say()}.", indent=5)
        if plan.attempts_chance is None:
            page.line("No chance is told: a push met what ends a way of these.")
            return
        page.line(
            f"In all: {self.say(plan.attempts_chance)}, about {plan.attempts_minutes:.0f} minutes: the work, "
            "what head or rod lost or hurt may cost, "
            f"and {plan.failing_minutes:.0f} where the job stays undone."
        )
        beside = "; ".join(f"{c.rule} {c.minutes:.0f}" for c in plan.compared)
        page.line(f"By rules of thumb: {beside}.")

    def _chance(self, route: RouteNote) -> str:
        if route.shut:
            return "left out"
        if (end := route.ended) is not None:
            at, bar = route.blocked_at_m, f"not past {show_reading(end.at_low_m, self.units)}: {end.name}"
            return f"hardly past {show_reading(at, self.units)}; {bar}" if at else bar
        if route.covers < 1:
            return f"part, {route.covers:.0%} of it: {self.say(route.part_chance)}"
        return self.say(route.chance)

    def _hardest(self, route: RouteNote) -> str:
        stop = min(route.stops, key=lambda note: note.chance, default=None)
        if stop is not None and all(stop.chance < note.chance for note in route.passages):
            return f"earlier stop, at {show_counter(stop.at_m, self.units)}"
        if self.plan.seen.opening == route.opening and self.plan.seen.gear in (None, route.loadout.name):
            return "seen whole"  # a push came through it all: none is to be feared before any other
        if route.blocked_by and route.covers >= 1:
            # At a fitting the fitting says it; elsewhere what is the matter.
            if any(note.name == route.blocked_by for note in route.passages):
                return f"stops at: {route.blocked_by}"
            there = OPENING if route.blocked_by == ITSELF else route.blocked_by
            end = next((each for each in route.ends if each.where == there), route.ends[0])
            return f"mostly ends: {end.why}"
        if not route.passages:
            return "a broken place, anywhere" if self.plan.broken else "none"
        # Of those that read alike in the end the one that is harder to begin with.
        worst = min(route.passages, key=lambda note: (round(note.chance, 2), note.chance_plain))
        if worst.somewhere:
            low, high = (show_reading(each, self.units) for each in (worst.at_low_m, worst.at_high_m))
            return f"{worst.name}, somewhere from {low} to {high}"
        return f"{worst.name}, at {show_reading(worst.at_m, self.units)}"

    def side_by_side(self) -> None:
        """The best openings as columns, what sets them apart as rows."""
        self.page.heading("The best openings side by side")
        can = [route for route in self.plan.routes if max(route.chance, route.part_chance) > 0]
        routes = (can or list(self.plan.routes))[:SIDE_BY_SIDE]
        rows = [[name, *(cell(route) for route in routes)] for name, cell in self._rows()]
        self.page.table(["", *(way_called(route, self.plan.routes) for route in routes)], rows)
        self.page.line(
            "Bores are after scale, in the middle case. Harm: chance that head or rod is lost or hurt, "
            "every try at every spot counted."
        )

    def _rows(self) -> list[tuple[str, Callable[[RouteNote], str]]]:
        length = self.length
        return [
            ("kit", lambda r: r.loadout.name),
            ("smallest bore", lambda r: length(r.smallest_bore_m)),
            ("  head, spring", lambda r: f"{length(r.head_diameter_m)}, {length(r.spring_diameter_m)}"),
            ("turns", turns_words),
            (
                "  fittings",
                lambda r: (
                    ", ".join(name if n == 1 else f"{n} x {name}" for name, n in r.fittings.items()) or "none"
                ),
            ),
            ("tightest radius", lambda r: _radius(r.tightest_radius_m, length)),
            (
                "  rod, spring lie at",
                lambda r: f"{length(r.rod_minimum_radius_m)}, {length(r.spring_minimum_radius_m)} or more",
            ),
            ("way, reach", lambda r: f"{length(r.length_m)}, {length(r.reach_m)}"),
            ("to open", lambda r: f"{r.opening_minutes:.0f} min ({r.place.partition(',')[0]})"),
            ("harm", lambda r: "not told" if r.ended else f"{r.harm:.0%}"),
        ]

    def no_way_in(self) -> None:
        """Openings that are none for a rod."""
        self.page.heading("No way in")
        for stop in self.plan.no_way_in:
            self.page.line(f"{stop.opening}: {stop.why}")

    def cannot(self) -> None:
        self.page.heading("What stops each way")
        alike: dict[tuple[str, str], list[Stopped]] = {}
        for stop in self.plan.cannot:
            at = f" at {show_reading(stop.at_m, self.units)}" if stop.at_m else ""
            alike.setdefault((stop.opening, stop_words(stop, at)), []).append(stop)
        for (opening, words), stops in alike.items():
            called = way_called(stops[0], self.plan.cannot) if len(stops) == 1 else opening
            self.page.line(f"{called}: {words}.")

    def ground(self) -> None:
        """What the plan rests on."""
        plan, page = self.plan, self.page
        page.heading("What was assumed")
        if not plan.assumed:
            page.line("Nothing: every value was on the sheets.")
        near = assumed_near(plan, plan.routes[0]) if plan.routes else list(plan.assumed)
        for grade in dict.fromkeys(note.grade for note in near):
            same = [note for note in near if note.grade == grade]
            mark = " *" if any(note.weak for note in same) else ""
            page.strong(f"{grade[0].upper()}{grade[1:]}{mark}")
            page.steps([f"{note.about}: {note.taken}" for note in same], mark="-")
        if len(near) < len(plan.assumed):
            more = len(plan.assumed) - len(near)
            page.line(f"And {more} values of lines and openings off the first way in: --json tells them.")
        for taught in plan.learned:
            page.line(f"Learned from your pushes: {taught}")
        if plan.weak:
            page.line()
            page.line("* Weak ground. The first way also rests on: " + "; ".join(plan.weak) + ".")
        page.line()
        page.line(
            "Predicted, not surveyed. Codes differ by place and year: where this and the local authority "
            "or a licensed person disagree, follow them; follow your employer's safety rules where they "
            "are stricter."
        )


def _radius(radius: float | None, length: Callable[[float], str]) -> str:
    """A turn without a curve inside is told as that, not as a radius of nothing."""
    return "none" if radius is None else "square inside" if radius < LEAST_RADIUS else length(radius)
