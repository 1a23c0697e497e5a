"""`advisor kit`: shows the kit in use, asks for it, changes one value, measures a rod."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from advisor.errors import BadInput, Fault
from advisor.job.output import write_out
from advisor.job.own import own_folder, own_kit
from advisor.kit.edit import edited, part_names, told_values
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.measure import Droop
from advisor.kit.model import Kit, Rod
from advisor.kit.parts import not_carried
from advisor.kit.sheet import KitSheet, kit_of_text
from advisor.quantity import Estimate, Units
from advisor.strict_yaml import Sheet, read_text
from advisor.tables.load import Tables, load_tables
from advisor.terminal.choose import BACK, choose, need_terminal, yes_no
from advisor.terminal.droop_ask import ask_bare, ask_droop, read_droop, rod_of
from advisor.terminal.droop_screen import tell_droop
from advisor.terminal.kit_interview import Interview
from advisor.terminal.kit_questions import whole_kit
from advisor.terminal.kit_screen import show_kit, tell_idle
from advisor.terminal.page import Page

_NO_SHEET = "To keep it, tell what is on the truck first: advisor kit new."
_TO_READINGS = replace(BACK, words="back to the readings")


@dataclass(frozen=True)
class InUse:
    """The kit that plans would use, and the sheet it stands on, if any."""

    kit: Kit
    path: Path | None
    text: str
    sheet: Sheet[KitSheet] | None
    where: str

    @property
    def units(self) -> Units:
        """Those in which the sheet is written."""
        told = "\n".join(told_values(self.sheet)) if self.sheet else ""
        return Units.INCH if re.search(r"\d ?(in|ft|lb|lbf)\b|\d\"", told) else Units.METRIC


def in_use(given: Path | None, rules: Path) -> InUse:
    """The kit given, else the truck's, else reels of usual make; raises BadInput."""
    tables = load_tables(rules)
    path = given or own_kit()
    if path is None:
        where = (
            "No kit sheet of your own: two reels of usual make. Tell what is on the truck: advisor kit new."
        )
        return InUse(default_kit(tables), None, "", None, where)
    text = read_text(path)
    sheet = kit_of_text(text, str(path))
    where = f"From {path}" + ("" if given else ", the truck's kit: every plan takes it unless told another.")
    return InUse(kit_of(sheet, tables), path, text, sheet, where)


def sheet_in_use(given: Path | None, rules: Path) -> tuple[InUse, Sheet[KitSheet], Path]:
    """The kit in use that stands on a sheet, and its sheet; raises BadInput where it stands on none."""
    used = in_use(given, rules)
    if used.path is None or used.sheet is None:
        raise BadInput([Fault("kit", 0, "there is no kit sheet to change; tell it first: advisor kit new")])
    return used, used.sheet, used.path


def write(used: InUse, text: str) -> None:
    """Write the sheet in use anew; raises BadInput where somebody else changed it since it was read."""
    assert used.path is not None
    if read_text(used.path) != used.text:
        message = "it was changed meanwhile, so nothing was written; do it again"
        raise BadInput([Fault(str(used.path), 0, message)])
    write_out(used.path, text.encode(), force=True)


def show(given: Path | None, units: str | None, rules: Path, page: Page) -> None:
    """Print the kit in use."""
    used = in_use(given, rules)
    left = not_carried(used.sheet.model) if used.sheet else ()
    show_kit(used.kit, left, used.where, Units(units) if units else used.units, page)


def new(force: bool, units: str | None, rules: Path, page: Page) -> None:
    """Ask for the truck's kit and write it; raises BadInput, also where there is one already."""
    path = own_folder() / "kit.yaml"
    if path.exists() and not force:
        message = "there is a kit already; change it with advisor kit edit, or ask anew with --force"
        raise BadInput([Fault(str(path), 0, message)])
    need_terminal(f"without one, write the kit sheet by hand: {path}")
    tables = load_tables(rules)
    page.heading("The truck's kit")
    page.line(
        "Asked once. Don't know? Press Enter on an empty line: the usual make is taken, with a wide range."
    )

    def show(text: str) -> None:
        page.heading("The kit sheet")
        page.line(text)

    asked = Interview(page, lambda: whole_kit(tables, Units(units) if units else None))

    def judge(text: str) -> None:
        tell_idle(kit_of(kit_of_text(text, "the kit as told"), tables), page)

    text = asked.settled(path, show, judge)
    if text is not None:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_out(path, text.encode(), force)
        page.line(f"Written: {path}. Plans take it from now on.")
        page.line("How stiff a rod is tells most of how far it goes. Measure it: advisor kit droop.")


def edit(given: Path | None, about: Sequence[str], rules: Path, page: Page) -> None:
    """Set one value in the kit sheet; without one, say which file and which parts there are."""
    used, sheet, sheet_path = sheet_in_use(given, rules)
    if not about:
        page.line(f"The kit stands in {sheet_path}: change it there, or one value by PART/ENTRY=VALUE.")
        page.line(f"Parts: {', '.join(part_names(sheet))}.")
        page.line("One part more: --add spring (or head, rod, guide). One less: --remove PART.")
        return
    path, equals, value = " ".join(about).partition("=")
    if not equals or not value.strip():
        such = f"{part_names(sheet)[0]}/length=2 in"
        message = f"got {' '.join(about)!r}; expected PART/ENTRY=VALUE, such as {such}"
        raise BadInput([Fault("edit", 0, message)])
    _set(used, {path.strip(): value.strip()}, rules, page)


def droop(
    given: Path | None,
    rod: str | None,
    readings: tuple[str | None, str | None, str | None],
    weight: str | None,
    save: bool,
    units: str | None,
    rules: Path,
    page: Page,
) -> None:
    """The droop test, from options or asked for; raises BadInput."""
    used, tables = in_use(given, rules), load_tables(rules)
    shown = Units(units) if units else used.units
    length, first, second = readings
    asked = not any(readings)
    if not asked and (length is None or first is None or second is None):
        message = (
            "a reading is missing; expected --length, --droop and --droop-rolled, or none of them to be asked"
        )
        raise BadInput([Fault("droop test", 0, message)])
    if asked:
        need_terminal("give --length, --droop and --droop-rolled instead")
    chosen = rod_of(used.kit, rod, page if asked else None)
    if length is None or first is None or second is None:
        if ask_bare(chosen, tables, shown, page):
            _droop_asked(used, chosen, save, tables, shown, rules, page)
        return
    read = read_droop(length, first, second, weight, chosen, tables)
    stiffness, _ = tell_droop(read, chosen, tables, shown, page)
    if used.path is None:
        page.line(_NO_SHEET)
    elif save:
        _keep(used, chosen, stiffness, read, rules, page)


def _droop_asked(
    used: InUse, rod: Rod, save: bool, tables: Tables, units: Units, rules: Path, page: Page
) -> None:
    """Readings, what they tell and whether to keep it; from there, and where no rod does so, back."""
    told: list[str] = []
    while (read := ask_droop(rod, tables, units, page, told)) is not None:
        try:
            stiffness, _ = tell_droop(read, rod, tables, units, page)
        except BadInput as wrong:
            page.strong(f"That cannot be: {wrong.faults[0].message}.")
            continue
        if used.path is None:
            page.line(_NO_SHEET)
            return
        keep = yes_no(f"yes, into {used.path}")
        key = "y" if save else choose(page, "Keep this stiffness?", keep, (_TO_READINGS,))
        if key == "y":
            _keep(used, rod, stiffness, read, rules, page)
        if key != BACK.key:
            return


def _keep(used: InUse, rod: Rod, stiffness: str, read: Droop, rules: Path, page: Page) -> None:
    changes = {"stiffness": stiffness}
    if read.weighed and isinstance(read.weight, Estimate):
        changes["weight"] = f"{read.weight.low:.3g} to {read.weight.high:.3g} N/m"
    _set(used, {f"rods/{rod.name}/{entry}": text for entry, text in changes.items()}, rules, page)


def _set(used: InUse, changes: dict[str, str], rules: Path, page: Page) -> None:
    """Write the kit sheet with some values set; nothing is written where the whole would be at fault."""
    assert used.path is not None
    text, tables = used.text, load_tables(rules)
    for about, value in changes.items():
        text = edited(kit_of_text(text, str(used.path)), text, about, value)
    kit = kit_of(kit_of_text(text, str(used.path)), tables)
    write(used, text)
    for about, value in changes.items():
        page.line(f"{about}: {value}")
    tell_idle(kit, page)
    page.line(f"Written: {used.path}")
