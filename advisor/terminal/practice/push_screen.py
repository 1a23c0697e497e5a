"""The simulated push at the terminal: what the lens shows, how the rod feels, one key for each action."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from advisor.practice import acts
from advisor.practice.acts import Act, State
from advisor.practice.debrief import Decision, debrief
from advisor.practice.drill import Drain, Grade, Option
from advisor.practice.glossary import task_line, words_in
from advisor.practice.marks import Marks, marks_of
from advisor.practice.picture import picture
from advisor.practice.place import caution, drain, story, way_words
from advisor.practice.simulate import Push
from advisor.practice.skill import ALONE
from advisor.quantity import Dimension, show
from advisor.terminal.choose import Choice, choose
from advisor.terminal.page import Page
from advisor.terminal.practice.debrief_screen import walk_back
from advisor.terminal.practice.drill_screen import DRAIN, HINT, LEAVE, WORDS, Left, in_all, show_drain
from advisor.terminal.practice.hint_screen import tell_hint

# The keys of the actions, in the order in which they are offered.
_KEYS = (
    ("1", acts.SLOW, "push slowly"),
    ("2", acts.FIRM, "push firmly: short and hard, at the risk of the rod"),
    ("3", acts.BACK, "pull back to the last fitting"),
    ("4", acts.QUICK, "quick push: back off, one smooth stroke"),
    ("5", acts.TURN, "turn the rod's curl, then push gently"),
    ("6", acts.STRING, "fit the string (draw out, rig it, go in) and pull"),
    ("7", acts.WATER, "run water at a fixture, then push gently"),
    ("8", acts.CLOSER, "hands closer to the opening"),
    ("9", acts.LOOK, "look"),
    ("g", acts.GUIDE, "fit a guide near the head"),
    ("f", acts.CLEAN, "have the line cleaned first"),
    ("o", acts.CHANGE, "stop here, other opening or other gear"),
)
_FEELS = {
    acts.SPRINGY: "springy: it gives and pushes back",
    acts.DEAD: "dead: hard, or nothing comes back",
    acts.GRITTY: "gritty: it scrapes along",
    acts.SLACK: "slack: it goes in with no resistance",
    acts.EASY: "easy: it runs",
}
BACK = "b"
_LETTERS = "123456789acdeijkmnprtuvxyz"
_WELL = {
    acts.TARGET: "You saw it and brought everything home.",
    acts.WEDGED: "The head is stuck in the drain.",
    acts.KINKED: "The rod is done for.",
    acts.GAVE_UP: "You gave up.",
}


def run_push(push: Push, step: str, page: Page) -> Grade:
    """Play one simulated push to its end and walk it back; raises Left."""
    study = push.study
    page.heading("A simulated push")
    page.line("A made-up drain. What nobody has seen of it is drawn by lot and hidden from you.")
    page.line()
    for line in story(study):
        page.line(line)
    show_drain(_drain(push), page)
    told = caution(study, "sewage")
    page.boxed(told.word, [told.text])
    page.line(task_line(study))
    state, asked = push.start, Counter[int]()
    while not state.ended:
        choosing = _opening if state.way is None else _action
        act = choosing(push, state, step, asked, page)
        state = push.act(state, act)
        _show(push, state, page)
    page.line()
    page.strong(_WELL[state.ended])
    page.line(f"{state.minutes:.0f} minutes, and {len(state.steps)} actions.")
    decisions = debrief(push, state, asked)
    marks = marks_of(study.tables)
    walk_back(decisions, marks, page)
    graded = grade_of(decisions, marks)
    page.line()
    page.strong(in_all(graded, marks))
    return graded


def grade_of(decisions: Sequence[Decision], marks: Marks) -> Grade:
    """A whole push as a grade: what its decisions lost together, as a few drills lose it."""
    chosen = tuple(
        Option(d.did, max(d.regret, 0.0), d.doubt, 0.0, d.why, d.unsafe) for d in decisions if d.graded
    )
    unsafe = tuple(dict.fromkeys(option.unsafe for option in chosen if option.unsafe))
    lost = sum(option.regret for option in chosen if not marks.full(option))
    graded = [made for made in decisions if made.graded]
    shares = sum(min(sum(less.share for less in made.less), 1.0) for made in graded)
    share = shares / max(len(graded), 1)
    credit = (
        0.0 if unsafe or not chosen else max(0.0, 1 - lost / (marks.push_drills * marks.nothing_from) - share)
    )
    less = tuple(dict.fromkeys(each.words for made in graded for each in made.less))
    return Grade(sum(option.regret for option in chosen), credit, 0.0, unsafe, chosen, less)


def _drain(push: Push) -> Drain:
    """The lines that the ways in pass."""
    return drain(push.study, [r.outcome for r in push.study.ranked if r.outcome.route.covers >= 1])


def _opening(push: Push, state: State, step: str, asked: Counter[int], page: Page) -> Act:
    """Which opening, then which gear."""
    ways = [act.way for act in push.legal(state) if act.way is not None]
    routes = list(dict.fromkeys(way[0] for way in ways))
    told = {way[0]: way_words(push.study, push.truth.believed(way)) for way in reversed(ways)}
    keyed = dict(zip(_LETTERS, routes, strict=False))
    choices = [Choice(key, told[route]) for key, route in keyed.items()]
    key = _chosen("Where do you go in?", choices, push, state, step, asked, page)
    if key is None:
        return Act(acts.GIVE_UP)
    same = [way for way in ways if way[0] == keyed[key]]
    gear = [Choice(letter, way[1]) for letter, way in zip(_LETTERS, same, strict=False)]
    more = (Choice(BACK, "back to the openings"), Choice(LEAVE, "leave"))
    picked = choose(page, "With which gear?", gear, more)
    if picked == LEAVE:
        raise Left
    if picked == BACK:
        return _opening(push, state, step, asked, page)
    return Act(acts.OPEN, same[_LETTERS.index(picked)])


def _action(push: Push, state: State, step: str, asked: Counter[int], page: Page) -> Act:
    legal = push.legal(state)
    kinds = {act.kind for act in legal}
    choices = [Choice(key, words) for key, kind, words in _KEYS if kind in kinds]
    key = _chosen("What do you do?", choices, push, state, step, asked, page)
    kind = next((kind for wanted, kind, _ in _KEYS if wanted == key), acts.GIVE_UP)
    if kind == acts.FIRM:
        return Act(kind, expects=_expected(page) if state.shown == state.index else "")
    if kind == acts.WATER:
        fixtures = [act.fixture for act in legal if act.kind == acts.WATER]
        keyed = dict(zip(_LETTERS, fixtures, strict=False))
        return Act(
            kind, fixture=keyed[choose(page, "Water where?", [Choice(k, f) for k, f in keyed.items()])]
        )
    return Act(kind)


def _chosen(
    question: str,
    choices: list[Choice],
    push: Push,
    state: State,
    step: str,
    asked: Counter[int],
    page: Page,
) -> str | None:
    """The key of a choice after whatever was looked at; None to give up. Raises Left.

    `asked` counts the hints that were told before each step.
    """
    hints = (Choice(HINT, "hint"), Choice(HINT, "hint: what to do"))
    now = len(state.steps)
    more = (
        Choice(DRAIN, "show the drain"),
        Choice(WORDS, "what do the words mean?"),
        Choice("0", "give up"),
        Choice(LEAVE, "leave"),
    )
    while True:
        key = choose(page, question, choices, more if step == ALONE else (hints[min(asked[now], 1)], *more))
        if key == LEAVE:
            raise Left
        if key == HINT:
            tell_hint(push, state, asked[now] > 0, {kind: words for _, kind, words in _KEYS}, page)
            asked[now] += 1
        elif key == DRAIN:
            show_drain(_drain(push), page)
        elif key == WORDS:
            said = " ".join((*_drain(push).rows(1000), *(choice.words for choice in choices)))
            for word, meaning in words_in(push.study, said):
                page.line(f"{word}: {meaning}")
        else:
            return None if key == "0" else key


def _expected(page: Page) -> str:
    keyed = dict(zip(_LETTERS, acts.FEELS, strict=False))
    choices = [Choice(key, _FEELS[feel]) for key, feel in keyed.items()]
    return keyed[choose(page, "Before a firm push: how do you expect it to feel?", choices)]


def _show(push: Push, state: State, page: Page) -> None:
    step, units = state.steps[-1], push.study.units
    seen = step.seen
    page.line()
    if seen.said:
        page.strong(seen.said)
    for row in picture(seen.ahead):
        page.line(row, indent=4)
    if seen.lens:
        page.line(f"Lens: {seen.lens}")
    if seen.feel:
        page.line(f"Rod: {_FEELS[seen.feel]}")
    if step.act.expects:
        right = step.act.expects == seen.feel
        page.line("As you expected." if right else f"You expected {_FEELS[step.act.expects].split(':')[0]}.")
    if state.way is not None and step.act.kind in acts.TRY_OF and push.truth.bows(state.way, state.hands):
        page.line("The rod bows between your hand and the opening.")
    if step.act.kind == acts.FIRM and step.index is not None and not step.passed and not state.ended:
        told = caution(push.study, "wedged-head", seen.counter)
        page.boxed(told.word, [told.text])
    if state.way is not None:
        counter = show(seen.counter, Dimension.LENGTH, units)
        hands = show(state.hands, Dimension.LENGTH, units)
        page.line(f"Counter {counter}   hands {hands} from the opening")
    page.line(f"{state.minutes:.0f} min so far, {step.minutes:.0f} of them for this.")
