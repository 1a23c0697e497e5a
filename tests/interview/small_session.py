"""A question session over the project's own questions and typical buildings, with few worlds: it is quick."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from advisor.archetype import archetypes
from advisor.interview.answers import Answer
from advisor.interview.ask import Ask
from advisor.interview.dialogue import Session
from advisor.interview.question import Questions, load_questions
from advisor.interview.sheets import Answers, Known
from advisor.interview.total import answers_to
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.tables.place import rules_dir
from tests.cases.jobs import kit_text, rules, tables

WORLDS = 100
HOUSE = """
site: short house
region: north america
built: 1950
map: guess
lines:
  - line: house drain
    kind: drain
    size: assumed 4 in
    pieces:
      - opening: floor cleanout
        kind: floor cleanout
        there: 60 %
      - pipe: assumed 5 to 20 ft
      - bend: unknown
      - pipe: assumed 5 to 15 ft
      - joined by: vent
        fitting: unknown
      - pipe: assumed 3 to 9 ft
      - joined by: laundry line
        fitting: unknown
      - pipe: assumed 3 to 9 ft
      - fixture: toilet
        fitting: unknown
      - pipe: assumed 3 to 9 ft
      - opening: yard pit
        kind: inspection chamber
        there: 40 %
        depth: assumed 2 ft
      - change: {kind: sewer, size: assumed 4 in}
      - pipe: assumed 10 to 40 ft
      - end: public sewer
  - line: laundry line
    size: assumed 2 in
    pieces:
      - fixture: washing machine
        trap: in wall
      - pipe: assumed 3 to 6 ft
  - line: vent
    kind: stack
    size: assumed 3 in
    pieces:
      - opening: roof vent
        kind: roof vent
      - drop: assumed 8 ft
task:
  look at: house drain
"""


@cache
def questions() -> Questions:
    return load_questions(rules_dir(), tables(), rules())


@cache
def known() -> Known:
    buildings = archetypes(rules_dir(), tables())
    kit = kit_of(kit_of_text(kit_text(), "kit"), tables())
    return Known(questions(), buildings, kit, tables(), rules(), worlds=WORLDS)


def session(**other: object) -> Session:
    return Session(replace(known(), **other))  # type: ignore[arg-type]


def answered(ask: Ask, *values: str) -> Answer:
    return Answer(*ask.key, values)


def walk(of: Session, say, answers: Answers = (), most: int = 200) -> Answers:
    """Answer what is asked, as `say(ask)` gives the values, until nothing more is."""
    for _ in range(most):
        ask = of.next(answers)
        if ask is None:
            return answers
        answers = (*answers, *answers_to(ask, tuple(say(ask))))
    raise AssertionError("it never stops asking")
