"""Every fault of a rule file is told with its file, line and the nearest valid name."""

from __future__ import annotations

import pytest
from small_base import Small

from advisor.errors import BadInput

RULE = "technique/push.yaml"
WHEN = "when: passage.stroke < limits.run_up"


def faults(small: Small) -> str:
    with pytest.raises(BadInput) as caught:
        small.load()
    return str(caught.value).replace(str(small.folder) + "/", "")


def test_the_small_base_is_sound(small: Small) -> None:
    assert [rule.id for rule in small.load().all_rules] == ["no-run-up"]


# (file, old, new, line, what the message must hold)
CASES = [
    (RULE, "    title:", "    titel:", 3, "unknown entry 'titel'"),
    (RULE, "passage.stroke <", "passage.stroek <", 5, "did you mean 'passage.stroke'?"),
    (RULE, "{passage.stroke}", "{passage.stroek}", 7, "did you mean 'passage.stroke'?"),
    (RULE, "Bends eat", "Bends {passage.bends} eat", 8, "takes no {fact}"),
    (RULE, WHEN, "when: passage.stroke < passage.forse", 5, "did you mean 'passage.force'?"),
    ("technique/matrix.yaml", "{quick push: {head", "{quik push: {head", 4, "unknown technique 'quik push'"),
    (RULE, WHEN, "when: passage.stroke < passage.force", 5, "passage.force a force: not comparable"),
    (RULE, WHEN, "when: passage.stroke < 3 lb", 5, "expected a length"),
    (RULE, WHEN, "when: passage.stroke is 3 in", 5, "is a number; expected <"),
    (RULE, WHEN, "when: passage.rough > 3", 5, "goes with numbers only"),
    (RULE, WHEN, "when: passage.rough is yes", 5, "expected true or false"),
    (RULE, WHEN, "when: passage.shape is wey", 5, "did you mean 'wye'?"),
    (RULE, WHEN, "when: passage.shape in [bend, wey]", 5, "did you mean 'wye'?"),
    (RULE, WHEN, "when: passage.shape in bend", 5, "expected a list"),
    (RULE, WHEN, "when: passage.jams is likly", 5, "did you mean 'likely'?"),
    (RULE, WHEN, "when: passage.jams likely", 5, "expected `fact is value`"),
    (RULE, WHEN, "when: {al: [passage.jams is likely]}", 5, "did you mean 'all'?"),
    (RULE, WHEN, "when: {all: []}", 5, "expected a list of conditions"),
    (RULE, WHEN, "when: {all: [passage.jams is likely], any: [passage.rough is true]}", 5, "expected one of"),
    (RULE, WHEN, "when: [passage.jams is likely]", 5, "expected all:, any: or not:"),
    (RULE, "about: passage", "about: site", 5, "a rule about one site may only use site., limits."),
    (RULE, "quick push: rej", "quik push: rej", 6, "did you mean 'quick push'?"),
    (RULE, "rejected}}", "better}}", 6, "'better'"),
    (RULE, "technique: {quick push: rejected}", "verdict: leave", 6, "a technique rule concludes"),
    (RULE, "{technique: {quick push: rejected}}", "{}", 6, "it concludes nothing"),
    (RULE, "practice: practice", "practice: practise", 10, "did you mean 'practice'?"),
    (RULE, "practice: practice", "told: practice", 10, "read, computed, practice"),
    (RULE, "practice: practice", "guess: practice", 10, "guess"),
    (RULE, "passage.stroke: 0.1 m,", "passage.strok: 0.1 m,", 12, "did you mean 'passage.stroke'?"),
    (RULE, "passage.stroke: 0.1 m,", "passage.stroke: 0.1,", 12, "a number has no unit"),
    (RULE, "expect: fires", "expect: silent", 11, "expected to be `fires` is missing"),
    (RULE, "expect: silent", "expect: unknown", 11, "expected to be `silent` is missing"),
    (RULE, "passage.stroke: 0.3 m", "passage.stroke: 0.4 m", 11, "just equal to the other side"),
    (RULE, "rules:", "rulez:", 1, "unknown entry 'rulez'"),
    ("facts.yaml", "limits.run_up", "limits.run_op", 8, "did you mean 'run_up'?"),
    ("facts.yaml", "kind: count", "kind: coutn", 4, "did you mean 'count'?"),
    ("facts.yaml", "kind: count", "kind: count, dimension: length", 4, "a dimension belongs to a quantity"),
    ("facts.yaml", "kind: flag}\np", "kind: flag, options: [a]}\np", 5, "options belong to a name"),
    ("facts.yaml", "passage.rough", "pasage.rough", 5, "expected a subject"),
    ("technique/matrix.yaml", "{rejected: It wedges.}", "{}", 4, "expected either allowed or rejected"),
    ("technique/matrix.yaml", "{rejected: It wedges.}", "{allowed: x, harms: true}", 4, "rejected may harm"),
    ("technique/matrix.yaml", "rejected: It wedges.", "rejected: x, allowed: y", 4, "expected either"),
    ("technique/matrix.yaml", "{head jams: {rej", "{head jam: {rej", 4, "did you mean 'head jams'?"),
    ("technique/matrix.yaml", "{head jams: {rej", "{head jam: {rej", 4, "has no cell for 'head jams'"),
    ("technique/matrix.yaml", "practice: practice", "practice: practise", 1, "did you mean 'practice'?"),
]  # fmt: skip


@pytest.mark.parametrize(("file", "old", "new", "line", "words"), CASES)
def test_fault(small: Small, file: str, old: str, new: str, line: int, words: str) -> None:
    told = faults(small.replace(file, old, new)).splitlines()
    assert any(one.startswith(f"{file}:{line}: ") and words in one for one in told), told


def test_all_faults_of_all_files_at_once(small: Small) -> None:
    rule = small.texts[RULE].partition("rules:\n")[2]
    small.texts["technique/a.yaml"] = "rules:\n" + rule.replace("jumps.", "jumps.\n    mood: good")
    small.texts["technique/b.yaml"] = "rules:\n" + rule.replace("0.1 m", "0.1 lb").replace("no-run", "other")
    small.replace(RULE, "practice: practice", "practice: practise")
    told = faults(small)
    assert (
        told.index("a.yaml:10: unknown entry 'mood'")
        < told.index("b.yaml:12: other-up")
        < told.index("push.yaml:10: no-run-up: unknown source 'practise'")
    )


def test_a_repeated_id_names_the_first_place(small: Small) -> None:
    small.texts["technique/more.yaml"] = small.texts[RULE]
    told = faults(small)
    assert "push.yaml:2: 'no-run-up' stands twice, first at" in told
    assert told.endswith("more.yaml:2")


def test_a_folder_without_rules_is_a_fault_not_an_empty_base(small: Small) -> None:
    del small.texts[RULE]
    assert "no rules in difficulty, technique, caution, entry" in faults(small)


def test_what_a_share_is_called_must_be_said(small: Small) -> None:
    small.replace("facts.yaml", "limits.likely_share: {meaning: share called likely, kind: share}\n", "")
    assert "facts.yaml: limits.likely_share is missing; it says what a share is called" in faults(small)
