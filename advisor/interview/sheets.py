"""The sheet that a set of answers gives: from a typical building or from a sheet that was there before."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from advisor.archetype import Archetype, typical
from advisor.interview.answers import Answer, with_answers
from advisor.interview.branch import with_branch
from advisor.interview.question import Questions
from advisor.interview.subject import Path, Subject, subjects
from advisor.kit.model import Kit
from advisor.outcome.facts import Circumstances, Facts, site_facts
from advisor.outcome.learned import BOOK, Learned
from advisor.plan import DEFAULT_SEED, DEFAULT_WORLDS, Case
from advisor.quantity import Units
from advisor.result.study import Study
from advisor.result.way_model import FoundNote
from advisor.rulebase.load import RuleBase
from advisor.site.build import network_of
from advisor.site.looked_for import LookedFor, with_looks
from advisor.site.network import Network
from advisor.site.sheet import SiteSheet, site_of_text, site_of_tree
from advisor.strict_yaml import Sheet, grown, plain, written
from advisor.tables.load import Tables

Answers = tuple[Answer, ...]
Tree = dict[str, Any]  # a sheet as dictionaries, lists and text
FILE = "site.yaml"
K = TypeVar("K")
V = TypeVar("V")
NOTHING_SAID = Circumstances(*(None,) * 6)
KEPT = 64  # sheets: those of the answers before are looked at again and again


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
    shut: tuple[str, ...] = ()  # openings that did not open when one of them was to be pushed from
    opened: tuple[str, ...] = ()  # and those from which one began
    looked_for: tuple[LookedFor, ...] = ()  # and what pushes told of those that may not be there
    shown: Callable[[Case], Case] = lambda case: case  # knows of all that pushes have shown
    met: Callable[[Study], tuple[FoundNote, ...]] = lambda _: ()  # what they met on the ways of a plan
    seen: Callable[[Study], tuple[str, ...]] = lambda _: ()  # that they saw all of what it goes for


@dataclass(frozen=True)
class Drain:
    """The sheet of some set of answers, read, with its network and what of it may be asked about.

    `drawn` are the facts that the drawing shows by itself, whatever is said of the job: a tank, a pump. Two
    drains of one `key` are the same.
    """

    sheet: Sheet[SiteSheet]
    network: Network
    subjects: tuple[Subject, ...]
    paths: dict[str, Path]
    drawn: Facts
    key: str

    @property
    def stretches(self) -> dict[str, Subject]:
        """The lengths that are asked of several pieces together, by their ids."""
        return {each.id: each for each in self.subjects if each.about == "run"}

    @property
    def region(self) -> str:
        """The region of the building."""
        return self.sheet.model.region


class Sheets:
    """Makes and keeps the sheets of the last few sets of answers.

    They stay plain trees from answer to answer: text is only what is read first and what is shown at the end.
    """

    def __init__(self, known: Known) -> None:
        self.known = known
        self._laid_before: dict[str, Drain] = {}
        self._trees: dict[Answers, Tree | None] = {}
        self._drains: dict[Answers, Drain | None] = {}
        self._begun: dict[str, Drain] = {}
        self._start = {question.id for question in known.questions.block("start")}
        self._branches = {each.id: each.branch for each in known.questions.all if each.branch}

    def tree(self, answers: Answers) -> Tree | None:
        """The site sheet that the answers give; nothing while there is no building to draw."""
        if answers not in self._trees:
            _keep(self._trees, answers, self._made(answers))
        return self._trees[answers]

    def text(self, answers: Answers) -> str | None:
        """The same as YAML."""
        tree = self.tree(answers)
        return written(tree) if tree is not None else None

    def _made(self, answers: Answers) -> Tree | None:
        drain = self._base(answers)
        if drain is None:
            return None
        tree: Tree = plain(drain.sheet.tree)
        if self.known.sheet is None:
            tree["site"] = self.known.name
        # Those that chose the building and its branches are in it already, but not that nobody knows of one.
        told = {a.question for a in answers if a.question in self._branches and a.known}
        for careful in (self.known.questions.by_id[each].careful for each in told):
            for key in careful.set if careful else ():  # it is known now
                tree.pop(key, None)
        held = tuple(a for a in answers if a.question not in {*self._start, *told})
        return with_answers(tree, held, self.known.questions, drain.paths, drain.stretches, drain.region)

    def drain(self, answers: Answers) -> Drain | None:
        """The same, read and laid out; raises BadInput where answers contradict each other."""
        if answers not in self._drains:
            tree = self.tree(answers)
            _keep(self._drains, answers, self._laid(tree) if tree is not None else None)
        return self._drains[answers]

    def region(self, answers: Answers) -> str:
        """Where the building is; North America where nobody knows."""
        if self.known.sheet is not None:
            return self._given(self.known.sheet).region
        told = next((a.values[0] for a in answers if a.question == "region" and a.known), None)
        return told or "north america"

    def buildings(self, answers: Answers) -> dict[int, Archetype]:
        """The typical buildings of that region and year, the most usual first, by their numbers: those of the
        region, so that another year gives no house the number of another."""
        year, region = year_of(answers), self.region(answers)
        here = sorted((b for b in self.known.buildings if b.region == region), key=lambda each: -each.share)
        return {number: b for number, b in enumerate(here, start=1) if b.built_in(year)}

    def one_floor(self, answers: Answers) -> bool:
        """Whether the building was told to be one that has nothing upstairs."""
        told = {a.values[0] for a in answers if a.question == "building" and a.known}
        return any(each.one_floor for each in self.known.buildings if each.id in told)

    def _laid(self, tree: Tree) -> Drain:
        """A sheet's tree, checked and laid out; raises BadInput."""
        key = json.dumps(tree)
        if key not in self._laid_before:
            sheet = site_of_tree(grown(tree), FILE, self.known.tables)
            _keep(self._laid_before, key, self._drain(sheet, key))
        return self._laid_before[key]

    def _drain(self, sheet: Sheet[SiteSheet], key: str) -> Drain:
        drawn_as = network_of(sheet, self.known.tables).tried(self.known.opened, self.known.shut)
        network = with_looks(drawn_as, self.known.looked_for)
        about = subjects(network, sheet.model, self.known.tables)
        drawn = site_facts(network, NOTHING_SAID, self.known.tables)
        return Drain(sheet, network, about, _paths(sheet.model, network, about), drawn, key)

    def building(self, answers: Answers) -> str:
        """The typical building that the drain is drawn as; nothing where it was drawn on a sheet."""
        chosen = self._chosen(answers)
        return chosen.name if chosen else ""

    def _base(self, answers: Answers) -> Drain | None:
        """The drain before any answer about what is drawn on it, with the branches that it lacked."""
        drain = self._drawing(answers)
        told = {answer.question: answer for answer in answers}
        for id_, branch in self._branches.items():
            if drain is not None and id_ in told and drain.region in branch:
                lacked = branch[drain.region]
                tree = plain(drain.sheet.tree)
                tree = with_branch(tree, told[id_], lacked, drain.subjects, drain.network, self.known.tables)
                drain = self._laid(tree)
        return drain

    def _drawing(self, answers: Answers) -> Drain | None:
        """The sheet that was there, else the typical building that was chosen."""
        if self.known.sheet is not None:
            return self._given(self.known.sheet)
        chosen, year = self._chosen(answers), year_of(answers)
        if chosen is None:
            return None
        key = f"{chosen.id} {year}"
        if key not in self._begun:
            self._begun[key] = self._drain(site_of_text(typical(chosen, year), FILE, self.known.tables), key)
        return self._begun[key]

    def _given(self, text: str) -> Drain:
        if text not in self._begun:
            self._begun[text] = self._drain(site_of_text(text, FILE, self.known.tables), text)
        return self._begun[text]

    def _chosen(self, answers: Answers) -> Archetype | None:
        told = next((a.values[0] for a in answers if a.question == "building"), None)
        if told is None or self.known.sheet is not None:
            return None
        # One that was chosen holds, whatever is said of the year later on; not so of the region.
        here = (b for b in self.known.buildings if b.region == self.region(answers))
        chosen = next((b for b in here if b.id == told), None)
        if chosen is None:
            chosen = next(
                iter(self.buildings(answers).values())
            )  # nobody knows: the most usual of those that may be
        return chosen


def _keep(kept: dict[K, V], key: K, made: V) -> None:
    """One more, and the oldest gone where there are too many."""
    if len(kept) >= KEPT:
        del kept[next(iter(kept))]
    kept[key] = made


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
