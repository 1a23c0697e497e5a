"""Why pushes end at a hard place: what stops most of them there, of the fitting that it holds for."""

from __future__ import annotations

from advisor.outcome.walk import HardSpot
from advisor.result.why_hard import Why, fired, reasons
from advisor.rulebase.trace import Firing

# The facts of a place that are the chance to stop there.
_STOPS = frozenset(
    f"passage.{each}"
    for each in (
        "head_jams",
        "bore_blocked",
        "rod_end_sticks",
        "runs_at_far_wall",
        "folds_back",
        "wrong_way",
        "crosses_over",
    )
)


def why_there(worst: HardSpot, stops: float, notable: float) -> tuple[str, float]:
    """What stops most of the share that a place `stops`; where many are left over, what stops those. With
    the share that is told of it, 0 where none is."""
    first = max(reasons(worst), key=_share, default=None)
    if first is None:
        return "the head does not pass", 0.0
    words, named, told = list[str](), set[str](), 0.0
    for each in (first, *sorted(reasons(worst, _told), key=_share, reverse=True)):
        facts, share = _facts(each.firing), _share(each)
        if not words or (stops - told >= notable and share >= notable and not facts & named):
            words.append(each.say())
            named |= facts
            told += share
    return " ".join(words), told


def _told(firing: Firing) -> bool:
    """Also where it asks for nothing but such a share: from an even chance on it has the right words for less
    too."""
    return fired(firing) or not set(firing.rule.when.names()) - _STOPS


def _facts(firing: Firing) -> frozenset[str]:
    return _STOPS.intersection(firing.rule.when.names())


def _share(why: Why) -> float:
    """What share of all pushes that reason stops there."""
    return why.share * _stops(why.firing)


def _stops(firing: Firing) -> float:
    """How often what a rule tells of a place stops the head there, 0 to 1; the rest only makes it hard."""
    found = (firing.values.get(name) for name in _facts(firing))
    return max((float(share) for share in found if isinstance(share, float)), default=0.0)
