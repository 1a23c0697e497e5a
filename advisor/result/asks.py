"""Hazards that are undecided: a don't-know is not a no, so each is told with a question."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from types import MappingProxyType

from advisor.result.model import AskNote, CautionNote
from advisor.rulebase.load import RuleBase
from advisor.rulebase.rule import GRAVEST_FIRST
from advisor.rulebase.trace import Firing


def ask_notes(
    firings: Iterable[Firing],
    told: Collection[str],
    base: RuleBase,
    on_sheet: Mapping[str, str] = MappingProxyType({}),
    doubted: Collection[str] = (),
) -> tuple[AskNote, ...]:
    """Each hazard once whose rule is undecided; `told` are cautioned of anyhow.

    What decides whether anybody pushes at all comes first, then the gravest. `on_sheet` is what the sheet
    says, by fact, that bears on it without settling it: whoever is asked is told. `doubted` are facts of
    which what was said cannot all be.
    """
    found: dict[str, AskNote] = {}
    for firing in firings:
        caution = firing.conclusion.caution if firing.outcome is None else None
        if caution is not None and caution.id not in told:
            about = tuple(base.facts[name].meaning + on_sheet.get(name, "") for name in firing.missing)
            note = CautionNote(id=caution.id, word=caution.word, text=caution.text, short=caution.short)
            decides = firing.rule.conclusion.verdict is not None
            asked = AskNote(
                about=about,
                caution=note,
                if_not=_if_not(firing),
                decides=decides,
                doubted=not set(doubted).isdisjoint(firing.missing),
            )
            found.setdefault(caution.id, asked)
    return tuple(sorted(found.values(), key=first_asked))


def first_asked(note: AskNote) -> tuple[bool, int]:
    """The order in which hazards are asked about."""
    return (not note.decides, GRAVEST_FIRST.index(note.caution.word))


def _if_not(firing: Firing) -> bool:
    """Whether the hazard is there if what is asked is answered with no."""
    return firing.rule.when.evaluate({**firing.values, **dict.fromkeys(firing.missing, False)}) is True
