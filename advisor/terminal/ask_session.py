"""`advisor ask`: runs the question session at the terminal, keeps every answer, writes the sheet, plans."""

from __future__ import annotations

from dataclasses import replace
from functools import reduce
from typing import Literal

from advisor.errors import BadInput
from advisor.interview.answers import NONE, Answer
from advisor.interview.ask import Ask
from advisor.interview.carry import still_right
from advisor.interview.dialogue import Session
from advisor.interview.drawings import Drawings
from advisor.interview.hazards import hazards, no_more_fine
from advisor.interview.question import DONT_KNOW, GAS, GAS_CLEARED
from advisor.interview.sheets import Answers
from advisor.interview.store import Kept, save, with_answer
from advisor.interview.subject import JOB
from advisor.interview.total import answers_to
from advisor.job.folder import Job
from advisor.site.suspects import contradiction
from advisor.terminal import ask_screen as screen
from advisor.terminal.ask_missing import pick_one, what_is_wrong
from advisor.terminal.ask_moved import tell_again, tell_held
from advisor.terminal.ask_other_pipe import told_of_other_pipe
from advisor.terminal.ask_written import ended, write_sheet
from advisor.terminal.choose import BACK
from advisor.terminal.leaf import leaf_through
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan


class AskRun:
    """One sitting. Each answer is in the job's folder before the next question shows."""

    def __init__(self, session: Session, job: Job, kept: Kept, page: Page) -> None:
        self.session, self.job, self.kept, self.page = session, job, kept, page
        self.said = ""  # the line that moves, as last told
        self.may_push = False  # by the plan that was shown: else there is nothing to carry in the pocket
        # They are chosen already where their question comes again.
        self._taken_back: Answers = () if kept.ticked is None else (kept.ticked,)
        self._shown: Answers | None = None  # the answers whose drain was shown last at the end
        self._back_to: tuple[str, str] | None = None  # the question of what was taken back just now
        self.drawings = Drawings(session, kept.lost)
        self._at_once: tuple[Answer, ...] = ()  # don't know to several at one key, the last time

    def run(self) -> bool:
        """Ask, review and write the sheet; False where somebody left before the end."""
        if self.kept.answers:
            screen.show_last(self.kept.answers, self.session, self.page)
        if self.session.gas(self.kept.answers) and self._what_of_the_gas().leave:
            self._leave()
            return False
        try:
            while True:
                if not self._questions():
                    return False
                reviewed = self._reviewed()
                if reviewed == "left":
                    self._leave()
                    return False
                if reviewed == "more":
                    self.page.line(f"The most telling first. Enough: {screen.GO_ON}.")
                    if not self._questions(more=True):
                        return False
                if reviewed == "right":
                    break
        except KeyboardInterrupt:
            self._leave()
            raise
        self._finish()
        return True

    def _what_of_the_gas(self) -> screen.Said:
        """The danger for which the job was left, and what holds of it now; without an answer it stays."""
        self._hazards((), self.kept.answers)
        return self._put_again(Answer(GAS_CLEARED, JOB.id, ()))

    def _questions(self, more: bool = False) -> bool:
        """Every question worth asking, or those that are left, the most telling first, until it is enough;
        False where somebody left."""
        taken = 0
        while True:
            answers = self.kept.answers
            # Of what was taken back itself, though another question may be open before it.
            back = self._back_to and self.session.again(answers, *self._back_to)
            ask = back or (self.session.more(answers) if more else self.session.next(answers))
            self._back_to = None
            if ask is None:
                if more:
                    self.page.line("There is nothing more to ask.")
                return True
            again = next((a.values for a in self._taken_back if (a.question, a.about) == ask.key), ())
            others = self.session.others_like(ask, answers) if self.session.known.ask_all and not more else ()
            said = screen.put(ask, self.session, answers, self.page, again, len(others), more)
            if said.leave:
                self._leave(Answer(*ask.key, said.ticked))
                return False
            if said.enough or (more and said.back and taken == 0):
                return True
            if said.back:
                taken -= 1
                self._go_back()
            elif said.no_more:
                self._know_no_more((ask, *others))
            else:
                taken += self._take(ask, Answer(*ask.key, said.values))

    def _know_no_more(self, asks: tuple[Ask, ...]) -> None:
        """Don't know to each of these; one `back` takes them all back."""
        self._at_once = tuple(each for ask in asks for each in answers_to(ask, (DONT_KNOW,)))
        self.keep(reduce(with_answer, self._at_once, self.kept.answers))
        self.page.line(f"{len(asks)} taken as not known.")

    def _take(self, ask: Ask, answer: Answer) -> bool:
        """Keep an answer and tell what it changed; one that contradicts the sheet is told and not kept."""
        before = self.kept.answers
        again, held = Answers(), Answers()
        given = answers_to(ask, answer.values)
        now = reduce(with_answer, given, before)
        if ask.question.block == "start":  # another house: what was told of the old one stays where it fits
            found = still_right(now, self.session)
            now, again = found.answers, found.lost
        try:
            self.session.sheets.drain(now)
        except BadInput as wrong:
            self.page.line(f"That cannot be: {wrong.faults[0].message}. Asked again.")
            return False
        if ask.question.branch:  # a length up to what joins now is not the one that was told
            now, again, held = self.drawings.turned(before, now)
        tell_again(again, self.session, before, self.page)
        tell_held(held, self.session, now, self.page)
        self.keep(now)
        if ask.subject.parts:
            self._at_once = given
            for part, each in zip(ask.subject.parts, given, strict=True):
                self.page.line(f"{part.line}, {part.place}: {each.values[0]}")
        if not answer.known and ask.question.careful:
            self.page.line(ask.question.careful.say)
        self._tell(ask, answer, before, now)
        return True

    def _tell(self, ask: Ask, answer: Answer, before: Answers, now: Answers) -> None:
        """One line of what changed."""
        if ask.question.block == "start":
            drain = self.session.sheets.drain(now)
            if drain is not None:
                ways, like = len(drain.network.openings()), self.session.sheets.building(now)
                self.page.line(f"Drawn as: {like}. {ways} places where a rod might go in, all assumed.")
                self.page.line(f"Another house? {BACK.key}: back.")
            elif not answer.known and ask.question.id == "region":
                place = self.session.sheets.region(now).title()
                self.page.line(f"Taken as {place}, with its words, codes and emergency numbers.")
            else:
                self.page.line("Noted; the plan starts once the building is known.")
        elif ask.question.block == "safety":
            told = [c.say for c in ask.question.choices if c.say and c.value in answer.values]
            if ask.question.told and answer.known and NONE not in answer.values:
                self.page.line(ask.question.told)  # a place that stands full is a danger, warned of or not
                self._hazards(before, now, ask.key)
            elif not self._hazards(before, now, ask.key):
                if told:
                    self.page.line(told[0])
                elif answer.known:  # what is not known has been answered by what to do
                    self.page.line("Noted. No new warning comes of that.")
        else:
            self._hazards(before, now, ask.key)
            standing = self.session.standing(now)
            words = standing.words().rstrip(".") if standing else ""
            if words == self.said:
                self.page.line(f"No change. {words[:1].upper()}{words[1:]}".strip(". ") + ".")
            else:
                self.page.line(f"Now: {words}.")
            self.said = words

    def _hazards(self, before: Answers, now: Answers, key: tuple[str, str] = ("", "")) -> bool:
        """Tell what an answer changed of dangers, and what does not go together; False where nothing did.

        What comes of the answer to `key` is told though it stood before: yes after don't know warns too."""
        units = self.session.units(now)
        bare = self._that_fit(tuple(a for a in before if (a.question, a.about) != key))
        drains = [self.session.sheets.drain(answers) for answers in (before, bare, now)]
        was, without, is_now = (() if d is None else hazards(d, self.session.known, units) for d in drains)
        odd = ["" if d is None else contradiction(d.network, d.sheet.model.task.complaint) for d in drains]
        says = [odd[2]] if odd[2] and not (odd[0] and odd[1]) else []
        says += [words for words in is_now if words not in was or words not in without]
        gone = [words for words in was if words not in is_now]
        if overruled := no_more_fine(drains[0], drains[2]):
            self.page.line(overruled)
        for words in says:
            self.page.strong(words)
        if gone and not says:
            self.page.line(f"No more: {gone[0]}")
        return bool(says or gone or overruled)

    def keep(self, answers: Answers) -> None:
        """Keep these answers in the job's folder."""
        self.kept = replace(self.kept, answers=answers, ticked=None, lost=self.drawings.lost)
        save(self.job.answers, self.kept)

    def _go_back(self) -> None:
        if not self.kept.answers:
            self.page.line("This is the first question.")
            return
        together = len(self._at_once)
        count = together if together and self.kept.answers[-together:] == self._at_once else 1
        self._back_to = (self.kept.answers[-count].question, self.kept.answers[-count].about)
        self._taken_back = reduce(with_answer, self.kept.answers[-count:], self._taken_back)
        now, held = self.drawings.held_again(self._that_fit(self.kept.answers[:-count]))
        tell_held(held, self.session, now, self.page)
        self.keep(now)

    def _that_fit(self, answers: Answers) -> Answers:
        """Those that can be: one may hang on what is not among them, as on a toilet that was drawn."""
        try:
            self.session.sheets.drain(answers)
        except BadInput:
            return still_right(answers, self.session).answers
        return answers

    def _leave(self, ticked: Answer | None = None) -> None:
        if ticked is not None and ticked.values:
            self.kept = replace(self.kept, ticked=ticked)
            save(self.job.answers, self.kept)
        self.page.line(f"Saved. Go on with: advisor ask {self.job.folder}")

    def _reviewed(self) -> Literal["right", "changed", "more", "left"]:
        """Show the drain (then its changes) and every answer; `right` when nothing is changed any more."""
        if self.session.gas(self.kept.answers):
            return "right"
        if self._shown != self.kept.answers:  # else it would push off the screen what was just told
            screen.show_changes(self.session, self._shown, self.kept.answers, self.page)
            self._shown = self.kept.answers
        more = self.session.more(self.kept.answers) is not None
        picked = screen.pick_to_change(self.kept.answers, self.session, self.page, more)
        if picked is None:
            return "right"
        if picked == "l":
            return "left"
        if not isinstance(picked, Answer):
            return self._wrongly_drawn() if picked == screen.MISSING else "more"
        if (picked.question, picked.values) == (GAS, ("yes",)):
            # That it was told once stays told; what may change is what holds of it now.
            picked = Answer(GAS_CLEARED, picked.about, ())
        return "left" if self._put_again(picked).leave else "changed"

    def _put_again(self, answer: Answer) -> screen.Said:
        """Put the question of an answer once more, and take what is said now."""
        ask = self.session.again(self.kept.answers, answer.question, answer.about)
        if ask is None:
            # What it was about is not on the drain any more.
            self.keep(tuple(a for a in self.kept.answers if a != answer))
            return screen.Said()
        return self.put_until_taken(ask, answer.values)

    def put_until_taken(self, ask: Ask, told: tuple[str, ...] = ()) -> screen.Said:
        """Put a question, and once more after an answer that cannot be; what was said at last."""
        while True:
            before = self.kept.answers
            said = screen.put(ask, self.session, before, self.page, told)
            if not said.values or self._take(ask, Answer(*ask.key, said.values)):
                return said if told_of_other_pipe(self, before, ask) else screen.Said(leave=True)

    def _wrongly_drawn(self) -> Literal["changed", "left"]:
        """Ask what is picked of the drawing, one after the other, until `back`."""
        about = what_is_wrong(self.job, self.session.sheets.region(self.kept.answers), self.page)
        last: Ask | None = None
        while about:
            answers = self.kept.answers
            open_ = self.session.not_drawn(answers) if JOB.about in about else self.session.may_tell(answers)
            asks = [ask for ask in open_ if ask.subject.about in about]
            whole = self.session.totals(answers) if "run" in about else []
            asks = [ask for ask in asks if ask not in whole]
            asks = [*whole, *sorted(asks, key=lambda a: about.index(a.subject.about))]
            ask = pick_one(asks, self.page, last)
            if ask is None:
                break
            if ask == "leave":
                return "left"
            if self.put_until_taken(ask).leave:
                return "left"
            last = ask
        return "left" if about is None else "changed"

    def _finish(self) -> None:
        write_sheet(self.session, self.job, self.kept, self.page)
        made = ended(self.session, self.kept.answers, self.job)
        if made is not None:
            units = self.session.units(self.kept.answers)
            leaf_through(self.page, lambda: show_plan(made, units, self.page))
        if self.session.gas(self.kept.answers):
            self.page.line()
            self.page.line(f"Told safe since, or said by a slip? advisor ask {self.job.folder}")
        self.may_push = made is not None and made.camera_now and bool(made.routes)
        self.page.line()
        self.page.line(f"The sheet: {self.job.site}. Plan it again: advisor plan {self.job.folder}")
        if not self.session.known.ask_all:
            self.page.line(f"Asked was what changes the plan. Know more? advisor ask {self.job.folder} --all")
