"""A part put into a kit sheet or taken out: the rest stays to the letter, and the whole means the rest."""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.kit.edit import part_of
from advisor.kit.loadouts import kit_of
from advisor.kit.parts import (
    Added,
    NewPart,
    has_room,
    names_of,
    not_carried,
    on_rods,
    refuse_full,
    with_part,
    with_rod,
    without_part,
)
from advisor.kit.sheet import LoadoutSheet, kit_of_text
from advisor.strict_yaml import plain, written
from tests.cases.jobs import tables

LISTED = """\
# my van
kit: van  # mine
heads:
  - {head: small head, diameter: 25 mm}  # new lens
springs:
  # the soft one first
  - spring: soft
    feel: soft   # by hand
    # length: not told

rods:
- rod: thin
  core: 3.7 mm
- rod: thick
# what is carried
loadouts:  # at most twelve
  - {head: small head, spring: soft, rod: thin}
  - head: small head
    spring: soft
    rod: thick
"""
UNLISTED = LISTED.partition("# what is carried")[0]
FIRM = {"like": "large reel", "feel": "firm"}


def sheet(text: str):
    return kit_of_text(text, "kit.yaml")


def new(kind, name, entries, carried) -> Added:
    return Added((NewPart(kind, name, entries),), carried)


def firm(text: str, *rods: str) -> str:
    of = sheet(text)
    return with_part(of, text, new("spring", "firm", FIRM, on_rods(of.model, "spring", "firm", rods))).text


def test_a_second_spring_stands_below_the_first_and_is_carried_on_its_rod_alone():
    made = firm(LISTED, "thin")
    for line in LISTED.splitlines():
        assert line in made.splitlines()
    before, _, rest = made.partition("  - spring: firm\n    like: large reel\n    feel: firm\n")
    assert before.endswith("    # length: not told\n"), "a remark on the first spring stays with it"
    assert rest.partition("rods:")[2], "and the list goes on below it"
    assert sheet(made).model.loadouts == (
        *sheet(LISTED).model.loadouts,
        LoadoutSheet(head="small head", spring="firm", rod="thin"),
    )
    names = [each.name for each in kit_of(sheet(made), tables()).loadouts]
    assert names == ["small head on thin, soft", "small head on thick", "small head on thin, firm"]


def test_where_nothing_is_listed_it_is_listed_only_where_it_must_be():
    """Every head with every spring and rod: so firm on both rods need not be said, on one it must."""
    both = firm(UNLISTED, "thin", "thick")
    assert "loadouts" not in both
    assert len(kit_of(sheet(both), tables()).loadouts) == 4
    one = firm(UNLISTED, "thick")
    assert {(each.spring, each.rod) for each in sheet(one).model.loadouts} == {
        ("soft", "thin"),
        ("soft", "thick"),
        ("firm", "thick"),
    }
    assert one.startswith(UNLISTED.partition("rods:")[0].rstrip() + "\n  - spring: firm\n")


def test_a_first_guide_makes_its_list():
    for text in (LISTED, UNLISTED):
        of = sheet(text)
        carried = on_rods(of.model, "guide", "ring", ["thick"])
        made = with_part(of, text, new("guide", "ring", {"diameter": "45 mm"}, carried)).text
        loadouts = sheet(made).model.loadouts
        assert len(loadouts) == 3
        assert loadouts[2] == LoadoutSheet(head="small head", spring="soft", rod="thick", guide="ring")
        assert made.index("guides:") < made.index("loadouts:")
        kit_of(sheet(made), tables())


def test_a_rod_goes_with_one_head_and_one_spring_bare_and_with_each_guide_that_fits():
    of = sheet(LISTED.replace("loadouts:", "guides:\n  - guide: ring\nloadouts:"))
    made = with_rod(of.model, "long", "small head", "soft", ["ring"])
    assert [each.guide for each in made] == [None, "ring"]
    assert [each.guide for each in with_rod(of.model, "long", "small head", "soft", ())] == [None]
    assert {(each.head, each.spring, each.rod) for each in made} == {("small head", "soft", "long")}


def crowded(count: int):
    """A kit that carries so many loadouts: rods bare and with two guides, on one head and spring."""
    loadouts = "".join(
        f"  - {{head: h, spring: s, rod: r{rod}{guide}}}\n"
        for rod in range(4)
        for guide in ("", ", guide: a", ", guide: b")
    )
    rods = ", ".join(f"{{rod: r{rod}}}" for rod in range(4))
    return sheet(
        f"kit: k\nheads: [{{head: h}}]\nsprings: [{{spring: s}}]\nrods: [{rods}]\n"
        "guides: [{guide: a}, {guide: b}]\nloadouts:\n" + "".join(loadouts.splitlines(keepends=True)[:count])
    )


@pytest.mark.parametrize(
    ("count", "guides"), [(9, [None, "a", "b"]), (10, [None]), (11, [None])], ids=["9", "10", "11"]
)
def test_with_a_guide_too_only_where_there_is_room_for_twelve(count, guides):
    """Bare and with two guides are three: nine and three are twelve, ten and three would be thirteen."""
    of = crowded(count).model
    assert [each.guide for each in on_rods(of, "spring", "t", ["r0"])] == guides
    assert [each.guide for each in with_rod(of, "r9", "h", "s", ["a", "b"])] == guides
    assert has_room(of, on_rods(of, "spring", "t", ["r0"]))


def test_what_was_carried_bare_for_want_of_room_makes_a_kit_that_can_be_used():
    of = crowded(11)
    text = written(plain(of.tree))
    made = with_part(
        sheet(text), text, new("rod", "r9", {}, with_rod(of.model, "r9", "h", "s", ["a", "b"]))
    ).text
    assert len(kit_of(sheet(made), tables()).loadouts) == 12


@pytest.mark.parametrize("kind", ["head", "spring", "rod", "guide"])
def test_a_kit_of_twelve_takes_nothing_more_and_one_of_eleven_takes_one(kind):
    refuse_full(crowded(11), kind)
    with pytest.raises(BadInput, match="12 loadouts are carried, so there is no room: a kit holds 12"):
        refuse_full(crowded(12), kind)


@pytest.mark.parametrize("text", [LISTED, UNLISTED])
@pytest.mark.parametrize("kind", ["head", "spring", "rod", "guide"])
def test_what_was_put_in_is_taken_out_again_without_a_trace(text, kind):
    of = sheet(text)
    first = of.model.carried[0]
    carried = (
        with_rod(of.model, "new", first.head, first.spring, ())
        if kind == "rod"
        else on_rods(of.model, kind, "new", ["thin", "thick"])
    )
    made = with_part(of, text, new(kind, "new", {}, carried)).text
    assert "new" in names_of(sheet(made).model, kind)
    back = without_part(sheet(made), made, kind, "new").text
    assert sheet(back).model.carried == of.model.carried
    assert back.partition("loadouts:")[0].rstrip() == text.partition("loadouts:")[0].rstrip()
    if text == LISTED:
        assert back == text


def test_what_only_the_part_taken_out_was_carried_with_is_named():
    made = firm(LISTED, "thin")
    change = without_part(sheet(made), made, "rod", "thin")
    assert change.lines == (
        "- rod: thin",
        "  core: 3.7 mm",
        "  - {head: small head, spring: soft, rod: thin}",
        "  - head: small head",
        "    spring: firm",
        "    rod: thin",
    )
    less = change.text
    assert not_carried(sheet(less).model) == ("firm",)
    assert not_carried(sheet(LISTED).model) == ()
    assert "core: 3.7 mm" not in less
    assert "# what is carried\nloadouts:  # at most twelve\n" in less


@pytest.mark.parametrize(
    ("kind", "name"), [("head", "small head"), ("spring", "soft"), ("rod", "thin"), ("guide", "ring")]
)
def test_what_everything_is_carried_with_stays(kind, name):
    text = LISTED.replace("    rod: thick\n", "    rod: thin\n    guide: ring\n")
    text = text.replace("loadouts:", "guides:\n  - guide: ring\nloadouts:")
    if kind == "guide":
        assert len(sheet(without_part(sheet(text), text, kind, name).text).model.loadouts) == 1
        return
    with pytest.raises(BadInput, match=f"without {name} nothing is left to carry"):
        without_part(sheet(text), text, kind, name)


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("springs:\n  # the soft one first\n  - spring: soft\n", "springs: [\n  {spring: soft}]\nx:\n", 5),
        ("  - spring: soft\n", "  -\n    spring: soft\n", 8),
    ],
)
def test_a_list_laid_out_otherwise_is_left_to_its_owner_with_the_line(old, new, line):
    text = LISTED.replace(old, new).replace("x:\n    feel: soft   # by hand\n", "")
    with pytest.raises(BadInput) as caught:
        firm(text, "thin")
    assert str(caught.value).startswith(f"kit.yaml:{line}: it is laid out in a way of its own")


def test_a_part_is_meant_by_its_name_or_by_its_list_and_name():
    text = LISTED.replace("small head", "thin")
    of = sheet(text)
    assert part_of(of, "heads/thin") == ("head", "thin")
    assert part_of(of, "soft") == ("spring", "soft")
    with pytest.raises(BadInput, match="two parts are called 'thin'; expected `heads/thin` or `rods/thin`"):
        part_of(of, "thin")
    with pytest.raises(BadInput, match="no part is called 'sfot'; did you mean 'soft'"):
        part_of(of, "sfot")


def test_a_second_guide_goes_once_onto_each_head_and_spring():
    """Bare and with the first guide are one place for the second; a head that is never bare has one too."""
    text = LISTED + "    guide: ring\n  - {head: small head, spring: soft, rod: thick}\n"
    of = sheet(text.replace("loadouts:", "guides:\n  - guide: ring\nloadouts:"))
    made = on_rods(of.model, "guide", "skid", ["thin", "thick"])
    assert [(each.rod, each.guide) for each in made] == [("thin", "skid"), ("thick", "skid")]
    never_bare = sheet(
        LISTED.replace("loadouts:", "guides:\n  - guide: ring\nloadouts:") + "    guide: ring\n"
    )
    assert on_rods(never_bare.model, "guide", "skid", ["thick"]) == made[1:]
