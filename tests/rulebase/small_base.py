"""A small rule base for trying faults."""

from __future__ import annotations

from pathlib import Path

from advisor.evidence import Evidence, Grade
from advisor.quantity import Known
from advisor.rulebase import RuleBase, load_rules

_OWN = Evidence(Grade.JUDGEMENT, "own")
_LIMITS = {
    "likely_share": Known(0.6, _OWN),
    "unlikely_share": Known(0.4, _OWN),
    "run_up": Known(0.3, _OWN),
}
_SOURCES = {"practice", "own"}

SMALL_FACTS = """\
passage.jams: {meaning: the head jams, kind: share}
passage.stroke: {meaning: stroke that arrives, kind: quantity, dimension: length}
passage.force: {meaning: push that arrives, kind: quantity, dimension: force}
passage.bends: {meaning: number of bends, kind: count}
passage.rough: {meaning: the wall is rough, kind: flag}
passage.shape: {meaning: the shape, kind: name, options: [bend, wye]}
site.holding: {meaning: the line is holding water, kind: flag}
limits.run_up: {meaning: run-up of a quick push, kind: quantity, dimension: length}
limits.likely_share: {meaning: share called likely, kind: share}
limits.unlikely_share: {meaning: share called unlikely, kind: share}
"""
SMALL_MATRIX = """\
source: {practice: practice}
techniques: {quick push: One quick stroke.}
troubles: {head jams: Too long.}
cells: {quick push: {head jams: {rejected: It wedges.}}}
"""
SMALL_RULE = """\
rules:
  - id: no-run-up
    title: A quick push has no room
    about: passage
    when: passage.stroke < limits.run_up
    conclude: {technique: {quick push: rejected}}
    because: Only {passage.stroke} of {limits.run_up} arrives.
    mechanism: Bends eat the stroke.
    if wrong: The head jumps.
    source: {practice: practice}
    examples:
      - {name: no room, given: {passage.stroke: 0.1 m, limits.run_up: 0.3 m}, expect: fires}
      - {name: just enough, given: {passage.stroke: 0.3 m, limits.run_up: 0.3 m}, expect: silent}
"""


class Small:
    """A folder of rules with one rule, to be spoilt and loaded."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.texts = {
            "facts.yaml": SMALL_FACTS,
            "technique/matrix.yaml": SMALL_MATRIX,
            "technique/push.yaml": SMALL_RULE,
        }

    def replace(self, file: str, old: str, new: str) -> Small:
        assert old in self.texts[file], old
        self.texts[file] = self.texts[file].replace(old, new)
        return self

    def load(self) -> RuleBase:
        for name, text in self.texts.items():
            path = self.folder / name
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return load_rules(self.folder, _LIMITS, _SOURCES)
