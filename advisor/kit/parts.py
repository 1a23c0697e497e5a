"""A part put into a kit sheet or taken out, with what is carried of it; every other line stays as it was."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from advisor.errors import BadInput, Fault
from advisor.kit.layout import Change, appended, dropped, own_way
from advisor.kit.loadouts import MOST_LOADOUTS
from advisor.kit.new import Entries, loadout_row, part_row
from advisor.kit.sheet import KitSheet, LoadoutSheet, kit_of_text
from advisor.strict_yaml import Sheet

KINDS = ("head", "spring", "rod", "guide")


@dataclass(frozen=True)
class NewPart:
    """A new part as told."""

    kind: str  # one of KINDS
    name: str
    entries: Entries


@dataclass(frozen=True)
class Added:
    """New parts that come together, and the loadouts in which they are carried."""

    parts: tuple[NewPart, ...]
    carried: tuple[LoadoutSheet, ...]


def names_of(kit: KitSheet, kind: str) -> tuple[str, ...]:
    """What the parts of one kind are called, in the order of the sheet."""
    return tuple(getattr(part, kind) for part in getattr(kit, f"{kind}s"))


def on_rods(kit: KitSheet, kind: str, name: str, rods: Sequence[str]) -> tuple[LoadoutSheet, ...]:
    """A new head, spring or guide in all that is carried on some rods, in place of what is there."""
    made = (each.model_copy(update={kind: name}) for each in kit.carried if each.rod in rods)
    return _in_room(kit, tuple(dict.fromkeys(made)), bare=kind != "guide")


def with_rod(
    kit: KitSheet, name: str, head: str, spring: str, guides: Sequence[str]
) -> tuple[LoadoutSheet, ...]:
    """A new rod with one head and one spring, bare and with each of the guides."""
    with_it = (None, *guides)
    made = tuple(LoadoutSheet(head=head, spring=spring, rod=name, guide=guide) for guide in with_it)
    return _in_room(kit, made, bare=True)


def has_room(kit: KitSheet, made: Sequence[LoadoutSheet]) -> bool:
    """Whether a kit can hold these loadouts besides those that it has."""
    return len(kit.carried) + len(made) <= MOST_LOADOUTS


def refuse_full(sheet: Sheet[KitSheet], kind: str) -> None:
    """Raise BadInput where a new part could be carried with nothing, since a kit holds no more loadouts."""
    kit = sheet.model
    rods = {each.rod for each in kit.carried}
    fits = kind == "rod" or any(has_room(kit, on_rods(kit, kind, "", [rod])) for rod in rods)
    if fits and has_room(kit, kit.carried[:1]):
        return
    message = (
        f"{len(kit.carried)} loadouts are carried, so there is no room: a kit holds {MOST_LOADOUTS}; "
        "first take out what is not used (--remove), or list fewer as `loadouts`"
    )
    raise BadInput([sheet.fault(message, "loadouts")])


def not_carried(kit: KitSheet) -> tuple[str, ...]:
    """Parts of the sheet that are in no loadout, so that no plan has them."""
    carried = {(kind, getattr(each, kind)) for each in kit.carried for kind in KINDS}
    return tuple(name for kind in KINDS for name in names_of(kit, kind) if (kind, name) not in carried)


def with_part(sheet: Sheet[KitSheet], text: str, new: Added) -> Change:
    """The sheet with what is new; raises BadInput where the sheet is laid out in a way of its own."""
    old, file = sheet.model, sheet.file
    made = Change(text)
    for part in new.parts:
        made = appended(made, f"{part.kind}s", [part_row(part.kind, part.name, part.entries)], file)
    wanted = (*old.carried, *new.carried)
    if set(_read(made.text, file).carried) != set(wanted):
        # Where nothing was listed, every part went with every other: that is written out now.
        listed = new.carried if old.loadouts else wanted
        made = appended(made, "loadouts", [loadout_row(each) for each in listed], file)
    now = _read(made.text, file)
    same = all(
        names_of(now, kind) == (*names_of(old, kind), *(p.name for p in new.parts if p.kind == kind))
        for kind in KINDS
    )
    if not same or set(now.carried) != set(wanted):
        kind = new.parts[0].kind
        raise own_way(file, sheet.line(f"{kind}s"), kind)
    return made


def without_part(sheet: Sheet[KitSheet], text: str, kind: str, name: str) -> Change:
    """The sheet without one part and what is carried of it; raises BadInput where a drain needs it."""
    old, file = sheet.model, sheet.file
    left = tuple(each for each in old.loadouts if getattr(each, kind) != name)
    only = kind != "guide" and len(names_of(old, kind)) == 1
    if only or (old.loadouts and not left):
        message = f"without {name} nothing is left to carry; add what stands in for it first"
        raise BadInput([Fault(file, 0, message)])
    gone = {f"{kind}s": [i for i, each in enumerate(names_of(old, kind)) if each == name]}
    gone["loadouts"] = [i for i, each in enumerate(old.loadouts) if each not in left]
    made = Change(text)
    for key, which in gone.items():
        made = dropped(made, key, which, file)
    now = _read(made.text, file)
    same = all(
        names_of(now, k) == tuple(n for n in names_of(old, k) if (k, n) != (kind, name)) for k in KINDS
    )
    if not same or now.loadouts != left:
        raise own_way(file, sheet.line(f"{kind}s"), kind)
    return made


def _in_room(kit: KitSheet, made: tuple[LoadoutSheet, ...], bare: bool) -> tuple[LoadoutSheet, ...]:
    """Only what goes in without a guide, where all would be more than a kit may hold."""
    if bare and len(kit.carried) + len(made) > MOST_LOADOUTS:
        return tuple(each for each in made if each.guide is None) or made
    return made


def _read(text: str, file: str) -> KitSheet:
    return kit_of_text(text, file).model
