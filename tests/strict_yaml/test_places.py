"""An entry that stands in the wrong place is told the place where it belongs."""

from __future__ import annotations

from typing import Annotated, Any

import pytest
from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag

from advisor.errors import BadInput
from advisor.site.sheet import site_of_text
from advisor.strict_yaml.model import sheet_of_text
from tests.cases.jobs import tables
from tests.site.test_faults import GOOD


class Row(BaseModel):
    model_config = ConfigDict(extra="forbid")


class Door(Row):
    door: str
    height: str = ""


class Wall(Row):
    wall: str
    thick: str = ""


class Story(Row):
    painted_on: str = Field(default="", alias="painted on")


class Task(Row):
    why: str = ""
    story: Story = Story()


Part = Annotated[
    Annotated[Door, Tag("door")] | Annotated[Wall, Tag("wall")],
    Discriminator(lambda value: next(iter(value))),
]


class Room(Row):
    room: str
    parts: tuple[Part, ...] = ()


class House(Row):
    house: str
    rooms: tuple[Room, ...] = ()
    task: Task = Task()
    colours: dict[str, Any] = {}


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("house: h\nstory: {}\n", "unknown entry 'story' here; it belongs inside `task`"),
        ("house: h\npainted on: x\n", "'painted on' here; it belongs inside `story` in `task`"),
        ("house: h\nheight: 2 m\n", "'height' here; it belongs beside `door`"),
        ("house: h\nparts: []\n", "'parts' here; it belongs in an entry of `rooms`"),
        ("house: h\ntask: {colours: {}}\n", "'colours' here; it belongs at the top of the sheet"),
        # Near to what may stand here, and just what may stand elsewhere: both are told.
        ("house: h\nroom: x\n", "did you mean 'rooms'? As it is written it belongs in an entry of `rooms`"),
        ("house: h\nrooms: [{room: r, parts: [{why: x}]}]\n", "As it is written it belongs inside `task`"),
    ],
)
def test_an_entry_out_of_its_place_is_told_its_place(text, message):
    with pytest.raises(BadInput) as wrong:
        sheet_of_text(text, House, "sheet")
    (fault,) = wrong.value.faults
    assert message in fault.message


def test_what_no_place_has_is_told_no_place():
    with pytest.raises(BadInput) as wrong:
        sheet_of_text("house: h\nzzz: x\n", House, "sheet")
    assert "belongs" not in str(wrong.value)


def test_history_at_the_top_of_a_site_sheet_belongs_inside_the_task():
    with pytest.raises(BadInput, match="unknown entry 'history' here; it belongs inside `task`"):
        site_of_text(GOOD + "history: {came back: [roots]}\n", "site", tables())
