"""`advisor explain` and `advisor rules` as a reader meets them: each question, as text and as JSON alike."""

from __future__ import annotations

import json
import re

import pytest

from advisor import demo
from advisor.cli import main
from advisor.rulebase.load import STRATA
from tests.cases.jobs import rules, tables

FEW = ["--worlds", "300"]
POOR = demo.MAIN.read_text().replace("condition: moderate scale", "condition: heavy scale")


def run(capsys, *given: object) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as ended:
        main([str(word) for word in given])
    said = capsys.readouterr()
    return int(ended.value.code or 0), said.out, said.err


def answer(capsys, *given: object) -> tuple[str, object]:
    """The text and the JSON of one question."""
    code, text, _ = run(capsys, "explain", *given, *FEW)
    assert code == 0
    return " ".join(text.split()), json.loads(run(capsys, "explain", *given, *FEW, "--json")[1])


def words(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(
    "given",
    [
        ("how",),
        ("how", "laundry tub"),
        ("how", "stack foot plug", "1"),
        ("how", "stack foot plug", "test tee"),
        ("how", "stack foot plug", "turn the rod"),
        ("how", "stack foot plug", "test tee", "turn the rod"),
        ("how", "stack foot plug", "smaller head"),
        ("why-not",),
        ("why-not", "basement toilet"),
        ("why-not", "stack foot plug", "quick push"),
        ("why-not", "stack foot plug", "1", "string"),
        ("why-not", "stack foot plug", "smaller head"),
        ("why-not", "string"),
    ],
)
def test_a_story_is_told_first_and_its_tree_on_demand(given, capsys):
    text, told = answer(capsys, *given)
    assert isinstance(told, dict)
    assert words(told["about"]) in text
    assert 1 <= len(told["story"]) <= 3
    for line in told["story"]:
        assert words(line) in text
    assert "--full" in text
    full = words(run(capsys, "explain", *given, *FEW, "--full")[1])
    assert len(full) >= len(text) - len("The whole tree of reasons: add --full.")
    assert words(told["tree"]["text"]) in full


def test_what_if_says_who_leads_before_and_after(capsys):
    text, told = answer(capsys, "what-if", "small head/diameter=70", "mm")
    assert isinstance(told, dict)
    assert told["leader_after"] in text
    assert "That is of the built-in demo house" in text, "no sheet of his own was named"
    for change in told["changes"]:
        assert f"{change['chance_before']:.0%} to {change['chance_after']:.0%}" in text


@pytest.mark.parametrize("question", ["matters", "changes"])
def test_lists_are_told_whole(question, tmp_path, capsys):
    sheet = tmp_path / "poor.yaml"
    sheet.write_text(POOR)
    text, told = answer(capsys, question, "--site", sheet, "--kit", demo.KIT)
    assert "demo house" not in text
    assert isinstance(told, list)
    assert told, "the demo house has unknowns, and a poor chance that can be raised"
    for each in told:
        assert words(each.get("unknown") or each["what"]) in text


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (("how", "stack foot plugg"), "'stack foot plug'"),
        (("why-not", "stack", "foot", "plugg"), "'stack foot plug'"),  # taken together without quotes
        (("how", "stack foot plug", "no such spot"), "no hard spot there is called"),
        (("how", "stack foot plug", "99"), "no hard spot there is called"),
        (("what-if", "house drain/size"), "expected LINE/ENTRY=VALUE, such as `house drain/size=4 in`"),
        (("what-if", "=3 in"), "expected LINE/ENTRY=VALUE, such as `house drain/size=4 in`"),
        (("what-if", "stack foot plug"), "is a whole opening; say which entry of it"),
        (("what-if", "roots"), "such as `house drain/size=4 in`"),
        (("what-if", "small head/diameter"), "such as `small head/diameter="),
        (("what-if", "house drain/size=three"), "three"),
    ],
)
def test_nonsense_is_told_in_one_line(given, says, capsys):
    code, out, err = run(capsys, "explain", *given, *FEW)
    assert code == 2
    assert not out
    assert len(err.strip().splitlines()) == 1
    assert says in err


def test_rules_are_listed_by_stratum(capsys):
    text = run(capsys, "rules", "list")[1]
    for stratum in STRATA:
        assert stratum.upper() in text
    for rule in rules().all_rules:
        assert f"{rule.id}, about the {rule.about}" in text


def test_a_rule_is_shown_with_its_sources_and_examples(capsys):
    rule = rules().all_rules[0]
    shown = run(capsys, "rules", "show", rule.id)[1]
    text = words(shown)
    assert words(rule.mechanism) in text
    assert shown.count("\n  source: ") == len(rule.sources)
    for example in rule.examples:
        assert f"example, {example.name}" in text
    code, _, err = run(capsys, "rules", "show", rule.id + "x")
    assert code == 2
    assert f"'{rule.id}'" in err


def test_fired_and_dead_share_out_the_rules(tmp_path, capsys):
    (tmp_path / "one.yaml").write_text(demo.MAIN.read_text())
    fired = run(capsys, "rules", "fired", tmp_path)[1]
    dead = run(capsys, "rules", "dead", tmp_path)[1]
    for rule in rules().all_rules:
        names = [rule.id in page.split() for page in (fired, dead)]
        assert sum(names) == 1, rule.id


def test_weak_rules_are_those_without_a_strong_source(capsys):
    text = run(capsys, "rules", "weak")[1]
    assert tables().sources
    for rule in rules().all_rules:
        told = f"{rule.id}:" in text
        assert told == all(grade.weak for grade, _ in rule.sources), rule.id


@pytest.fixture
def held(tmp_path):
    """The built-in house with its line told to be holding."""
    sheet = tmp_path / "held.yaml"
    text = demo.MAIN.read_text()
    assert text.count("holding: no\n") == 1
    sheet.write_text(text.replace("holding: no\n", "holding: yes\n"))
    return sheet


@pytest.mark.parametrize("given", [("how",), ("why-not", "basement toilet"), ("matters",)])
def test_what_keeps_every_camera_out_is_told_before_any_reason(held, capsys, given):
    """89 % in 37 minutes, told of a line that stands full, sends somebody to open a plug."""
    code, text, _ = run(capsys, "explain", *given, "--site", held, *FEW)
    assert code == 0
    assert words(text).startswith("No camera yet: relieve and clear the line first.")
    assert "No camera yet" not in run(capsys, "explain", *given, *FEW)[1]


@pytest.mark.parametrize("path", ["holding", "complaint/holding", "task/complaint/holding"])
def test_what_was_told_is_changed_by_the_name_that_people_read_and_a_lifted_verdict_is_told(
    held, capsys, path
):
    code, text, _ = run(capsys, "explain", "what-if", f"{path}=no", "--site", held, *FEW)
    assert code == 0
    told = words(text)
    assert "instead of yes" in told.lower()
    assert "Nothing that was told keeps a camera out then. Before: No camera yet: relieve" in told
    told = words(run(capsys, "explain", "what-if", "gas smell=yes", *FEW)[1])
    assert "Leave the building and call the gas emergency number: no work here. Before: nothing did." in told


def test_a_name_of_several_words_needs_no_quotes(capsys):
    for given in ("why-not basement toilet", "how stack foot plug 1", "why-not stack foot plug quick push"):
        question, *about = given.split()
        code, text, wrong = run(capsys, "explain", question, *about, *FEW)
        assert (code, wrong) == (0, "")
        assert text


def test_how_takes_a_technique_as_why_not_does(capsys):
    """As --help and docs/how-it-decides.md have it: its chance a try stands in both."""
    how, why = (answer(capsys, each, "stack foot plug", "turn the rod") for each in ("how", "why-not"))
    assert how[1]["about"] == why[1]["about"]
    assert how[1]["about"].startswith("turn the rod at ")
    (a_try,) = re.findall(r"turn the rod: (\d+)% a try, \d+ minutes each", how[0])
    assert f"{a_try}% a try" in why[0]
    assert how[1]["tree"]["value"] == pytest.approx(int(a_try) / 100, abs=0.006)


def test_a_name_amiss_is_told_before_anything_is_planned(capsys, monkeypatch):
    monkeypatch.setattr("advisor.terminal.explain_command.plan", None)
    code, _, err = run(capsys, "explain", "why-not", "stack", "foot", "plugg", *FEW)
    assert code == 2
    assert "no opening is called 'stack foot plugg'" in err


def test_why_not_other_gear_from_the_same_opening(capsys):
    """What goes in there instead is told against what is planned there, and by its own chance."""
    text, told = answer(capsys, "why-not", "stack", "foot", "plug", "large", "head", "on", "large", "reel")
    assert told["about"] in text
    assert told["about"].startswith("stack foot plug with large head on large reel costs ")
    assert "what stops it" in text
    how, _ = answer(capsys, "how", "stack foot plug", "large head on large reel")
    assert "stack foot plug with large head on large reel sees the target in" in how
    code, _, wrong = run(capsys, "explain", "why-not", "stack foot plug", "no such reel", *FEW)
    assert code == 2
    assert "no technique and no gear is called 'no such reel'" in wrong
    planned, _ = answer(capsys, "why-not", "stack foot plug", "small head on small reel + ring guide")
    assert "stack foot plug does lead" in planned
