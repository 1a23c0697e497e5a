"""A kit sheet that is written into keeps its remarks, its layout and its line ends."""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.kit.parts import (
    names_of,
    on_rods,
    with_part,
    with_rod,
    without_part,
)
from tests.kit.test_parts import LISTED, UNLISTED, firm, new, sheet

REMARKED = """\
kit: van
heads:
  # the lens of 1998
  # was mended
  - head: old
    diameter: 25 mm
    # nose: not told
  # seen by hand
  - head: new

  # what is lent out stands below

springs: [{spring: soft}]
rods:
- rod: thin
# lent out
- rod: thick
loadouts:
  # never below 0 C
  - {head: old, spring: soft, rod: thin}
  - {head: new, spring: soft, rod: thin}
    # and this one dry
  - {head: new, spring: soft, rod: thick}
"""


@pytest.mark.parametrize(
    ("kind", "name", "gone"),
    [
        ("head", "old", (3, 4, 5, 6, 7, 19, 20)),  # the lines by number
        ("head", "new", (8, 9, 21, 22, 23)),
        ("rod", "thick", (16, 17, 23)),
    ],
)
def test_the_remark_just_above_a_row_goes_with_it_and_no_other(kind, name, gone):
    """Told by the rule: directly above, as far in, no empty line between. Deeper in: of the row above."""
    change = without_part(sheet(REMARKED), REMARKED, kind, name)
    lines = REMARKED.splitlines(keepends=True)
    assert change.text == "".join(line for i, line in enumerate(lines, start=1) if i not in gone)
    assert change.lines == tuple(lines[i - 1].rstrip() for i in gone)


def test_the_remark_above_the_last_guide_goes_with_its_list_but_what_heads_the_sheet_stays():
    guides = "# lent by the other van\nguides:\n  - guide: ring\n"
    text = LISTED.replace("# what is carried", guides + "# what is carried")
    assert without_part(sheet(text), text, "guide", "ring").text == LISTED
    first = "# all that I have\nguides:\n  - guide: ring\n" + LISTED.removeprefix("# my van\n")
    assert without_part(sheet(first), first, "guide", "ring").text == LISTED.replace(
        "my van", "all that I have"
    )


def test_a_new_row_does_not_come_between_a_remark_and_its_row():
    """What stands below the last row, as far in, is not about the new one: taken out again, it stays."""
    text = LISTED.replace("    # length: not told\n", "    # length: not told\n  # lent out: the firm one\n")
    made = firm(text, "thin")
    assert without_part(sheet(made), made, "spring", "firm").text == text


ENDED = UNLISTED + "...\n# end of it\n"


@pytest.mark.parametrize(
    "text", [ENDED, ENDED.replace("\n", "\r\n"), LISTED + "..."], ids=["lf", "crlf", "cut"]
)
@pytest.mark.parametrize("kind", ["spring", "rod", "guide"])
def test_a_sheet_that_is_closed_by_dots_takes_a_part_above_them(text, kind):
    of = sheet(text)
    carried = (
        with_rod(of.model, "new", "small head", "soft", ())
        if kind == "rod"
        else on_rods(of.model, kind, "new", ["thin"])
    )
    made = with_part(of, text, new(kind, "new", {}, carried)).text
    assert "new" in names_of(sheet(made).model, kind)
    assert made.rstrip().endswith(text.rstrip()[text.rstrip().rindex("...") :]), "the end stays the end"
    assert (made.count("\r\n") == made.count("\n")) == ("\r" in text)


@pytest.mark.parametrize("text", [LISTED, UNLISTED, LISTED.rstrip("\n"), UNLISTED.rstrip("\n")])
@pytest.mark.parametrize("kind", ["head", "spring", "rod", "guide"])
def test_other_line_ends_make_the_same_sheet_with_those_ends(text, kind):
    def both(text: str) -> list[str]:
        of = sheet(text)
        first = of.model.carried[0]
        carried = (
            with_rod(of.model, "new", first.head, first.spring, ())
            if kind == "rod"
            else on_rods(of.model, kind, "new", ["thin"])
        )
        made = with_part(of, text, new(kind, "new", {}, carried)).text
        change = without_part(sheet(made), made, kind, "new")
        assert not any("\r" in line for line in change.lines)
        return [made, change.text]

    windows = text.replace("\n", "\r\n")
    assert both(windows) == [made.replace("\n", "\r\n") for made in both(text)]


def test_a_line_that_ends_in_the_way_of_old_is_told():
    text = LISTED.replace("rods:\n", "rods:\r")
    with pytest.raises(BadInput, match=r"^kit.yaml:11: its line ends in a way of old \(CR alone\)"):
        firm(text, "thin")


@pytest.mark.parametrize("remark", ["", "  # none yet"])
def test_an_empty_list_between_brackets_is_filled_by_rows(remark):
    text = LISTED.replace("# what is carried", f"guides: []{remark}\n# what is carried")
    of = sheet(text)
    carried = on_rods(of.model, "guide", "ring", ["thin"])
    made = with_part(of, text, new("guide", "ring", {"diameter": "45 mm"}, carried)).text
    row = "  - guide: ring\n    diameter: 45 mm\n    # length: not told\n"
    assert f"guides:{remark}\n{row}# what is carried\n" in made
    assert sheet(made).model.loadouts[-1].guide == "ring"
    for line in LISTED.splitlines():
        assert line in made.splitlines()


def test_a_list_on_one_line_is_written_on_in_its_line_and_taken_from_it():
    text = UNLISTED.replace(
        "springs:\n  # the soft one first\n  - spring: soft\n"
        "    feel: soft   # by hand\n    # length: not told\n",
        "springs: [{spring: soft, feel: soft}]  # by hand\n",
    )
    made = firm(text, "thin", "thick")
    assert made == text.replace(
        "[{spring: soft, feel: soft}]",
        "[{spring: soft, feel: soft}, {spring: firm, like: large reel, feel: firm}]",
    )
    assert without_part(sheet(made), made, "spring", "firm").text == text
    assert without_part(sheet(made), made, "spring", "soft").text == text.replace(
        "{spring: soft, feel: soft}", "{spring: firm, like: large reel, feel: firm}"
    )
