"""The beginning of a push: which opening, which kit, what comes before it, whether its direction is known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from advisor.push.kinds import DOWN, UNKNOWN, UP, Value
from advisor.result.before import before_push, ruled_out
from advisor.result.build import plan_of
from advisor.result.gear import stopped_with
from advisor.result.model import AskNote, CautionNote, Plan
from advisor.result.study import Study
from advisor.terminal.choose import BACK, DONT_KNOW, Choice, choose, type_in, yes_no
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks
from advisor.terminal.push.steps import in_turn

NOTHING_POURED = "everybody was asked, and nobody poured in a drain cleaner"
_WAYS = (
    ("s", "downstream: to the sewer, away from the house", DOWN),
    ("h", "upstream: back to the house", UP),
)
_HOLDING = "holding-line"  # the caution of rules/caution/stop_first.yaml that is settled by seeing it drain
_DRAINS = (("y", "yes, seen to drain just now"), ("c", "it backed up and is cleared now: seen to drain"))
_SHUT = Choice("n", "it does not open, or not without damage")


@dataclass(frozen=True)
class DoesNotOpen:
    """The opening was chosen and cannot be opened."""

    opening: str


def begin(
    study: Study,
    page: Page,
    asks: Asks,
    last_operator: str | None,
    kinked: frozenset[str] = frozenset(),
) -> tuple[float, dict[str, Value]] | DoesNotOpen | None:
    """The counter at the start and what the start entry says, or that it does not open; None: it is left.

    `kinked` is the gear, by name, whose rod or spring kinked in an earlier push of the job.
    """
    plan = plan_of(study)
    page.strong(plan.first_step)
    if plan.doubt is not None:
        page.strong(plan.doubt)
    _box(plan.cautions, page)
    for ask in plan.ask:
        page.line(_not_known(ask, f", {ask.caution.word.upper()}"))
    if plan.until is not None and not _so_now(plan.until, page):
        page.line("Nothing is begun.")
        return None
    poured = study.circumstances.chemicals is None
    if poured and not _so_now(NOTHING_POURED, page):
        page.line("Nothing is begun. Ask everybody first. If something was poured in, tell advisor ask.")
        return None
    drains = _seen_to_drain(plan, page)
    if plan.holding is None and drains is None:
        page.line("Nothing is begun. No camera before the line is seen to drain.")
        return None
    begun = _Begin(study, page, asks, last_operator, plan.cautions, spoilt(study, kinked))
    if not begun.run():
        return None
    if begun.shut:
        return DoesNotOpen(begun.opening)
    return begun.counter, {
        "opening": begun.opening,
        "direction": begun.direction,
        "loadout": begun.loadout,
        "target": study.target.words,
        "operator": begun.operator,
        "told": "; ".join(filter(None, (plan.until, NOTHING_POURED if poured else None, drains))) or None,
        "drains": None if drains is None else True,
    }


def _seen_to_drain(plan: Plan, page: Page) -> str | None:
    """What was seen of the line now, where nobody knows whether it drains or two things said of it cannot be.

    None where it was not looked at or stands: then nothing is begun.
    """
    if plan.holding is not None:
        return None
    choices = [Choice(key, words) for key, words in _DRAINS if key != "c" or plan.doubt is not None]
    stands = (Choice("n", "no, it stands or comes up"), Choice("d", "nobody has looked now"))
    key = choose(
        page,
        "Look into the lowest fixture, loosen no plug. Does the line drain now?",
        (*choices, *stands),
    )
    return dict(_DRAINS).get(key)


def _so_now(until: str, page: Page) -> bool:
    """Whether what stands before any push has come about."""
    return choose(page, f"Is it so now: {until}?", yes_no("yes, I have it from them or saw it")) == "y"


def remind(study: Study, opening: str, loadout: str, drains: bool, page: Page) -> None:
    """What can hurt, told again where an open push is gone on with: by somebody else perhaps, another day.

    `drains` is whether the line was seen to in this push, which settles what was said of it before.
    """
    plan, before = plan_of(study), before_push(study, opening, loadout)
    if plan.doubt is not None and not drains:
        page.strong(plan.doubt)
    _box((*plan.cautions, *before.cautions), page)
    _box_unsaid(before.unsaid, page)
    for ask in plan.ask:
        if drains and ask.caution.id == _HOLDING:
            continue
        page.line(_not_known(ask, f", {ask.caution.word.upper()}"))


class _Begin:
    """The questions before a push, one after the other, and back."""

    def __init__(
        self,
        study: Study,
        page: Page,
        asks: Asks,
        last_operator: str | None,
        told: Sequence[CautionNote],
        spoilt: frozenset[str],
    ) -> None:
        self.spoilt = spoilt
        self.study, self.page, self.asks, self.told = study, page, asks, told
        self.last_operator = last_operator
        self.opening = self.loadout = self.direction = ""
        self.counter = 0.0
        self.shut = False
        self.operator: str | None = None

    def run(self) -> bool:
        """True once all is answered; False where it is left by going back from the first."""
        steps = (self._opening, self._loadout, self._ready, self._direction, self._counter, self._operator)
        return in_turn(*steps)

    def _opening(self) -> bool:
        names = {_offered(self.study, name): name for name in _openings(self.study)}
        told = self.asks.one_of("Where does the rod go in?", list(names))
        self.opening = names[told] if told else ""
        return bool(self.opening)

    def _loadout(self) -> bool | None:
        names = _loadouts(self.study, self.opening)
        self.loadout = names[0]
        if len(names) > 1:
            of_all, offered = _gear(self.study, self.opening, names)
            if of_all:
                self.page.line(of_all)
            told = self.asks.one_of("What goes in? The first is planned.", list(offered))
            self.loadout = offered[told] if told else ""
        if self.loadout in self.spoilt:
            self.page.boxed("warning", [self.study.tables.stuck.kinked.gone])
        return bool(self.loadout) if len(names) > 1 else None

    def _ready(self) -> bool | None:
        """What can hurt at this opening and was not told with the site; what to do; the rest where wanted."""
        before = before_push(self.study, self.opening, self.loadout)
        # A hazard of the site may be graver here: only what was told in the same words is left out.
        _box([note for note in before.cautions if note not in self.told], self.page)
        _box_unsaid(before.unsaid, self.page)
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
        asked = "Which way does this opening lead?"
        ways = [*(Choice(key, words) for key, words, _ in _WAYS), _SHUT]
        key = choose(self.page, asked, ways, (DONT_KNOW, BACK))
        self.shut = key == _SHUT.key
        self.direction = {key: told for key, _, told in _WAYS}.get(key, UNKNOWN)
        return key != BACK.key

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
        typed = type_in(self.page, asked, lambda _: None, self.last_operator or "no name")
        self.operator = typed or self.last_operator
        return typed is not None


def _not_known(ask: AskNote, word: str = "") -> str:
    """What counts until it is known; outside a box the signal word stands in the line."""
    about = " and whether ".join(ask.about)
    return f"Not known whether {about}. Until it is known{word}: {ask.caution.text}"


def _box_unsaid(asks: Sequence[AskNote], page: Page) -> None:
    """What nobody has said of this opening: however often it was told, here somebody goes up, in or near."""
    for ask in asks:
        page.boxed(ask.caution.word, [_not_known(ask)])


def _box(cautions: Sequence[CautionNote], page: Page) -> None:
    """Dangers and then warnings, each kind in a box of its own, nothing twice."""
    for word in ("danger", "warning"):
        grave = [note.text for note in cautions if note.word == word]
        if grave:
            page.boxed(word, list(dict.fromkeys(grave)))


def _openings(study: Study) -> list[str]:
    """Openings, those of the order of attempts first."""
    first = [each.route.opening.name for each in study.settled.attempts]
    ranked = [each.outcome.route.opening.name for each in study.ranked]
    drawn = [piece.name for piece in study.network.openings()]
    return list(dict.fromkeys((*first, *ranked, *drawn)))


def _offered(study: Study, opening: str) -> str:
    """An opening as it is offered: with why, where the plan rules it out."""
    why = ruled_out(study, opening)
    return opening if why is None else f"{opening} (ruled out: {why[:1].lower()}{why[1:]})"


def spoilt(study: Study, kinked: frozenset[str]) -> frozenset[str]:
    """The gear, by name, that has the rod or the spring of any that kinked."""
    loadouts = study.kit.loadouts
    bad = {part for each in loadouts if each.name in kinked for part in (each.rod.name, each.spring.name)}
    return frozenset(each.name for each in loadouts if bad & {each.rod.name, each.spring.name})


def _gear(study: Study, opening: str, names: Sequence[str]) -> tuple[str, dict[str, str]]:
    """What stops all gear alike, told once, and each name as it is offered.

    Where the plan finds that gear rather does not get there, how unlikely it is stands with it, and why. An
    opening that is ruled out whatever goes in was offered with the reason.
    """
    if ruled_out(study, opening) is not None:
        return "", {name: name for name in names}
    stops = {name: stopped_with(study, opening, name) for name in names}
    alike = len({stop and stop[1] for stop in stops.values()}) == 1
    offered, why = {}, ""
    for name, stop in stops.items():
        chance, why = stop or ("", "")
        told = chance if alike else f"{chance}: {why}"
        offered[f"{name} ({told})" if stop else name] = name
    return (f"With any gear: {why}." if alike and why else ""), offered


def _loadouts(study: Study, opening: str) -> list[str]:
    """The kit that may go in, the planned one first."""
    ranked = (*study.settled.attempts, *(each.outcome for each in study.ranked))
    planned = [each.loadout.name for each in ranked if each.route.opening.name == opening]
    return list(dict.fromkeys((*planned, *(each.name for each in study.kit.loadouts))))
