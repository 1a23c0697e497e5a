"""What `what-if` says to a path that leads to a whole thing, to nothing, or to the other sheet."""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.explain.vary import replaced
from advisor.explain.what_if import present, varied
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from tests.cases.jobs import kit_text, tables

SITE = {
    "site": "s",
    "lines": [
        {"line": "house drain", "size": "4 in", "pieces": [
            {"opening": "yard cleanout", "kind": "two-way cleanout"}, {"fixture": "basin"}, {"pipe": "9 ft"},
        ]},
    ],
}  # fmt: skip


@pytest.mark.parametrize(
    ("path", "says"),
    [
        ("house drain/yard cleanout", ["'house drain/yard cleanout' is a whole opening",
                                       "such as `house drain/yard cleanout/kind=two-way cleanout`"]),
        ("yard cleanout", ["is a whole opening", "`yard cleanout/kind=two-way cleanout`"]),
        ("house drain", ["is a whole line", "`house drain/size=4 in`"]),
        ("house drain/basin", ["is a whole fixture", "`house drain/basin/size=3 in`"]),
        ("house drain/yard clenout", ["did you mean 'house drain/yard cleanout'?", "cleanout/kind=two-way"]),
        ("house drain/yard clenout/kind", ["did you mean 'yard cleanout'?"]),
        ("lines/0/pieces/2", ["is a whole", "`lines/0/pieces/2/pipe=9 ft`"]),
    ],
)  # fmt: skip
def test_a_path_to_a_whole_thing_is_told_how_its_entries_are_named(path, says):
    with pytest.raises(BadInput) as wrong:
        replaced(SITE, path, "3 in", "sheet")
    for words in says:
        assert words in str(wrong.value)


@pytest.mark.parametrize("path", ["house drain/slope", "house drain/yard cleanout/opens", "built"])
def test_an_entry_that_is_left_out_can_be_set(path):
    assert f"{path.rpartition('/')[2]}: v" in replaced(SITE, path, "v", "sheet")


def test_an_opening_alone_is_not_looked_for_as_an_entry_of_the_kit():
    site = """\
site: s
region: north america
lines:
  - line: house drain
    pieces:
      - {opening: yard cleanout, kind: two-way cleanout}
      - pipe: 30 ft
      - end: public sewer
"""
    sheet = kit_of_text(kit_text(), "kit")
    case = Case(site_of_text(site, "site", tables()), kit_of(sheet, tables()), Units.INCH)
    with pytest.raises(BadInput, match="'yard cleanout' is a whole opening"):
        varied(case, sheet, "yard cleanout", "no", tables())
    kit = varied(case, sheet, "small head/diameter", "30 mm", tables()).kit
    assert kit.heads[0].diameter.likely == pytest.approx(0.030)


def test_a_name_that_neither_sheet_has_is_told_with_the_names_of_both():
    """Whoever varies a line of the house is not told of heads and rods alone."""
    pieces = "[{opening: gully, kind: gully}, {pipe: 3 m}, {end: public sewer}]"
    text = f"site: s\nregion: britain\nlines:\n  - {{line: back drain, pieces: {pieces}}}\n"
    kit_sheet = kit_of_text(kit_text(), "kit.yaml")
    site_sheet = site_of_text(text + "task: {look at: back drain}\n", "site.yaml", tables())
    case = Case(site_sheet, kit_of(kit_sheet, tables()), Units.METRIC)
    with pytest.raises(BadInput) as wrong:
        present(case, kit_sheet, "house drain/size")
    (_, on_site) = sorted(str(wrong.value).splitlines())
    assert on_site.startswith("site.yaml: nothing here is called 'house drain'")
    assert "back drain" in on_site
    assert present(case, kit_sheet, "small head/diameter") == "25 mm"
