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


def told_for(run: Run, study: Study) -> Study:
    """The plan for what it was told to go for, a part as that part: the end of that it may have reached."""
    whole, drawn = went_for(run, study), _drawn(entry_text(run.started, "target") or "", study)
    if drawn is None or drawn[1].line != whole.wanted.line or drawn[1].is_point:
        return whole
    low, high = stretch_of(whole.network, whole.wanted)
    first, last = stretch_of(*drawn)
    inside = low - _SAME <= first < last <= high + _SAME
    if not inside or last - first > high - low - _SAME:
        return whole
    return replace(study, network=drawn[0], target=drawn[1], part=None)


def for_part(run: Run, study: Study) -> bool:
    """Whether that is no more than a part of what was to be seen."""
    return told_for(run, study).wanted.words != went_for(run, study).wanted.words


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
