"""The beginning of a push: which opening, which kit, what comes before it, whether its direction is known."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from advisor.push.before.opening_leads import found_to_lead
from advisor.push.before.to_look_at import to_look_at
from advisor.push.log.kinds import PORTS, START, UNKNOWN, Value
from advisor.push.log.log import Entry
from advisor.push.log.redrawn import version_of
from advisor.push.met_before import counted_of_pushes, met_before, told_of_pushes
from advisor.push.now.door import BETWEEN
from advisor.push.now.led_anew import Led
from advisor.push.seen_whole import seen_whole, with_seen
from advisor.push.told_before import SETTLED
from advisor.result.before import before_push, ruled_out
from advisor.result.build import plan_of
from advisor.result.ends import SHUT
from advisor.result.model import CautionNote
from advisor.result.other_side import other_side_first
from advisor.result.study import Study
from advisor.result.told import first_told
from advisor.result.way_model import FoundNote
from advisor.terminal.choose import BACK, DONT_KNOW, Choice, choose, type_in, yes_no
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks
from advisor.terminal.push.boxes import box, box_unsaid
from advisor.terminal.push.gates import Gates, not_known, pass_gates
from advisor.terminal.push.led_into import led_into
from advisor.terminal.push.offers import (
    gear_names,
    gear_offered,
    only_way,
    opening_offered,
    openings,
    planned_here,
)
from advisor.terminal.push.steps import in_turn

_SHUT = Choice("n", "it does not open, or not without damage")


@dataclass(frozen=True)
class DoesNotOpen:
    """The opening was chosen and cannot be opened."""

    opening: str
    passed: Gates


def begin(
    study: Study,
    page: Page,
    asks: Asks,
    standing: Sequence[Entry],
    passed: Gates | None,
    settle: Callable[[Gates], Study],
) -> tuple[float, dict[str, Value]] | DoesNotOpen | None:
    """The counter at the start and what the start entry says, or that it does not open; None: it is left.

    `standing` is the log. `passed` is what was told just now, before the opening that does not open was
    chosen: not asked again. `settle` plans with what is told now.
    """
    found = met_before(study, standing)
    plan = with_seen(plan_of(study, found), seen_whole(study, standing), study)
    stopped = (*told_of_pushes(study, standing), counted_of_pushes(plan, study, standing))
    seen = (note.left for note in found)
    for told in filter(None, (*first_told(plan), *stopped, *seen)):
        page.strong(told)
    box(plan.cautions, page)
    for ask in plan.ask:
        if ask.caution.id not in SETTLED:
            page.line(not_known(ask, signal=True))
    gear = study.kit.loadouts
    if gear and all(study.barred.lies_there(each) for each in gear):
        return None  # nothing is left that could go in
    passed = passed or pass_gates(study, plan, page)
    if passed is None:
        return None
    # The openings in the order of the plan just told.
    study = other_side_first(settle(passed), found)
    begun = _Begin(study, page, asks, standing, plan.cautions, found)
    if not begun.run():
        return None
    if begun.shut:
        return DoesNotOpen(begun.opening, passed)
    return begun.counter, {
        "opening": begun.opening,
        "direction": begun.direction,
        "mouth": begun.mouth,
        "found": begun.leads,
        "loadout": begun.loadout,
        "target": study.target.words,
        "sheet": version_of(study.network),
        "operator": begun.operator,
        "told": BETWEEN.join(filter(None, (passed.told, begun.changed))) or None,
        "drains": passed.drains,
        "renewed": begun.renewed or None,
        "looked": begun.looked or None,
    }


class _Begin:
    """The questions before a push, one after the other, and back."""

    def __init__(
        self,
        study: Study,
        page: Page,
        asks: Asks,
        standing: Sequence[Entry],
        told: Sequence[CautionNote],
        found: Sequence[FoundNote] = (),
    ) -> None:
        self.study, self.page, self.asks, self.told = study, page, asks, told
        self.standing, self.found = standing, found
        self.opening = self.loadout = self.direction = ""
        self.changed: str | None = None  # who saw that what ruled the opening out is so no longer
        self.mouth: str | None = None  # of an open channel, into which the head is led
        self.leads: str | None = None  # which way earlier pushes found the opening to lead
        self.counter = 0.0
        self.shut = self.renewed = self.looked = False
        self.operator: str | None = None

    def run(self) -> bool:
        """True once all is answered; False where it is left by going back from the first."""
        steps = (
            self._opening,
            self._ruled_out,
            self._loadout,
            self._sound,
            self._looked,
            self._ready,
            self._direction,
            self._counter,
            self._operator,
        )
        return in_turn(*steps)

    def _opening(self) -> bool:
        names = {opening_offered(self.study, name): name for name in openings(self.study)}
        told = self.asks.one_of("Where does the rod go in?", list(names))
        self.opening = names[told] if told else ""
        return bool(self.opening)

    def _ruled_out(self) -> bool | None:
        """Whether what rules the opening out is so no longer, and who saw that; else nothing is begun there.

        One that was told not to open is asked about once somebody stands before it; whether what lies in the
        pipe is out has been asked.
        """
        self.changed, why = None, ruled_out(self.study, self.opening)
        if why is None or why in (SHUT, self.study.tables.in_pipe.left_in.why):
            return None
        why = f"{why[:1].lower()}{why[1:]}"
        self.page.boxed("stop", [f"{self.opening} is ruled out: {why}."])
        seen = yes_no("yes, it was seen today", "no, or nobody knows")
        if choose(self.page, "Is that no longer so?", seen) != "y":
            self.page.line(f"Nothing is begun at {self.opening}.")
            return False
        asked = "Who saw it, and what? It stands in the report."
        who = type_in(self.page, asked, lambda text: None if text.strip() else "Type it.", None)
        if who:
            self.changed = f"{self.opening} was ruled out ({why}). Seen otherwise: {who}"
        return bool(who)

    def _loadout(self) -> bool | None:
        names = gear_names(self.study, self.opening)
        self.loadout, self.renewed, self.looked = names[0], False, False
        if len(names) > 1:
            of_all, offered = gear_offered(self.study, self.opening, names)
            if of_all:
                self.page.line(of_all)
            told = self.asks.one_of(f"What goes in? {planned_here(self.study, self.opening)}", list(offered))
            self.loadout = offered[told] if told else ""
        return bool(self.loadout) if len(names) > 1 else None

    def _sound(self) -> bool | None:
        """Whether gear whose rod or spring kinked is said to be sound again; no other is asked about."""
        gear = next(each for each in self.study.kit.loadouts if each.name == self.loadout)
        if self.study.barred.sound(gear):
            return None
        words = self.study.tables.in_pipe.kinked
        self.page.boxed("warning", [words.gone])
        self.renewed = choose(self.page, words.sound, yes_no("yes, I looked at both", "no"), (BACK,)) == "y"
        return self.renewed

    def _looked(self) -> bool | None:
        """Whether gear that was held both ways was looked at since; no other is asked about."""
        if not self.study.kit.parts(self.loadout) & to_look_at(self.standing, self.study.kit):
            return None
        words = self.study.tables.stuck.free_first
        self.page.boxed("warning", [words.plan.format(gear=self.loadout)])
        self.looked = choose(self.page, words.looked, yes_no("yes, I looked at all", "no"), (BACK,)) == "y"
        return self.looked

    def _ready(self) -> bool | None:
        """What can hurt at this opening and was not told with the site; what to do; the rest where wanted."""
        before = before_push(self.study, self.opening, self.loadout)
        # A hazard of the site may be graver here: only what was told in the same words is left out.
        box([note for note in before.cautions if note not in self.told], self.page)
        box_unsaid(before.unsaid, self.page)
        asked = f"Done what comes before every push ({len(before.always)} things)?"
        while before.always:
            done, not_yet = yes_no(no="no, show them")
            shown = replace(not_yet, also=not_yet.also + "s")  # s for show
            key = choose(self.page, asked, (done, shown), (BACK,))
            if key == BACK.key:
                return False
            if key == "y":
                break
            self.page.steps(list(before.always))
        if before.here:  # last, for here the plug is touched
            self.page.strong("At this opening")
            self.page.steps(list(before.here))
        return True if before.always else None

    def _direction(self) -> bool:
        """Whether it opens, and which way it leads, where that is not plain."""
        piece = next(each for each in self.study.network.openings() if each.name == self.opening)
        led = led_into(self.study, piece, self.loadout)
        asked, ways, choices = led.asked, led.tells, [*led.choices, _SHUT]
        more: tuple[Choice, ...] = (DONT_KNOW, BACK)
        only = only_way(self.study, self.opening)
        if only is not None:
            asked, ways = "Is it open now?", {"y": Led(only)}
            choices, more = list(yes_no(no=_SHUT.words)), (BACK,)
        for note in self.found:
            if note.at_opening and note.opening == self.opening:
                self.page.strong(note.left)
        key = choose(self.page, asked, choices, more)
        self.shut = key == _SHUT.key
        told = ways.get(key, Led(UNKNOWN))
        self.direction, self.mouth = told.direction, told.mouth
        if self.shut or key == BACK.key:
            return self.shut
        self.leads, _ = found_to_lead(self.study, self.standing).get(self.opening, (None, None))
        if self.leads not in (None, self.direction):
            self.page.strong(self.study.tables.in_pipe.leads_otherwise.followed.format(way=self.leads))
        ports = (*PORTS[self.direction], *PORTS[self.leads or self.direction])
        if self.study.barred.leads_in(self.study.network, self.opening, ports):
            self.page.boxed("warning", [self.study.tables.in_pipe.left_in.stop])
            return False
        return True

    def _counter(self) -> bool | None:
        if self.shut:
            return None
        asked = "What does the counter show with the lens at the opening? Empty: 0"
        read = self.asks.counter(asked, 0.0)
        self.counter = read or 0.0
        return read is not None

    def _operator(self) -> bool | None:
        if self.shut:
            return None
        asked = "Who pushes? The name stands in the report."
        last = _last_operator(self.standing)
        typed = type_in(self.page, asked, lambda _: None, last or "no name")
        self.operator = typed or last
        return typed is not None


def _last_operator(standing: Sequence[Entry]) -> str | None:
    """Who pushed last on this job; None where nobody was named."""
    starts = (entry for entry in reversed(standing) if entry.kind == START)
    return next((str(entry.data["operator"]) for entry in starts if entry.data.get("operator")), None)
