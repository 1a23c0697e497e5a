"""`rules/questions/*.yaml`: what may be asked, what each answer puts on the sheet, and what it settles."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, model_validator

from advisor.errors import BadInput, Fault
from advisor.interview.lines import Branch
from advisor.rulebase.condition import Condition
from advisor.rulebase.load import RuleBase
from advisor.rulebase.parse import ConditionParser
from advisor.strict_yaml import Node, Sheet, read_on, read_text, sheet_of_tree
from advisor.strict_yaml.model import nearest
from advisor.tables.entry import Cost, GradeName, Row, Share, TableFile
from advisor.tables.load import Tables
from advisor.tables.sources import unknown_sources

DONT_KNOW = "don't know"  # an answer to every question
# Whether it smells of gas, and what is said of it when such a job is gone on with.
GAS, GAS_CLEARED = "gas-smell", "gas-cleared"
MOST_WORDS, MOST_CHOICES = 25, 7
BLOCKS = ("start", "safety", "complaint", "history", "find out", "rest")
# What may be asked about: once for the whole job, or once for each such thing on the sheet.
ABOUT = (
    "site",
    "doubted opening",
    "plugged opening",
    "assumed opening",
    "unmeasured opening",
    "pit",
    "wall",
    "branch",
    "joining",
    "bend",
    "run",
)
# Drawn quantities that an answer can pin down; each is a key that the worlds draw.
DRAWN = ("there", "opens", "kind", "material", "condition", "length", "trees")


def _short(text: str) -> str:
    if len(text.split()) > MOST_WORDS:
        raise ValueError(f"{len(text.split())} words; expected at most {MOST_WORDS}")
    return text


class Choice(Row):
    """One answer: its words, what it puts where on the sheet (paths with `/`), what to `say` comes of it.

    `sure` is asked once more, where a slip could hurt. `ends_in` is the stopper that the drain ends in by it,
    where no tank is drawn. `places`: of openings only of those there. `filed` where another sets the same.
    """

    words: Annotated[str, AfterValidator(_short)]
    say: str = ""
    sure: Annotated[str, AfterValidator(_short)] = ""
    set: dict[str, str] = Field(default={})
    add: dict[str, str] = Field(default={})
    ends_in: str | None = Field(default=None, alias="ends in")
    region: Literal["north america", "britain"] | None = None
    places: tuple[str, ...] = ()
    filed: str = ""

    @property
    def value(self) -> str:
        """What an answer is filed as: the sheet's word, or the words themselves."""
        return self.filed or next(iter(self.set.values()), self.words)


class Careful(Row):
    """What don't-know means where something can hurt."""

    say: Annotated[str, AfterValidator(_short)]
    set: dict[str, str] = Field(default={})


class Question(Row):
    """One question. `minutes` to find out and the chance that a person `knows` weigh its worth.

    `in_short` is how it is called in a list of what may be told; of the whole job only a `branch` is.
    `upright` is how it is put about pipe that stands, where nobody can pace, `upright_low` where it is lower
    than two storeys; `of_kind` how about an opening of that kind. It is put only where `only_if` surely
    holds: a question sends people somewhere. It is not put after one of the answers `not_after`, given about
    the same thing, about what its place is told by or about the job: nothing is left to ask.
    Where the sheet has what stands in `always_where` it is put, whatever it is worth.
    Where it wants `hands_on` an opening, all that can hurt there stands with it; else what is met on the way.
    Of a place that is chosen `told` says what to beware of.
    Of what is `asked` the sheet says that it was, once it is answered.
    With `branch`, by region, an answer is the place where that joins, and what is `like` it is drawn already.
    """

    id: str
    block: Literal["start", "safety", "complaint", "history", "find out", "rest"]
    about: str
    in_short: str = Field(default="", alias="in short")
    text: Annotated[str, AfterValidator(_short)]
    upright: Annotated[str, AfterValidator(_short)] = ""
    upright_low: Annotated[str, AfterValidator(_short)] = Field(default="", alias="upright low")
    of_kind: dict[str, Annotated[str, AfterValidator(_short)]] = Field(default={}, alias="of kind")
    only_if: Any = Field(default=None, alias="only if")
    settles: str
    why: str
    minutes: Cost
    knows: Share
    choices: tuple[Choice, ...] = ()
    choose_from: Literal["fixtures", "buildings", "openings", "likely", "joinings", "lines"] | None = Field(
        default=None, alias="choose from"
    )
    adds_to: tuple[str, ...] = Field(default=(), alias="adds to")
    many: Literal["yes"] | None = None
    asked: Literal["earlier jobs", "machines"] | None = None
    type_in: Literal["length", "year", "size", "day"] | None = Field(default=None, alias="type in")
    into: str | None = None
    like: tuple[str, ...] = ()
    branch: dict[str, Branch] = Field(default={})
    hands_on: Literal["yes"] | None = Field(default=None, alias="hands on")
    not_after: dict[str, str] = Field(default={}, alias="not after")
    always_where: dict[str, str] = Field(default={}, alias="always where")
    told: Annotated[str, AfterValidator(_short)] = ""
    careful: Careful | None = None

    @model_validator(mode="after")
    def _whole(self) -> Question:
        if self.about not in ABOUT:
            raise ValueError(f"about: got {self.about!r}{nearest(self.about, list(ABOUT))}")
        if (self.in_short == "") != (self.about == "site" and not self.branch):
            raise ValueError("in short: expected where it is about one thing of the drain, and only there")
        if (self.choose_from == "joinings") != bool(self.branch):
            raise ValueError("branch: expected where a joining is chosen, by region, and only there")
        if self.block == "safety" and self.careful is None:
            raise ValueError("careful: a safety question has a careful branch")
        if not self.choices and self.choose_from is None and self.type_in is None:
            raise ValueError("choices: there is nothing to answer; expected choices, a list or a line")
        put = self.type_in is not None or self.choose_from in ("likely", "lines")
        # Without a place an opening is where water stands.
        if self.choose_from != "openings" and put != (self.into is not None):
            raise ValueError("into: what is typed or likely needs a place on the sheet, nothing else does")
        for region in ("north america", "britain"):
            if len([c for c in self.choices if c.region in (None, region)]) > MOST_CHOICES:
                raise ValueError(f"choices: more than {MOST_CHOICES} in {region}")
        return self

    @property
    def places(self) -> tuple[str, ...]:
        """Where on the sheet its answers go."""
        typed = (self.into,) if self.into and self.about == "site" else ()
        return (*(key for c in self.choices for key in (*c.set, *c.add)), *self.adds_to, *typed)

    def asked_of(self, stands: Literal["no", "low", "high"], kind: str | None) -> str:
        """Its text, as it is put about pipe that lies or stands, or about a kind of opening."""
        if kind in self.of_kind:
            return self.of_kind[kind]
        return {"no": "", "low": self.upright_low or self.upright, "high": self.upright}[stands] or self.text

    def offered(self, region: str, place: str | None = None) -> tuple[Choice, ...]:
        """The choices in a region, about an opening in such a place, in their order."""
        own = (c for c in self.choices if c.region in (None, region))
        return tuple(c for c in own if place is None or not c.places or place in c.places)


class QuestionFile(TableFile):
    """One file of questions; the grade and source are those of all its numbers."""

    grade: GradeName
    source: str
    questions: tuple[Question, ...]


@dataclass(frozen=True)
class Questions:
    """Every question, in the fixed order: block by block, then as the files have them.

    `only_if` are the conditions without which a question is not put, by its id.
    """

    all: tuple[Question, ...]
    only_if: Mapping[str, Condition] = field(default_factory=dict)

    @property
    def by_id(self) -> Mapping[str, Question]:
        """Questions by id."""
        return {each.id: each for each in self.all}

    def block(self, name: str) -> tuple[Question, ...]:
        """The questions of one block."""
        return tuple(each for each in self.all if each.block == name)


def load_questions(rules: Path, tables: Tables, base: RuleBase) -> Questions:
    """Every question under the folder `rules`; raises BadInput with every fault of every file."""
    found: list[Question] = []
    faults: list[Fault] = []
    conditions: dict[str, Condition] = {}
    for path in sorted((rules / "questions").glob("*.yaml")):
        before = {each.id for each in found}
        read = partial(_questions_of_tree, str(path), tables, base, before)
        try:
            questions, only_if = read_on(read_text(path), str(path), read)
        except BadInput as wrong:
            faults.extend(wrong.faults)
            continue
        found += questions
        conditions |= only_if
    if not found and not faults:
        faults.append(Fault(str(rules / "questions"), 0, "there is no question in it; expected *.yaml"))
    known = [each.id for each in found]
    answers = {each.id: [DONT_KNOW, *(choice.value for choice in each.choices)] for each in found}
    for each in () if faults else found:  # what stands in a file at fault is not known here
        for other, word in each.not_after.items():
            fault = ""
            if other not in known:
                fault = f"not after {other!r}{nearest(other, known)}"
            elif word not in answers[other]:
                fault = f"not after: {word!r} is no answer to {other}{nearest(word, answers[other])}"
            if fault:
                faults.append(Fault(str(rules / "questions"), 0, f"{each.id}: {fault}"))
    if faults:
        raise BadInput(faults)
    return Questions(tuple(sorted(found, key=lambda q: BLOCKS.index(q.block))), conditions)


def _questions_of_tree(
    file: str, tables: Tables, base: RuleBase, before: Set[str], tree: Node
) -> tuple[tuple[Question, ...], dict[str, Condition]]:
    """The questions of one file, and the conditions of those that are not always put; raises BadInput."""
    sheet = sheet_of_tree(tree, QuestionFile, file)
    faults = unknown_sources(sheet, list(tables.sources))
    conditions: dict[str, Condition] = {}
    questions = sheet.model.questions
    for number, question in enumerate(questions):
        own = {each.id for each in questions[:number]}
        faults.extend(_faults(sheet, number, question, base, before | own))
        faults.extend(_no_kinds(sheet, number, question, tables))
        if question.only_if is not None:
            conditions[question.id] = _only_if(sheet, number, question, base, faults)
    if faults:
        raise BadInput(faults)
    return tuple(questions), conditions


def _only_if(
    sheet: Sheet[QuestionFile], number: int, question: Question, base: RuleBase, faults: list[Fault]
) -> Condition:
    """The condition of a question, in the words of the rules; what is wrong is added to the faults."""

    def report(message: str, place: tuple[str | int, ...]) -> None:
        faults.append(sheet.fault(f"{question.id}: {message}", "questions", number, *place))

    return ConditionParser(base.facts, "opening", report).parse(question.only_if, ("only if",))


def _no_kinds(sheet: Sheet[QuestionFile], number: int, question: Question, tables: Tables) -> list[Fault]:
    return [
        sheet.fault(
            f"of kind: no opening is a {kind!r}{nearest(kind, list(tables.openings))}",
            "questions",
            number,
            "of kind",
        )
        for kind in question.of_kind
        if kind not in tables.openings
    ]


def _faults(
    sheet: Sheet[QuestionFile], number: int, question: Question, base: RuleBase, before: Set[str]
) -> list[Fault]:
    here = ("questions", number)
    faults = []
    if question.id in before:
        faults.append(sheet.fault(f"{question.id!r} stands twice", *here, "id"))
    known = [
        *base.facts,
        *(f"drawn {name}" for name in DRAWN),
        "the suspect section",
        "the typical building",
        "the drawing",
        "the size",
    ]
    if question.settles not in known:
        hint = nearest(question.settles, known)
        faults.append(sheet.fault(f"settles: nothing is called {question.settles!r}{hint}", *here, "settles"))
    return faults
