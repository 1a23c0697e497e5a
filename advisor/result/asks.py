"""Hazards that are undecided: a don't-know is not a no, so each is told with a question."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from advisor.result.model import AskNote, CautionNote
from advisor.rulebase.load import RuleBase
from advisor.rulebase.rule import GRAVEST_FIRST
from advisor.rulebase.trace import Firing


def ask_notes(firings: Iterable[Firing], told: Collection[str], base: RuleBase) -> tuple[AskNote, ...]:
    """Each hazard once whose rule is undecided, the gravest first; `told` are cautioned of anyhow."""
    found: dict[str, AskNote] = {}
    for firing in firings:
        caution = firing.conclusion.caution
        if firing.outcome is None and caution is not None and caution.id not in told:
            about = tuple(base.facts[name].meaning for name in firing.missing)
            note = CautionNote(id=caution.id, word=caution.word, text=caution.text)
            found.setdefault(caution.id, AskNote(about=about, caution=note, if_not=_if_not(firing)))
    return tuple(sorted(found.values(), key=lambda note: GRAVEST_FIRST.index(note.caution.word)))


def _if_not(firing: Firing) -> bool:
    """Whether the hazard is there if what is asked is answered with no."""
    return firing.rule.when.evaluate({**firing.values, **dict.fromkeys(firing.missing, False)}) is True
