"""An open push that is gone on with: what can hurt is told again."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.push.log.log import Entry
from advisor.push.now.drains import drained_before, seen_to_drain
from advisor.push.told_before import HOLDING, SETTLED
from advisor.result.before import before_push
from advisor.result.build import plan_of
from advisor.result.study import Study
from advisor.terminal.page import Page
from advisor.terminal.push.boxes import box, box_unsaid
from advisor.terminal.push.gates import not_known


def remind(
    study: Study, opening: str, loadout: str, entries: Sequence[Entry], asked: bool, page: Page
) -> None:
    """By somebody else perhaps, another day. `entries` are those of the push.

    That the line was seen to drain in it settles what was said of it before. Where a stop has taken that away
    no water is run, but nobody is told that no camera goes in where one is. Whether what must be so before
    any push is `asked` next, and told there.
    """
    page.heading(f"Going on from {opening}")
    plan, before = plan_of(study), before_push(study, opening, loadout)
    drains = seen_to_drain(entries, study.tables)
    for told in (*plan.left_in, *([plan.doubt] if plan.doubt is not None and not drains else [])):
        page.strong(told)
    box((*plan.cautions, *before.cautions), page)
    box_unsaid(before.unsaid, page)
    drained = drained_before(entries, drains)
    for ask in plan.ask:
        holding = ask.caution.id == HOLDING
        if ask.caution.id in SETTLED and (asked or (drains and holding)):
            continue
        again = study.tables.in_pipe.drained_before.again if holding and drained else None
        page.line(again or not_known(ask, signal=True))
