"""What an answer changes at once: verdict and cautions of the whole job, without any planning."""

from __future__ import annotations

from advisor.interview.sheets import Drain, Known
from advisor.outcome.facts import site_facts
from advisor.outcome.rulings import infer_all
from advisor.plan import circumstances_of
from advisor.quantity import Units
from advisor.result.build import verdict_of
from advisor.rulebase.reader import Reader


def hazards(drain: Drain, known: Known, units: Units) -> tuple[str, ...]:
    """The verdict, if there is one, then each caution that holds as `WARNING: its text`."""
    reader = Reader(units, known.tables.words(drain.region))
    facts = site_facts(drain.network, circumstances_of(drain.sheet.model, drain.network), known.tables)
    firings = infer_all(known.base, "site", facts, reader)
    verdict = verdict_of(firings)
    told = [] if verdict is None else [verdict]
    for firing in firings:
        caution = firing.conclusion.caution
        if firing.outcome and caution is not None:
            told.append(f"{caution.word.upper()}: {caution.text}")
    return tuple(dict.fromkeys(told))
