"""A newer kitchen in an old house: its branch is of the pipe and the fittings of its own year.

Which pipe was usual when is the table's, read here by its years; that a kitchen is put in later than its
house is common practice, no source.
"""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.subject import JOB
from advisor.job.folder import Job
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from advisor.terminal.ask_missing import pick_one, what_is_wrong
from advisor.terminal.check_screen import check
from advisor.terminal.page import Page
from tests.cases.jobs import tables
from tests.interview.small_session import answered, session
from tests.terminal.test_choose import typed

HOUSE = """
site: old house
region: north america
built: {built}
lines:
  - line: house drain
    pieces:
      - {{opening: floor cleanout, kind: floor cleanout}}
      - pipe: 4 m
      - joined by: kitchen line
      - pipe: 8 m
      - {{end: public sewer}}
  - line: kitchen line
    kind: branch
    size: 2 in
{laid}    pieces:
      - fixture: kitchen sink
      - drop: 1 m
      - bend: unknown
      - pipe: 3 m
"""
YEAR = "    laid: 1995\n"
BASEMENT = {"region": "north america", "built": "1930", "building": "basement"}
BEGIN = tuple(Answer(question, JOB.id, (word,)) for question, word in BASEMENT.items())
KITCHEN = ("newer-branch", "branch kitchen line")


def drawn(built: int, laid: str = ""):
    text = HOUSE.format(built=built, laid=laid)
    pieces = network_of(site_of_text(text, "site", tables()), tables()).pieces.values()
    by_line = {p.line: p.wall for p in pieces}
    fittings = {(p.kind, p.line): p.fitting for p in pieces if p.kind in ("junction", "bend") and p.fitting}
    return by_line, fittings


def test_a_branch_laid_later_is_as_in_a_house_of_that_year_and_the_rest_as_old_as_the_house():
    (old, _), (new, new_fittings) = drawn(1930), drawn(1995)
    walls, fittings = drawn(1930, YEAR)
    assert walls["kitchen line"].material == new["kitchen line"].material
    assert walls["kitchen line"].condition == new["kitchen line"].condition
    assert walls["house drain"] == old["house drain"]
    assert fittings == new_fittings, "its bend, and the fitting that was put in with it"
    # rules/tables/materials.yaml: branches until 1940, and later than 1975.
    assert old["kitchen line"].material.likeliest == "galvanised steel"
    assert walls["kitchen line"].material.likeliest == "pvc"


def of_words(of, words: str) -> tuple[str, ...]:
    """The value of an answer's words; what is typed is its own."""
    options = of.ask(BEGIN, *KITCHEN).options
    return (next((each.value for each in options if each.words == words), words),)


@pytest.mark.parametrize(
    ("word", "stands"),
    [("newer, of plastic", "material: pvc"), ("1995", "laid: 1995"), ("as old as the house", "")],
)
def test_what_is_told_of_it_stands_on_the_sheet(word, stands):
    of = session()
    said = (*BEGIN, answered(of.ask(BEGIN, *KITCHEN), *of_words(of, word)))
    lines = {line["line"]: line for line in of.sheets.tree(said)["lines"]}
    bare = {line["line"]: line for line in of.sheets.tree(BEGIN)["lines"]}
    key, _, value = stands.partition(": ")
    assert lines["kitchen line"] == {**bare["kitchen line"], **({key: value} if key else {})}
    assert [n for n in lines if lines[n] != bare[n]] == (["kitchen line"] if key else [])
    assert of.ask(said, *KITCHEN) is not None, "it may be changed"


def test_it_is_asked_of_branches_alone_and_not_of_what_is_told():
    of = session()
    about = {ask.subject.name for ask in of.open(BEGIN) if ask.question.id == KITCHEN[0]}
    assert {"the kitchen line", "the bath branch", "the laundry line"} <= about
    assert not about & {"the house drain", "the main stack"}
    pipe = answered(of.ask(BEGIN, "pipe-material", "wall kitchen line"), "cast iron")
    for told in (pipe, answered(of.ask(BEGIN, *KITCHEN), "1995")):
        left = {ask.subject.name for ask in of.open((*BEGIN, told)) if ask.question.id == KITCHEN[0]}
        assert left == about - {"the kitchen line"}


def test_it_is_two_keys_away_at_the_end_of_the_questions(tmp_path):
    """Among all lengths and materials it stood on the fifth page."""
    with typed("6"):
        about = what_is_wrong(Job(tmp_path), "north america", Page())
    of = session()
    picked = [ask for ask in of.may_tell(BEGIN) if ask.subject.about in about]
    assert KITCHEN in [ask.key for ask in picked]
    assert {ask.question.id for ask in picked} == {KITCHEN[0]}
    with typed(str([ask.key for ask in picked].index(KITCHEN) + 1)):
        assert pick_one(picked, Page()).key == KITCHEN


def test_another_bathroom_may_be_newer_as_well():
    of = session()
    other = of.ask(BEGIN, "other-toilet")
    said = (*BEGIN, answered(other, other.options[2].value))
    drawn = next(iter(set(of.sheets.drain(said).network.lines) - set(of.sheets.drain(BEGIN).network.lines)))
    assert of.ask(said, "newer-branch", f"branch {drawn}") is not None


def test_a_year_that_is_still_to_come_is_told(tmp_path, capsys):
    sheet = tmp_path / "site.yaml"
    sheet.write_text(HOUSE.format(built=1930, laid=YEAR.replace("1995", "2099")))
    assert check([sheet], rules_dir()) == 0
    assert "kitchen line, laid: 2099 is still to come" in " ".join(capsys.readouterr().out.split())
