"""Nothing that runs water into the line is next where nobody has seen it drain: no tap, and no cleaning."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from advisor.outcome.attempts import CLEANED
from advisor.push.held.freeing import WATER
from advisor.push.now.drains import holds_water
from advisor.push.now.plight import Plight
from advisor.push.now.tries import NextTry
from advisor.result.study import Study
from advisor.tables.in_the_pipe import InPipeFile
from advisor.tables.where import number

RUN_WATER = (CLEANED, WATER)  # techniques


def barred_wet(signs: Collection[str], plight: Plight, study: Study) -> tuple[tuple[str, str], ...]:
    """What runs water and may not now, with the reason; nothing where the line is known to drain.

    What is cleaned is flushed, so nothing is where only this push knew that the line drains: the plan, made
    anew after the stop, bars it too. Where the sheet says that it drains, see `drain_first`. What was told to
    hold water somewhere (`held_back`) bars it whatever holds the head, and whatever else ran away.
    """
    table, row, given = study.tables.stuck, study.tables.in_pipe.drained_before, study.circumstances
    lies_here = sum(chance for _, chance in plight.elsewhere) >= number(table.tell.here)
    unseen = given.drains_at_door or plight.drains is False
    if not plight.held_back and (
        plight.drains is True or not (unseen or holds_water(signs, table) or lies_here)
    ):
        return ()
    why = f"{table.water_held} {row.no_more}" if plight.drained else table.water_held
    return ((WATER, why), *(((CLEANED, row.not_cleaned),) if unseen else ()))


def drain_first(
    tries: Sequence[NextTry],
    wet: Collection[tuple[str, str]],
    in_pipe: InPipeFile,
    still_look: bool = False,
    watched: str = "",
) -> tuple[NextTry, ...]:
    """The tries, with what comes before any that runs water: to see the line drain. Before a cleaning where
    water is barred (`wet`); before both where what backs up was seen low, but with no water run.
    Else how water is `watched`."""
    first = before_water(wet, in_pipe, still_look, watched)
    return tuple(
        replace(each, steps=(first[each.technique], *each.steps)) if each.technique in first else each
        for each in tries
    )


def before_water(
    wet: Collection[tuple[str, str]], in_pipe: InPipeFile, still_look: bool, watched: str
) -> dict[str, str]:
    """What comes before each technique that runs water, as for `drain_first`."""
    row = in_pipe.drained_before
    first = dict.fromkeys(RUN_WATER, watched) if watched else dict[str, str]()
    if wet or still_look:
        first[CLEANED] = row.cleaned
    if still_look:
        first[WATER] = row.tap
    return first


def before_water_ahead(plight: Plight, study: Study) -> dict[str, str]:
    """The same at a hard place that the head comes to: nothing was seen there yet."""
    wet = barred_wet((), plight, study)
    return before_water(wet, study.tables.in_pipe, bool(wet) or plight.still_look, plight.watched)
