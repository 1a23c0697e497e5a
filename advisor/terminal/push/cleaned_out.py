"""Before a push: whether what earlier ones saw, that is cleaned out or cut first, was so since."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from advisor.push.log.kinds import MACHINE
from advisor.push.log.log import Log
from advisor.push.met_before import met_before
from advisor.quantity import show_counter
from advisor.result.study import Study
from advisor.terminal.choose import BACK, DONT_KNOW, choose, yes_no
from advisor.terminal.push.asks import Asks, Data
from advisor.terminal.push.machine import ask_machine, show_machine


def cleaned_out(study: Study, log: Log, asks: Asks, clock: Callable[[], datetime]) -> bool:
    """Put on the log the machine that was run, as a push tells it; False where it is left by back.

    No, or not known: all bars as before. So does what a run settles of which not all is known.
    """
    words, page = study.tables.in_pipe.found_before, asks.page
    found = [note for note in met_before(study, log.standing()) if note.first or note.till_cut]
    met = dict.fromkeys(
        f"{note.what}, {show_counter(note.at_m, study.units)} in from {note.opening}" for note in found
    )
    while met:
        asked = words.since.format(met="; ".join(met))
        key = choose(page, asked, yes_no("yes, a machine was run there since", "no"), (DONT_KNOW, BACK))
        if key != "y":
            return key != BACK.key
        data: Data = {}
        if ask_machine(asks, study, found[0].opening, data):
            log.append(
                MACHINE, None, {name: told for name, told in data.items() if told is not None}, clock()
            )
            show_machine(data, study, page)
            break
    return True
