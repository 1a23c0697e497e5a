"""The beginning of a push: which opening, which kit, what comes before it, whether its direction is known."""

from __future__ import annotations

from advisor.push.kinds import Value
from advisor.result.build import plan_of
from advisor.result.routes import before_push
from advisor.result.study import Study
from advisor.terminal.choose import Choice, choose, type_in
from advisor.terminal.page import Page
from advisor.terminal.push.asks import BACK, Asks


def begin(
    study: Study, page: Page, asks: Asks, last_operator: str | None
) -> tuple[float, dict[str, Value]] | None:
    """The counter at the start and what the start entry says; None where it is left."""
    plan = plan_of(study)
    page.strong(plan.first_step)
    for word in ("danger", "warning"):
        grave = [note.text for note in plan.cautions if note.word == word]
        if grave:
            page.boxed(word, grave)
    for ask in plan.ask:
        page.line(f"Not known: {', '.join(ask.about)}. Until it is: {ask.caution.text}")
    if not plan.camera_now:
        page.strong("Push only once that is done.")
    opening = asks.one_of("Where does the rod go in?", _openings(study))
    if opening is None:
        return None
    loadout = _loadout(study, opening, asks)
    if loadout is None:
        return None
    _at_the_opening(study, opening, loadout, {note.id for note in plan.cautions}, page)
    known = choose(
        page,
        "Do you know which way this opening leads?",
        (Choice("y", "yes, I see it"), Choice("n", "no")),
        (BACK,),
    )
    if known == BACK.key:
        return None
    counter = asks.counter("What does the counter show with the lens at the opening? Empty: 0", 0.0)
    if counter is None:
        return None
    known_as = last_operator or "no name"
    operator = type_in(
        page, "Who pushes? The name stands in the report.", lambda _: None, known_as, "no name"
    )
    return counter, {
        "opening": opening,
        "direction": "known" if known == "y" else "unknown",
        "loadout": loadout,
        "target": study.target.words,
        "operator": last_operator if operator == "" else operator,
    }


def _at_the_opening(study: Study, opening: str, loadout: str, told: set[str], page: Page) -> None:
    """What can hurt at this opening and was not `told` with the site; what to do; the rest where wanted."""
    cautions, here, always = before_push(study, opening, loadout)
    for word in ("danger", "warning"):
        grave = [note.text for note in cautions if note.word == word and note.id not in told]
        if grave:
            page.boxed(word, list(dict.fromkeys(grave)))
    if here:
        page.strong("At this opening")
        page.steps(list(here))
    shown = not always
    while not shown:
        asked = f"Done what comes before every push ({len(always)} things)?"
        shown = choose(page, asked, (Choice("y", "yes"), Choice("s", "show them"))) == "y"
        if not shown:
            page.steps(list(always))


def _openings(study: Study) -> list[str]:
    """Openings, those of the order of attempts first."""
    first = [each.route.opening.name for each in study.settled.attempts]
    ranked = [each.outcome.route.opening.name for each in study.ranked]
    drawn = [piece.name for piece in study.network.openings()]
    return list(dict.fromkeys((*first, *ranked, *drawn)))


def _loadout(study: Study, opening: str, asks: Asks) -> str | None:
    """The kit that goes in, the planned one first."""
    ranked = (*study.settled.attempts, *(each.outcome for each in study.ranked))
    planned = [each.loadout.name for each in ranked if each.route.opening.name == opening]
    names = list(dict.fromkeys((*planned, *(each.name for each in study.kit.loadouts))))
    if len(names) == 1:
        return names[0]
    return asks.one_of("What goes in? The first is planned.", names)
