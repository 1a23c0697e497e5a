"""Why a spot is hard, each reason told of the fitting that it holds for: nobody knows yet which is there."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, replace

from advisor.outcome.rulings import Ruling
from advisor.outcome.walk import HardSpot
from advisor.rulebase.rule import with_article
from advisor.rulebase.trace import Firing
from advisor.worlds.spread import middle

_KIND = "passage.kind"
_ANY = "fitting"  # stands for the kind in a reason that says before of which kinds it is told


@dataclass(frozen=True)
class Why:
    """A rule, its reason, and of which of the things that the fitting may be; empty: of all.

    `share` is how likely it is one of those.
    """

    firing: Firing
    because: str
    share: float
    kinds: str = ""

    def say(self, *more: Why) -> str:
        """In words, with what is told of the same kinds besides."""
        because = " ".join(each.because for each in (self, *more))
        return f"If it is {self.kinds}: {because[0].lower()}{because[1:]}" if self.kinds else because


def by_share(hard: HardSpot) -> list[Ruling]:
    """Rulings, the likeliest fitting first."""
    return sorted(hard.rulings, key=lambda ruling: -ruling.share)


def difficulty(hard: HardSpot) -> Iterator[str]:
    """Why it is hard; what holds for some of the things that the fitting may be in one breath for those."""
    together: dict[str, list[Why]] = {}
    for why in reasons(hard):
        together.setdefault(why.kinds or why.because, []).append(why)
    for first, *more in together.values():
        yield first.say(*more) if first.kinds else first.because


def fired(firing: Firing) -> bool:
    """Whether its rule holds there."""
    return bool(firing.outcome)


def reasons(hard: HardSpot, told: Callable[[Firing], bool] = fired) -> Iterator[Why]:
    """What makes it hard, of the rules that are `told`. What does not name the fitting is told once, of the
    likeliest: of another it differs in no more than a reading."""
    found: dict[tuple[str, str], tuple[Firing, list[Ruling]]] = {}
    for ruling in by_share(hard):
        for firing in ruling.firings:
            if firing.rule.conclusion.troubles and told(firing):
                alike = firing.rule_id, _of_any(firing, hard) if _names_kind(firing) else ""
                found.setdefault(alike, (firing, []))[1].append(ruling)
    for firing, of in found.values():
        yield _why(firing, of, hard)


def asked_for(firing: Firing, hard: HardSpot) -> str:
    """The reason for something to do there, of the kinds that ask for it where it names the fitting."""
    if not _names_kind(firing):
        return firing.because
    holds = (firing.rule_id, True)
    asking = [r for r in by_share(hard) if any((f.rule_id, f.outcome) == holds for f in r.firings)]
    return _why(firing, asking, hard).say()


def _why(firing: Firing, of: Collection[Ruling], hard: HardSpot) -> Why:
    share = sum(ruling.share for ruling in of)
    if len(hard.rulings) == 1:
        return Why(firing, firing.because, share)
    because = _of_any(firing, hard)
    if len(of) == len(hard.rulings):
        return Why(firing, because, share)
    called = ((with_article(firing.reader.call(each.variant)), each.share) for each in of)
    return Why(firing, because, share, " or ".join(f"{name} ({100 * share:.0f} %)" for name, share in called))


def _names_kind(firing: Firing) -> bool:
    return f"{{{_KIND}}}" in firing.rule.because


def _of_any(firing: Firing, hard: HardSpot) -> str:
    """Its reason without the name of the fitting, at the place of the spot itself, whichever it is."""
    at = middle(hard.spot.station.at)
    return replace(firing, values={**firing.values, _KIND: _ANY, "passage.at": at}).because
