"""An answer explained as a teacher would: cause before rule, and `why not mine?` in minutes."""

from __future__ import annotations

from advisor.practice.drill import Ask, Option
from advisor.practice.marks import Marks
from advisor.rulebase.rule import Caution


def explained(ask: Ask, chosen: Option, marks: Marks) -> tuple[str, ...]:
    """What is told of one answer; the first line says how it went."""
    best = ask.best
    if chosen.unsafe:
        return (f"{harm(chosen.unsafe)} It fails, whatever it would save.", *chosen.why[:1], *_best(ask))
    if chosen is best:
        return ("Right.", *best.why)
    if marks.full(chosen):
        gap = f"{max(chosen.regret, 0):.0f} min"
        return (f"As good as the best, as far as can be told ({gap} apart).", *chosen.why, *_best(ask))
    return (*why_not(ask, chosen), *_best(ask))


def why_not(ask: Ask, chosen: Option) -> tuple[str, ...]:
    """Why not mine: what it costs against the best, in minutes and in chance, and by which cause."""
    in_100 = f"{100 * chosen.lost_chance:.0f}"  # layout: of what reads as none nothing is said
    lost = f", and {in_100} in 100 fewer get there" if in_100 != "0" and chosen.lost_chance > 0 else ""
    return (f"Yours ({chosen.words}) {ask.loses} {chosen.regret:.0f} min more{lost}.", *chosen.why)


def _best(ask: Ask) -> tuple[str, ...]:
    return (f"{ask.best_is}: {ask.best.words}.", *ask.best.why)


def worked(ask: Ask, marks: Marks) -> tuple[str, ...]:
    """The question answered, for a worked example, and in a line each why not the others."""
    others = (_short(ask, o, marks) for o in ask.options if o is not ask.best)
    return (f"Answer: {ask.best.words}.", *ask.best.why, *others)


def _short(ask: Ask, option: Option, marks: Marks) -> str:
    if option.unsafe:
        return f"Not {option.words}: {harm(option.unsafe)}"
    if marks.full(option):
        return f"As good, as far as can be told ({max(option.regret, 0):.0f} min apart): {option.words}."
    most = next((line for line in option.why if line.startswith("It ends most often")), "")
    return f"Not {option.words}: it {ask.loses} {option.regret:.0f} min more. {most}".strip()


def harm(caution: Caution) -> str:
    """What a forbidden choice can do, as gravely as its caution says: a notice is for gear."""
    return "That can cost you the head." if caution.word == "notice" else "That can hurt somebody."
