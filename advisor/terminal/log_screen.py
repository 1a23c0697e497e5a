"""The log of a job on the screen, and into a file."""

from __future__ import annotations

import sys
from collections.abc import Collection, Iterable
from pathlib import Path

from advisor.errors import BadInput
from advisor.job.folder import Job
from advisor.job.output import write_out
from advisor.job.units import told_units
from advisor.push.log.kinds import START
from advisor.push.log.log import Entry, Log, standing, undone
from advisor.push.log.rescue import rescue
from advisor.push.log.went_in import Reading, readings_of
from advisor.push.now.datum import Datum
from advisor.push.report.advice import read_advice
from advisor.push.report.export import csv_of, json_of
from advisor.push.report.geojson import geojson_of
from advisor.push.report.log_datum import UPPER_END, Counted, counted_from
from advisor.push.report.log_words import kind_words, told_words
from advisor.push.report.marks import spots
from advisor.push.report.words import when, zone
from advisor.quantity import Units, show_counter
from advisor.site.build import network_of
from advisor.site.network import Network
from advisor.site.sheet import read_site, usual_units
from advisor.tables.load import Tables, load_tables
from advisor.tables.stuck import StuckFile
from advisor.terminal.log_placed import TOLD, as_placed
from advisor.terminal.page import Page


def show_log(job: Job, units: Units | None, rules: Path, page: Page) -> None:
    """Every entry, a line or two each; raises BadInput."""
    kept = entries_of(job)
    entries, tables = as_placed(kept, job, rules), load_tables(rules)
    units = units or units_of(job, tables)
    gone, readings = undone(entries), readings_of(standing(entries))
    along = counted_from(entries, network_in(job, tables))
    zones = " and ".join(dict.fromkeys(map(zone, entries)))
    page.heading(f"log of {job.name}{f', times of this place ({zones})' if zones else ''}")
    for entry in entries:
        counted = along.get(entry.number)
        told = line_of(
            entry, units, tables.stuck, readings.get(entry.number), counted.datum if counted else None
        )
        page.line(told + (" (undone)" if entry.number in gone else ""))
    if not entries:
        page.line("Nothing is logged yet.")
    for says in _count_from(along.values()):
        page.line(says)
    if entries != kept:
        page.line(TOLD)


def _count_from(along: Collection[Counted]) -> Iterable[str]:
    """From where lengths count that no opening is named with."""
    unnamed = [each for each in along if each.counts_from == UPPER_END]
    for each in dict.fromkeys(unnamed):
        told = each.datum.told()
        told = f"{told.removesuffix('.')}, for {each.why}." if each.why else told
        other = len(unnamed) < len(along)
        yield f"Where no opening is named, {told[0].lower()}{told[1:]}" if other else told


def export_log(job: Job, rules: Path, as_json: bool, out: Path | None, force: bool, page: Page) -> None:
    """The log as CSV or JSON, to the screen or into a file; raises BadInput."""
    entries, network = as_placed(entries_of(job), job, rules), network_in(job, load_tables(rules))
    _out(
        json_of(entries, network) if as_json else csv_of(entries, network),
        f"{len(entries)} entries, times in UTC,",
        out,
        force,
        page,
    )


def export_points(job: Job, rules: Path, out: Path | None, force: bool, page: Page) -> None:
    """Finds and marks as GeoJSON, to the screen or into a file; raises BadInput."""
    entries = standing(as_placed(entries_of(job), job, rules))
    tables = load_tables(rules)
    sheet = read_site(job.site, tables)
    network = network_of(sheet, tables)
    found = spots(entries, network, sheet.model, read_advice(rules, tables), tables)
    placed = sum(not isinstance(spot.place, str) for spot in found)
    text = geojson_of(found, sheet.model, counted_from(entries, network))
    _out(text, f"{placed} of {len(found)} points with a place", out, force, page)


def _out(text: str, what: str, out: Path | None, force: bool, page: Page) -> None:
    if out is None:
        sys.stdout.write(text)
        return
    write_out(out, text.encode(), force)
    page.line(f"{what} written to {out}.")


def rescue_log(job: Job, out: Path, page: Page) -> None:
    """What a damaged log still holds, as a new log; raises BadInput."""
    page.line(f"{rescue(job.log, out)} entries put into {out}; {job.log} is left as it is.")


def entries_of(job: Job) -> tuple[Entry, ...]:
    """All that was logged; raises BadInput where there is no log or it is damaged."""
    log = Log.read(job.log)
    try:
        return log.entries()
    finally:
        log.close()


def units_of(job: Job, tables: Tables) -> Units:
    """Those told for the job, else of its region; a log can be read without a sheet, then in metres."""
    if (told := told_units(None, job.folder)) is not None:
        return told
    try:
        return usual_units(read_site(job.site, tables).model)
    except BadInput:
        return Units.METRIC


def network_in(job: Job, tables: Tables) -> Network | None:
    """The drain of the job; None where its sheet is gone or cannot be read: the log is shown all the same."""
    try:
        return network_of(read_site(job.site, tables), tables)
    except BadInput:
        return None


def line_of(
    entry: Entry,
    units: Units,
    table: StuckFile,
    reading: Reading | None = None,
    datum: Datum | None = None,
) -> str:
    """An entry in one line of words, times by the clock of this place; `reading` says how far in it was,
    `datum` from where lengths along a line count."""
    counter = "" if entry.counter is None else f" at {show_counter(entry.counter, units)}"
    if reading is not None and entry.kind != START:
        counter = f" at {reading.words(units)}"
    told = told_words(entry, units, table, datum)
    late = "" if entry.told_at == entry.happened_at else f", told {when(entry.told_at, seconds=True)}"
    at = f"{entry.number} {when(entry.happened_at, seconds=True)}{late}"
    return f"{at}: {kind_words(entry)}{counter}{': ' if told else ''}{told}"
