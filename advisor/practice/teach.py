"""An answer explained as a teacher would: cause before rule, and `why not mine?` in minutes."""

from __future__ import annotations

from advisor.practice.drill import Ask, Option


def explained(ask: Ask, chosen: Option) -> tuple[str, ...]:
    """What is told of one answer; the first line says how it went."""
    best = ask.best
    if chosen.unsafe:
        return ("That can hurt somebody. It fails, whatever it would save.", *chosen.why, *_best(best))
    if chosen is best:
        return ("Right: nothing costs less.", *best.why)
    if chosen.full:
        gap = f"{max(chosen.regret, 0):.0f} min"
        return (f"As good as the best, as far as can be told ({gap} apart).", *chosen.why, *_best(best))
    return (*why_not(ask, chosen), *_best(best))


def why_not(ask: Ask, chosen: Option) -> tuple[str, ...]:
    """Why not mine: what it costs against the best, in minutes and in chance, and by which cause."""
    lost = f", {chosen.lost_chance:.0%} less chance in it" if chosen.lost_chance > 0.005 else ""
    return (f"Yours ({chosen.words}) costs {chosen.regret:.0f} min more than the best{lost}.", *chosen.why)


def _best(best: Option) -> tuple[str, ...]:
    return (f"Best: {best.words}.", *best.why)


def worked(ask: Ask) -> tuple[str, ...]:
    """The question answered, for a worked example."""
    return (f"Answer: {ask.best.words}.", *ask.best.why)
