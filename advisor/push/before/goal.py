"""What a push went for, by its start: for what is to be seen now, for a part of it, or for something else."""

from __future__ import annotations

from dataclasses import replace

from advisor.errors import QuantityError
from advisor.push.log.log import entry_text
from advisor.push.now.seen import Run, stretch_of
from advisor.result.study import Study
from advisor.site.network import Network
from advisor.site.target import SUSPECT, Target, target_in

_SAME = 1e-6  # m


def went_for(run: Run, study: Study) -> Study:
    """The plan for what one push went for."""
    words = entry_text(run.started, "target")
    if study.wanted.kind != SUSPECT or words is None or words == study.wanted.words:
        return study
    drawn = _drawn(words, study)
    if drawn is None:
        return study
    network, target = drawn
    if target.line == study.wanted.line:
        low, high = stretch_of(study.network, study.wanted)
        first, last = stretch_of(network, target)
        if low - _SAME <= first and last <= high + _SAME:
            return study
    return replace(study, network=network, target=target, part=None)


def for_another(run: Run, study: Study) -> bool:
    """Whether it surely went for no part of what is to be seen now: what was told at its end of what was to
    be seen then says nothing of this."""
    words = entry_text(run.started, "target")
    drawn = None if words is None else _drawn(words, study)
    if drawn is None:
        return False
    network, target = drawn
    if target.line != study.wanted.line:
        return True
    low, high = stretch_of(study.network, study.wanted)
    first, last = stretch_of(network, target)
    return last <= low + _SAME or high <= first + _SAME


def _drawn(words: str, study: Study) -> tuple[Network, Target] | None:
    """It on the sheet as it is now; None where the sheet has it no longer."""
    try:
        return target_in(words, study.network)
    except (ValueError, QuantityError):
        return None
