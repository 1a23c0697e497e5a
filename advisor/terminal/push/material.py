"""What was told of the pipe's material, where the screen speaks of what the plan holds or fears of it."""

from __future__ import annotations

from advisor.push.log.sighting import MATERIAL, Seen
from advisor.push.now.now import Now
from advisor.push.now.told_material import told_material
from advisor.push.track.landmarks import Landmark
from advisor.result.model import CautionNote
from advisor.tables.where import number
from advisor.terminal.push.words import IF_ON_MAP, Words


def heeded(note: CautionNote, now: Now, words: Words) -> str:
    """A notice; of another material than the lens was told to have come into, with that before it."""
    told, tables = told_material(now), now.push.study.tables
    fragile = [name for name, row in tables.materials.items() if row.fragile]
    if told is None or not told.other_than(note.id, fragile):
        return note.text
    reading = words.length(told.reading)
    return tables.in_pipe.told_material.notice.format(reading=reading, material=told.name, text=note.text)


def held_of(now: Now) -> str:
    """Of which pipe it is that conditions are told: of one that is not on the map the plan holds nothing."""
    if (told := told_material(now)) is None:
        pipe = "it" if now.off_map else "this pipe"
        holds = f"What the plan holds of {pipe}, before anything was seen:"
    else:
        row, reading = now.push.study.tables.in_pipe.told_material, Words(now).length(told.reading)
        holds = row.holds.format(material=told.name, reading=reading)
    return f"{IF_ON_MAP}: {holds[:1].lower()}{holds[1:]}" if now.off_map else holds


def change_seen(mark: Landmark, seen: Seen, now: Now, words: Words) -> tuple[str, str | None] | None:
    """What a change of material is called that was told before the lens, and what to say where the sheet has
    another there; nothing where nobody told to what."""
    if mark.kind != MATERIAL or not seen.material:
        return None
    tables, row = now.push.study.tables, now.push.study.tables.in_pipe.told_material
    name, to = tables.material_name(seen.material), dict(mark.to)
    like = next((each for each in row.alike if name in each), (name,))
    told = words.call(name)
    if sum(to.get(each, 0.0) for each in like) > number(row.hardly):
        return row.change.format(told=told), None
    drawn = words.material(mark)
    return row.other.format(drawn=drawn), row.slip.format(drawn=drawn, told=told)
