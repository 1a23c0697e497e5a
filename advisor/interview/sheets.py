"""The sheet that a set of answers gives: from a typical building or from a sheet that was there before."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from advisor.archetype import Archetype, typical
from advisor.interview.answers import Answer, with_answers
from advisor.interview.branch import with_branch
from advisor.interview.question import Questions
from advisor.interview.subject import Path, Subject, subjects
from advisor.kit.model import Kit
from advisor.outcome.facts import Circumstances, Facts, site_facts
from advisor.outcome.learned import BOOK, Learned
from advisor.plan import DEFAULT_SEED, DEFAULT_WORLDS
from advisor.quantity import Units
from advisor.rulebase.load import RuleBase
from advisor.site.build import network_of
from advisor.site.network import Network
from advisor.site.sheet import SiteSheet, site_of_text
from advisor.strict_yaml import Sheet, plain, written
from advisor.tables.load import Tables

Answers = tuple[Answer, ...]
FILE = "site.yaml"
NOTHING_SAID = Circumstances(*(None,) * 6)
KEPT = 8  # sheets and studies that are kept for going back


@dataclass(frozen=True)
class Known:
    """Everything a session needs that never changes while it runs."""

    questions: Questions
    buildings: tuple[Archetype, ...]
    kit: Kit
    tables: Tables
    base: RuleBase
    sheet: str | None = None  # the text that it continues from; without it, it starts from little
    name: str = "job"
    units: Units | None = None
    worlds: int = DEFAULT_WORLDS
    seed: int = DEFAULT_SEED
    ask_all: bool = False
    learned: Learned = BOOK


@dataclass(frozen=True)
class Drain:
    """The sheet of some set of answers, read, with its network and what of it may be asked about.

    `drawn` are the facts that the drawing shows by itself, whatever is said of the job: a tank, a pump.
    """

    sheet: Sheet[SiteSheet]
    network: Network
    subjects: tuple[Subject, ...]
    paths: dict[str, Path]
    drawn: Facts

    @property
    def stretches(self) -> dict[str, Subject]:
        """The lengths that are asked of several pieces together, by their ids."""
        return {each.id: each for each in self.subjects if each.about == "run"}

    @property
    def region(self) -> str:
        """The region of the building."""
        return self.sheet.model.region


class Sheets:
    """Makes and keeps the sheets of the last few sets of answers."""

    def __init__(self, known: Known) -> None:
        self.known = known
        self._read_before: dict[str, Drain] = {}
        self._texts: dict[Answers, str | None] = {}
        self._start = {question.id for question in known.questions.block("start")}
        self._branches = {each.id: each.branch for each in known.questions.all if each.branch}

    def text(self, answers: Answers) -> str | None:
        """The site sheet that the answers give; nothing while there is no building to draw."""
        if answers not in self._texts:
            made = self._made(answers)
            self._texts = {**dict(list(self._texts.items())[-KEPT:]), answers: made}
            return made
        return self._texts[answers]

    def _made(self, answers: Answers) -> str | None:
        base = self._base(answers)
        if base is None:
            return None
        drain = self.read(base)
        tree: dict[str, Any] = plain(drain.sheet.tree)
        if self.known.sheet is None:
            tree["site"] = self.known.name
        # Those that chose the building and its branches are in it already.
        held = tuple(a for a in answers if a.question not in (*self._start, *self._branches))
        made = with_answers(tree, held, self.known.questions, drain.paths, drain.stretches, drain.region)
        return written(made)

    def drain(self, answers: Answers) -> Drain | None:
        """The same, read and laid out; raises BadInput where answers contradict each other."""
        text = self.text(answers)
        return self.read(text) if text is not None else None

    def region(self, answers: Answers) -> str:
        """Where the building is; North America where nobody knows."""
        if self.known.sheet is not None:
            return self.read(self.known.sheet).region
        told = next((a.values[0] for a in answers if a.question == "region" and a.known), None)
        return told or "north america"

    def buildings(self, answers: Answers) -> tuple[Archetype, ...]:
        """The typical buildings of that region and year, those that were usual longest first."""
        year, region = year_of(answers), self.region(answers)
        return tuple(b for b in self.known.buildings if b.region == region and b.built_in(year))

    def read(self, text: str) -> Drain:
        """A sheet's text, checked and laid out; raises BadInput."""
        if text not in self._read_before:
            sheet = site_of_text(text, FILE, self.known.tables)
            network = network_of(sheet, self.known.tables)
            about = subjects(network, sheet.model, self.known.tables)
            drawn = site_facts(network, NOTHING_SAID, self.known.tables)
            made = Drain(sheet, network, about, _paths(sheet.model, network, about), drawn)
            self._read_before = {**dict(list(self._read_before.items())[-KEPT:]), text: made}
            return made
        return self._read_before[text]

    def building(self, answers: Answers) -> str:
        """The typical building that the drain is drawn as; nothing where it was drawn on a sheet."""
        chosen = self._chosen(answers)
        return chosen.name if chosen else ""

    def _base(self, answers: Answers) -> str | None:
        """The sheet before any answer about what is drawn on it, with the branches that it lacked."""
        text = self.known.sheet
        if text is None:
            chosen = self._chosen(answers)
            text = typical(chosen, year_of(answers)) if chosen else None
        told = {answer.question: answer for answer in answers}
        for id_, branch in self._branches.items():
            if text is not None and id_ in told:
                drain = self.read(text)
                tree = plain(drain.sheet.tree)
                lacked = branch[drain.region]
                text = written(with_branch(tree, told[id_], lacked, drain.subjects, drain.network))
        return text

    def _chosen(self, answers: Answers) -> Archetype | None:
        told = next((a.values[0] for a in answers if a.question == "building"), None)
        if told is None or self.known.sheet is not None:
            return None
        # One that was chosen holds, whatever is said of the year later on; not so of the region.
        here = (b for b in self.known.buildings if b.region == self.region(answers))
        chosen = next((b for b in here if b.id == told), None)
        if chosen is None:
            # Nobody knows: of those that may be, the one that was built over the longest time.
            like = self.buildings(answers)
            chosen = max(like, key=lambda b: ((b.last_year or _NOW) - b.first_year, b.id))
        return chosen


_NOW = 2100  # still built today


def year_of(answers: Answers) -> int | None:
    """The year that was answered, if one was."""
    year = next((a.values[0] for a in answers if a.question == "built"), "")
    return int(year) if year.isdigit() else None


def _paths(site: SiteSheet, network: Network, about: tuple[Subject, ...]) -> dict[str, Path]:
    """Where the entries of everything that may be asked about stand on the sheet."""
    found = {subject.id: subject.path for subject in about}
    places: dict[int, Path] = {
        id(piece): ("lines", i, "pieces", j)
        for i, line in enumerate(site.lines)
        for j, piece in enumerate(line.pieces)
    }
    for piece in network.openings():
        path = places.get(id(piece.entry))
        if path is not None:
            found.setdefault(piece.id, path)
    return found
