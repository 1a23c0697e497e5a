"""What was told at the door of the last push that was asked: a plan may name it, and still has it asked."""

from __future__ import annotations

from collections.abc import Iterable

from advisor.push.log.kinds import START
from advisor.push.log.log import Entry, entry_text
from advisor.push.report.words import when

# The cautions of rules/caution/stop_first.yaml that are settled where a push begins, for that push.
GAS, POURED, HOLDING = "gas-smell", "chemicals", "holding-line"
SETTLED = (GAS, POURED, HOLDING)


def told_before(standing: Iterable[Entry]) -> tuple[str, ...]:
    """It in a sentence, with when and by whom; it may be otherwise now, so it settles nothing."""
    starts = [entry for entry in standing if entry.kind == START and entry_text(entry, "told")]
    if not starts:
        return ()
    last = starts[-1]
    by = f" by {name}" if (name := entry_text(last, "operator")) else ""
    began = f"as the push of {when(last.happened_at)} began"
    return (f"Told{by} {began}: {last.data['told']}. That was then: ask anew.",)
