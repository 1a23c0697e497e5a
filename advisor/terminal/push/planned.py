"""The plan that a sitting goes by: made anew where the log, or what was told just now, knows more than it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from advisor.outcome.at_door import NOTHING_TOLD, AtDoor
from advisor.plan import Case, plan
from advisor.push.before.looked_at import Looks, looks_of
from advisor.push.before.shown_so_far import shown_by
from advisor.push.log.kinds import END, STOPPED
from advisor.push.log.log import Entry, Log, open_push
from advisor.push.now.door import at_door, settled, to_ask_anew
from advisor.push.now.drains import seen_to_drain
from advisor.result.study import Study
from advisor.terminal.push.gates import Gates
from advisor.terminal.ready import Ready


class Planned:
    """`study` is the plan as it stands; `passed` what was told before a push that has not begun yet."""

    def __init__(self, ready: Ready, log: Log, at: datetime) -> None:
        """As the log stands; what was told too long before `at` as an open push began counts no more."""
        self.ready, self.log = ready, log
        self.passed: Gates | None = None
        self._asked: datetime | None = None
        self.anew = False
        self._looked: dict[tuple[int, ...], Looks] = {}
        self.lapsed(at)
        self.case = self.case_now()
        self.study: Study = plan(self.case, ready.tables, ready.base)

    @property
    def _open(self) -> Sequence[Entry]:
        return open_push(self.log.standing())

    @property
    def unsaid(self) -> bool:
        """Whether what must be so before hands go on is still to be told, or anew: too long ago, or it was
        seen to stand since."""
        given = self.study.circumstances
        stands = given.holding is None and seen_to_drain(self._open, self.ready.tables) is False
        return self.anew or stands or None in (given.gas_smell, given.chemicals)

    def lapsed(self, at: datetime) -> bool:
        """Whether by now it is too long ago that something was told of the open push."""
        self.anew = self.anew or to_ask_anew(self._open, at, self.ready.tables.where, self._asked)
        return self.anew

    def asked(self, at: datetime) -> None:
        """It was told anew, or there was nothing to tell."""
        self.anew, self._asked = False, at

    def case_now(self) -> Case:
        """What is to be planned, as the log stands."""
        return self._case(self.log.standing(), self._told())

    def case_from_here(self) -> Case:
        """The same for what comes after the open push: what held that counts on ways from elsewhere too."""
        return self._case(self.log.standing(), self._told(), elsewhere=True)

    def _told(self) -> AtDoor:
        if self.passed:
            return settled(self.passed.told, self.passed.drains)
        return NOTHING_TOLD if self.anew else at_door(self._open, self.ready.tables)

    def _case(self, standing: Sequence[Entry], told: AtDoor, elsewhere: bool = False) -> Case:
        case = self.ready.case
        shown = shown_by(standing, case.kit, self.ready.tables, case.sheet)
        going_on = self._open[0].number if self._open else 0
        told_now = shown.known_to(replace(case, told=told), going_on, elsewhere)
        held = elsewhere and any(entry.kind == STOPPED for entry in self._open)
        return self._looks(standing, held).known_to(told_now)

    def _looks(self, standing: Sequence[Entry], whole: bool) -> Looks:
        """What the pushes that have ended looked at, and with the `whole` log which way the open one went;
        worked out once for each."""
        told = tuple(each.number for each in standing) if whole else _ended(standing)
        ready = self.ready
        if told not in self._looked:
            self._looked[told] = looks_of(ready.case, standing[: len(told)], ready.tables, ready.base)
        return self._looked[told]

    def begun(self) -> Study:
        """The plan that the open push began with: what was told or lost since moves no place told before."""
        standing, told = self.log.standing(), self._open
        since = len(standing) - len(told) + 1
        case = self._case(standing[:since], at_door(told[:1], self.ready.tables))
        return self.study if case == self.case else plan(case, self.ready.tables, self.ready.base)

    def renew(self) -> bool:
        """Whether it had to be made anew: of openings that are shut, kinks, or what was told it knew less."""
        case = self.case_now()
        if case == self.case:
            return False
        self.case, self.study = case, plan(case, self.ready.tables, self.ready.base)
        return True


def _ended(standing: Sequence[Entry]) -> tuple[int, ...]:
    """The entries up to the end of the last push that has ended, by their numbers."""
    ended = max((i for i, entry in enumerate(standing, 1) if entry.kind == END), default=0)
    return tuple(entry.number for entry in standing[:ended])
