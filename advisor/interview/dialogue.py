"""The question session as state in, state out: which question comes next, and what stands after an answer.

The state is the sheet it began with and the answers so far. The plan depends on the *set* of answers, the
kit and the seed alone, so going back and answering the same again gives the same plan.
"""

from __future__ import annotations

from collections.abc import Set
from dataclasses import replace

from advisor.interview.ask import Ask, ask_of
from advisor.interview.joinings import drawn_before, told_gone
from advisor.interview.leading import Standing, standing
from advisor.interview.openings import at_hand, found_first, next_at_openings
from advisor.interview.order import drawn_order
from advisor.interview.question import GAS, Question
from advisor.interview.safe import Safe
from advisor.interview.sheets import Answers, Known, Sheets
from advisor.interview.subject import JOB, Subject
from advisor.interview.told import entry, still_open
from advisor.interview.total import around, as_paced, totals, whole_of
from advisor.interview.use import still_of_use
from advisor.interview.worth import more_to_ask, next_to_ask
from advisor.outcome.memory import Memory
from advisor.plan import Case, plan, preview, work_through
from advisor.quantity import Units
from advisor.result.study import Study
from advisor.site.sheet import usual_units
from advisor.site.suspects import backing_up

KEPT = 8  # studies, for going back
FIXED = ("start", "safety", "complaint", "history")


class Session:
    """Works out what follows from answers; the answers themselves are the caller's to keep."""

    def __init__(self, known: Known) -> None:
        self.known = known
        self.sheets = Sheets(known)
        self._memory = Memory()
        self._studies: dict[str, Study] = {}
        self._stands: tuple[Study, Standing] | None = None  # of the study that was asked about last

    # -- what follows from a set of answers ------------------------------------------------------

    def units(self, answers: Answers) -> Units:
        """The units in which numbers are told."""
        drain = self.sheets.drain(answers)
        return self.known.units or (usual_units(drain.sheet.model) if drain else Units.INCH)

    def study(self, answers: Answers, whole: bool = False) -> Study | None:
        """The plan's study: a first look where there are many worlds, unless the whole is wanted."""
        drain = self.sheets.drain(answers)
        if drain is None:
            return None
        key = f"{whole}\n{drain.key}"
        if key not in self._studies:
            known = self.known
            units = self.units(answers)
            case = Case(drain.sheet, known.kit, units, known.worlds, known.seed)
            case = replace(case, shut=known.shut, opened=known.opened, learned=known.learned)
            case = known.shown(case)
            # Only a plan that is shown needs the book's cautions besides.
            works = plan if whole else work_through
            study = works(case if whole else preview(case), known.tables, known.base, self._memory)
            self._studies = dict(list(self._studies.items())[-KEPT:])
            self._studies[key] = study
        return self._studies[key]

    def standing(self, answers: Answers) -> Standing | None:
        """Where things stand, by the plan of the same answers: what it would begin with is what is told."""
        study = self.study(answers)
        if study is None:
            return None
        if self._stands is None or self._stands[0] is not study:
            self._stands = study, standing(study, self.known.met(study), self.known.seen(study))
        return self._stands[1]

    # -- which question comes next ---------------------------------------------------------------

    def next(self, answers: Answers) -> Ask | None:
        """The question to put now; nothing where none is worth it."""
        done = {(each.question, each.about) for each in answers}
        for block in FIXED:
            for question in self.known.questions.block(block):
                ask = self._fixed(question, answers) if (question.id, JOB.id) not in done else None
                if ask is not None:
                    return ask
        for question in self.known.questions.all:
            if (question.id, JOB.id) not in done and self._always(question, answers):
                ask = self._fixed(question, answers)
                if ask is not None:
                    return ask
        if self.over(answers):
            return None
        open_ones = self._unasked(answers)
        if self.known.ask_all:
            return next(iter(self._of_use(open_ones, answers)), None)
        if (seen := at_hand(open_ones)) is not None:
            return seen
        if (now := self.standing(answers)) is None:
            return None
        asks = self._of_use([a for a in open_ones if a.question.block == "find out"], answers, now.study)
        best = (next_at_openings(asks, now.study) if now.nowhere else None) or next_to_ask(asks, now)
        return best and found_first(best, asks)

    def more(self, answers: Answers) -> Ask | None:
        """The most telling question of those that are left, for whoever goes on where `next` has none."""
        if self.over(answers) or (now := self.standing(answers)) is None:
            return None
        asks = self._of_use(self._unasked(answers), answers, now.study)
        best = at_hand(asks) or more_to_ask(asks, now)
        return best and found_first(best, asks)

    def over(self, answers: Answers) -> bool:
        """True where nothing more is to be asked: it smells of gas, or no camera goes in for now."""
        if self.gas(answers):
            return True
        drain = self.sheets.drain(answers)
        if drain is None or self.known.ask_all:
            return False
        complaint = drain.sheet.model.task.complaint
        return complaint.holding is True or complaint.chemicals is True

    def gas(self, answers: Answers) -> bool:
        """True once somebody smells gas, until it is told safe: everybody leaves, and no question matters."""
        drain = self.sheets.drain(answers)
        if drain is None:
            return any(each.question == GAS and each.values == ("yes",) for each in answers)
        return drain.sheet.model.task.complaint.gas_smell is True

    def open(self, answers: Answers) -> list[Ask]:
        """Every question about the drain that may be put and is still open, in the fixed order."""
        drain = self.sheets.drain(answers)
        if drain is None:
            return []
        found, safe = [], Safe(drain, self.known)
        about = as_paced(drain.network, drain.subjects)
        for block in ("find out", "rest"):
            for question in self.known.questions.block(block):
                for subject in () if self._drawn_by_hand(question) else about:
                    if subject.about != question.about or not still_open(question, subject, drain):
                        continue
                    if self._after(question, subject, answers) or not safe.may_ask(question, subject):
                        continue
                    ask = self._put(question, subject, answers)
                    if ask is not None:
                        found.append(ask)
        # Of the whole job first: what is not drawn yet comes before the lengths up to it.
        return sorted(found, key=lambda ask: ask.subject is not JOB)

    def may_tell(self, answers: Answers) -> list[Ask]:
        """What may be told of the drain, in its order: what is open, and what was answered and may change."""
        told = (self.again(answers, each.question, each.about) for each in answers if each.about != JOB.id)
        found = {ask.key: ask for ask in (*self.open(answers), *told) if ask is not None}
        drain = self.sheets.drain(answers)
        place = drawn_order(drain.network) if drain else {}
        asked = {question.id: number for number, question in enumerate(self.known.questions.all)}
        return sorted(found.values(), key=lambda a: (asked[a.question.id], place.get(a.subject.id, 0)))

    def not_drawn(self, answers: Answers) -> list[Ask]:
        """What may be put on the drawing that it lacks."""
        asks = (self.ask(answers, each.id) for each in self.known.questions.all if each.branch)
        return [ask for ask in asks if ask is not None]

    def totals(self, answers: Answers) -> list[Ask]:
        """Lengths over several stretches that may be told as one."""
        drain = self.sheets.drain(answers)
        found = totals(drain.network, drain.subjects) if drain else ()
        question = next(q for q in self.known.questions.all if q.about == "run")
        return [ask for each in found if (ask := self._put(question, each, answers)) is not None]

    def others_like(self, ask: Ask, answers: Answers) -> tuple[Ask, ...]:
        """The same question about what else it is open of, to be left with it where nobody knows any more
        of them; nothing of what can hurt, which is never passed over together."""
        if ask.question.careful is not None or ask.question.block not in ("find out", "rest"):
            return ()
        done = {(each.question, each.about) for each in answers}
        others = (o for o in self.open(answers) if o.question is ask.question)
        left = [o for o in others if o.key != ask.key and o.key not in done]
        return tuple(self._of_use(left, answers))

    def about(self, answers: Answers, question: str) -> list[Subject]:
        """What a question may be about with these answers."""
        asked, drain = self.known.questions.by_id[question], self.sheets.drain(answers)
        return [s for s in drain.subjects if s.about == asked.about] if drain else []

    def ask(self, answers: Answers, question: str, about: str = JOB.id) -> Ask | None:
        """A question that was asked, as it would be put with these answers, to ask it again."""
        without = tuple(a for a in answers if (a.question, a.about) != (question, about))
        return self._asked(without, question, about)

    def again(self, answers: Answers, question: str, about: str = JOB.id) -> Ask | None:
        """The same, as it is put to somebody: a length from what is really there."""
        ask = self.ask(answers, question, about)
        # Of the job as a whole nothing is paced; and without what draws it (region, building, a branch) what
        # was told of it since has nothing to stand on.
        if ask is None or ask.subject.about != "run":
            return ask
        lengths = {(a.question, a.about) for a in answers if a.question == question}
        whole = self._paced(ask.subject, answers, lengths)
        if whole is None:
            return ask
        # What one length was dealt out to is one thing to tell: it is told anew of all of it.
        parts = {(question, part.id) for part in whole.parts}
        now = self._paced(ask.subject, answers, parts) or whole
        return self._put(ask.question, now, tuple(a for a in answers if (a.question, a.about) not in parts))

    # -- inside ----------------------------------------------------------------------------------

    def _paced(self, run: Subject, answers: Answers, less: Set[tuple[str, str]]) -> Subject | None:
        """The length as it is paced that a run is part of, without some of the answers."""
        drain = self.sheets.drain(tuple(a for a in answers if (a.question, a.about) not in less))
        return whole_of(run, drain.network, drain.subjects) if drain else None

    def _unasked(self, answers: Answers) -> list[Ask]:
        done = {(each.question, each.about) for each in answers}
        return [ask for ask in self.open(answers) if ask.key not in done]

    def _of_use(self, asks: list[Ask], answers: Answers, study: Study | None = None) -> list[Ask]:
        """Those whose answer could still change something."""
        study, drain = study or self.study(answers), self.sheets.drain(answers)
        return asks if study is None or drain is None else still_of_use(asks, study, drain.network)

    def _drawn_by_hand(self, question: Question) -> bool:
        """True where somebody drew what a question would put on the drawing; it is not asked unbidden."""
        return bool(question.branch) and self.known.sheet is not None

    def _always(self, question: Question, answers: Answers) -> bool:
        """True where the sheet says something for which a question is put whatever it is worth."""
        tree = self.sheets.tree(answers) if question.always_where else None
        return tree is not None and all(entry(tree, k) == v for k, v in question.always_where.items())

    def _after(self, question: Question, subject: Subject, answers: Answers) -> bool:
        """True where an answer that was given leaves nothing to ask."""
        about = (JOB.id, subject.id, *subject.beside)
        return any(self._said(other, value, answers, about) for other, value in question.not_after.items())

    def _fixed(self, question: Question, answers: Answers) -> Ask | None:
        if self._after(question, JOB, answers) or self._drawn_by_hand(question):
            return None
        if question.block == "start":
            if self.known.sheet is not None:
                return None
        else:
            drain = self.sheets.drain(answers)
            if self.gas(answers) or drain is None or not still_open(question, JOB, drain):
                return None
            if not Safe(drain, self.known).may_ask(question, JOB):
                return None
        return self._put(question, JOB, answers)

    def _said(self, question: str, value: str, answers: Answers, about: tuple[str, ...]) -> bool:
        """True where that was answered about one of these, or stands on the sheet."""
        if any(a.question == question and a.about in about and a.values == (value,) for a in answers):
            return True
        tree = self.sheets.tree(answers) or {}
        choices = self.known.questions.by_id[question].choices
        return any(
            entry(tree, place) == told for c in choices if c.value == value for place, told in c.set.items()
        )

    def _put(self, question: Question, subject: Subject, answers: Answers) -> Ask | None:
        gone = told_gone(answers)
        if question.branch:  # its places are those of the drawing as it was before it
            answers = drawn_before(question, self.known.questions.all, answers)
        drain = self.sheets.drain(answers) if question.block != "start" else None
        region, buildings = self.sheets.region(answers), self.sheets.buildings(answers)
        network = drain.network if drain else None
        about = around(question, drain.network, drain.subjects) if drain else ()
        tables, units = self.known.tables, self.known.units
        ask = ask_of(question, subject, network, region, tables, buildings, about, units, gone)
        if ask is None or not question.adds_to:
            return ask
        # Whoever backs up is not asked about again, whether that was answered or stands on the sheet.
        worse = _TROUBLE[: _TROUBLE.index(question.id)]
        told = {v for a in answers if a.question in worse for v in a.values}
        tree = self.sheets.tree(answers) or {}
        for place in (place for id_ in worse for place in self.known.questions.by_id[id_].adds_to):
            told |= set(entry(tree, place) or ())
        if question.id == "fine" and drain is not None:
            told |= set(backing_up(drain.network, drain.sheet.model.task.complaint))
        left = tuple(option for option in ask.options if option.value not in told)
        return replace(ask, options=left) if left else None

    def _asked(self, answers: Answers, question: str, about: str) -> Ask | None:
        asked = self.known.questions.by_id[question]
        if asked.about == JOB.about:
            return self._put(asked, JOB, answers)
        drain = self.sheets.drain(answers)
        about_ = drain.subjects if drain else ()
        met = [s for s in about_ if s.about == asked.about]
        named = [s for s in met if s.id == about] or [s for s in met if s.name == about]
        return self._put(asked, named[0], answers) if len(named) == 1 else None


_TROUBLE = ("backs-up", "slow", "fine")  # the gravest first
