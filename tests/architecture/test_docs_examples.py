"""What the docs give as an example is tried: command lines, a rule, a file of answers; options are told."""

from __future__ import annotations

import argparse
import re
import shlex
import shutil
from pathlib import Path

import pytest

from advisor.cli import COMMANDS, _parser, main
from advisor.terminal.check_screen import check
from tests.architecture.made_page import DOCS, ROOT

BOOKS = {
    path.name: path.read_text(encoding="utf-8") for path in (ROOT / "README.md", *sorted(DOCS.glob("*.md")))
}
BLOCK = re.compile(r"^(?:    )?(?:\.venv/bin/)?advisor (\S.*)$", re.MULTILINE)  # indented, or in a fence
INLINE = re.compile(r"`(?:\.venv/bin/)?advisor ([^`\n]+)`")


def command_lines() -> list[tuple[str, str]]:
    """Every command line with the page that it stands on; what follows two spaces or a # is a remark.

    A name alone in the middle of a sentence is no command line.
    """
    found = []
    for page, text in BOOKS.items():
        inline = [line for line in INLINE.findall(text) if " " in line]
        for line in (*BLOCK.findall(text), *inline):
            found.append((page, re.split(r"\s{2,}|\s#", line.strip())[0]))
    return found


def in_full(line: str) -> list[str]:
    """The words of a line with all that may be left out, the first of what may be chosen, and real values."""
    words = shlex.split(line.replace("[", "").replace("]", "").replace("...", ""))
    chosen = [word.split("|")[0] for word in words]
    return [{"N": "200", "KIND": "opening"}.get(word, word) for word in chosen]


def test_there_are_command_lines():
    assert {line.split()[0] for _, line in command_lines()} >= set(COMMANDS)


@pytest.mark.parametrize(("page", "line"), command_lines())
def test_command_lines_in_the_docs_are_understood(page, line):
    assert _parser().parse_args(in_full(line)).command in COMMANDS


def subparsers() -> dict[str, argparse.ArgumentParser]:
    parser = _parser()
    subs = next(a for a in parser._actions if isinstance(a, argparse._SubParsersAction))
    return dict(subs.choices)


def test_readme_says_of_each_command_whether_a_sheet_or_job_may_be_left_out():
    for line in re.findall(r"^    \.venv/bin/advisor (.+)$", BOOKS["README.md"], re.MULTILINE):
        command, *words = line.split()
        taken = _words(subparsers()[command])
        if taken:
            may = taken[0].nargs in ("?", "*") or not taken[0].required
            assert words[0].startswith("[") is may, command


@pytest.mark.parametrize("command", COMMANDS)
def test_every_option_of_help_is_told_in_the_docs(command):
    """Where the command itself is told; what many commands take alike may be told once."""
    own, everything = pages_of(command), "\n".join(BOOKS.values())
    for action in _options(subparsers()[command]):
        alike = set(action.option_strings) & COMMON
        told = set(re.findall(r"(?<![\w-])(-o|--[a-z][a-z-]+)", everything if alike else own))
        assert set(action.option_strings) & told, f"{command}: {action.option_strings} is told nowhere"
        assert action.help, f"{command}: {action.option_strings} has no help"


@pytest.mark.parametrize("command", COMMANDS)
def test_every_word_that_a_command_takes_has_help_and_is_told_in_the_docs(command):
    own = pages_of(command)
    for action in _words(subparsers()[command]):
        for word in action.choices or ():
            told = re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", own)
            assert told, f"{command}: {word} is told nowhere"
        if not isinstance(action, argparse._SubParsersAction):
            assert action.help, f"{command}: {action.dest} has no help"


@pytest.mark.parametrize("command", COMMANDS)
def test_help_prints_and_says_what_each_option_is_for(command, capsys):
    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])
    assert ended.value.code == 0
    said = " ".join(capsys.readouterr().out.split())
    for action in subparsers()[command]._actions:
        assert " ".join((action.help or "").split()) in said


# Told once, with `plan`: they mean the same wherever they are taken.
COMMON = {"--kit", "--units", "--worlds", "--seed", "--rules"}


def pages_of(command: str) -> str:
    """Where a command is told: its pages under docs, and every command line of it."""
    pages = [t for page, t in BOOKS.items() if page != "README.md" and re.search(rf"advisor {command}\b", t)]
    return "\n".join([*pages, *(line for _, line in command_lines() if line.split()[0] == command)])


def _all_of(parser: argparse.ArgumentParser) -> list[argparse.Action]:
    found = []
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            found += [each for sub in action.choices.values() for each in _all_of(sub)]
        found.append(action)
    return found


def _options(parser: argparse.ArgumentParser) -> list[argparse.Action]:
    return [a for a in _all_of(parser) if a.option_strings and "--help" not in a.option_strings]


def _words(parser: argparse.ArgumentParser) -> list[argparse.Action]:
    return [action for action in _all_of(parser) if not action.option_strings]


def test_no_option_is_told_that_there_is_not():
    there = {s for p in subparsers().values() for a in _options(p) for s in a.option_strings} | {
        "--help",
        "--version",
    }
    for page, text in BOOKS.items():
        for line in (*BLOCK.findall(text), *INLINE.findall(text)):
            for option in re.findall(r"(?<![\w-])(--[a-z][a-z-]+)", line):
                assert option in there, f"{page}: {option}"


def test_the_worked_rule_is_good_and_its_examples_come_out(tmp_path, capsys):
    block = next(
        b for b in re.findall(r"```yaml\n(.*?)```", BOOKS["writing-rules.md"], re.DOTALL) if "mechanism" in b
    )
    lines = block.replace("water-deepens-a-sag", "worked-example").splitlines()
    rule = "\n".join(line.removeprefix("   ") for line in lines)
    shutil.copytree(ROOT / "rules", tmp_path / "rules")
    (tmp_path / "rules" / "technique" / "worked.yaml").write_text(f"rules:\n{_indented(rule)}\n")
    assert check([tmp_path / "rules"], tmp_path / "rules") == 0, capsys.readouterr().err
    with pytest.raises(SystemExit) as ended:
        main(["rules", "show", "worked-example", "--rules", str(tmp_path / "rules")])
    assert ended.value.code == 0
    assert "The more runs in, the deeper the lens" in " ".join(capsys.readouterr().out.split())


def _indented(text: str) -> str:
    return "\n".join(f"  {line}" for line in text.splitlines())


def test_the_file_of_answers_makes_a_plan(tmp_path, monkeypatch, capsys):
    block = next(
        b for b in re.findall(r"```yaml\n(.*?)```", BOOKS["asking.md"], re.DOTALL) if "answers:" in b
    )
    monkeypatch.chdir(tmp_path)
    Path("answers.yaml").write_text(block)
    with pytest.raises(SystemExit) as ended:
        main(["ask", "--answers", "answers.yaml", "--worlds", "100"])
    assert ended.value.code == 0, capsys.readouterr().err
    assert "DO THIS FIRST" in capsys.readouterr().out
    assert list(tmp_path.glob("*/site.yaml"))
