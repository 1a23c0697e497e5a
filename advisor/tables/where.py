"""What each sighting of a push is worth for telling where the head is."""

from __future__ import annotations

from typing import Literal, get_args

from pydantic import Field, model_validator

from advisor.quantity import Estimate, Known
from advisor.tables.entry import Count, Graded, Length, Quantity, Row, TableFile

Seen = Literal["tie-in", "bend", "bore", "material", "two mouths", "chamber", "standing water", "trap", "end"]
MapQuality = Literal["measured", "sketch", "guess"]
StopAt = Literal["bend", "turn", "tie-in", "rim", "stopper", "other"]


class Travel(Row):
    """How counter, rod and head hang together; lengths in m, wander in m2 for each m pushed."""

    cell: Length
    counter_off: Count
    slips: Count
    told_again: Count
    counter_steps: Count
    rod_lag: Count
    least_wander: Length
    wander: dict[MapQuality, Count]
    past_end: Count
    beyond_map: Length
    longer: dict[MapQuality, Count]
    stride: Length


class SeenRow(Row):
    """One kind of landmark: logged when passed, logged falsely a metre, met a metre of an unknown pipe."""

    p: Count
    false: Count
    off_map: Count = Field(alias="off map")
    spread: Length


class ClockRow(Row):
    """How clock positions are read off; the spread in hours."""

    right: Count
    spread: Count
    at_side: Count
    one_look: Count
    turned: Count


class SizeRow(Row):
    """How sizes are read off; spread and range of their natural logarithm."""

    right: Count
    assumed: Count
    spread: Count
    range: Count


class WaterRow(Row):
    """When water of a fixture comes by; seconds and m/s."""

    arrives: Count
    elsewhere: Count
    in_unknown: Count
    start: Quantity
    speed: Quantity
    spread: Count
    wait: Quantity
    side_right: Count
    dye_elsewhere: Count
    dye_wait: Quantity


class StoppedRow(Row):
    """Where heads stop: chances at each kind of place, and a metre elsewhere."""

    anywhere: Count
    at_end: Count
    end_spread: Length
    rim_at_end: Count
    spread: Length
    off_map: Count
    at_most: Count
    chances: dict[StopAt, Count]


class ForksRow(Row):
    """Which way a head goes at a fork."""

    with_flow_straight: Count
    back_into_sweep: Count
    against_flow_straight: Count
    from_branch_down: Count
    from_square_down: Count
    as_planned: Count
    first_way: Count


class OffMapRow(Row):
    """How likely a pipe is that nobody has drawn, and from when on it is told."""

    at_start: Count
    each_metre: Count
    told_from: Count


class SureRow(Row):
    """What is said at which certainty."""

    near: Length
    name_two_below: Count
    check_below: Count
    name_landmark: Count
    tell_next: Count
    warn_before: Length
    other_way: Count
    loose: Length
    certain: Count
    one_thing: Count
    common: Count
    on_sheet: Count
    at: Length
    far_back: Length
    far_ahead: Length
    point_left_out: Length
    spread: Length
    contrary: Count
    contradicted: Count
    few_left: Count
    sheet_off: Count
    must_pass: Count
    above_stop: Count
    settles: Count

    def may_part(self, at: float) -> float:
        """How far counter and sheet may part so far in, m, and both be right."""
        return max(number(self.sheet_off) * at, number(self.near))


class NotPastRow(Graded):
    """What to say where a trap, valve or tank may begin: `water` and `seen` as the one before the lens.

    `push` stands at a hard place there, `unseen` with a landmark that may come behind where it may begin.
    """

    within: str
    unless: str
    unseen: str
    water: str
    seen: str
    push: str
    next: str


class AcrossRow(Graded):
    """What to say of a head that may have run across a double fitting, and of water from that arm.

    Where counter and sheet part, `fits` says where in the arm the counter has it, `no_fit` that nowhere.
    `report` is what became of a try that led there.
    """

    says: str
    do: str
    fits: str
    no_fit: str = Field(alias="no fit")
    report: str
    splash: str


class ContraryRow(Graded):
    """What to say of water that came as it cannot: from a `side`, or off its `path`; then what settles it.

    `opening` is what else may be wrong where the opening leads two ways; `back` what settles it where it does
    not.
    """

    side: str
    path: str
    opening: str
    again: str
    look: str
    back: str
    until: str


class MachineEndRow(Graded):
    """What to say of the end of a machine run ahead: while it is far, near it, and in the report."""

    far: str
    near: str
    report: str


class ToolRow(Graded):
    """What to say of a tool told to be lost in there: while the head goes on, where it is held, in the report
    and `first` of what that recommends."""

    ahead: str
    held: str
    report: str
    first: str


class LightRow(Graded):
    """What to say of light from above: when told, once pushed on `past` it, and where there is a tank."""

    says: str
    past: str
    tank: str


class ToldRow(Graded):
    """What to say of something that was told."""

    says: str


class DepthRow(Row):
    """When a depth that was read above ground is none to dig by."""

    agree: Count
    ground: Length
    loose: Count
    deepest: Length


class ChecksRow(Row):
    """Minutes of a check."""

    water: Count
    dye: Count


class WhereFile(TableFile):
    """rules/signs/where.yaml."""

    grade: str
    source: str
    travel: Travel
    seen: dict[Seen, SeenRow]
    undrawn: dict[MapQuality, Count]
    clock: ClockRow
    size: SizeRow
    water: WaterRow
    stopped: StoppedRow
    forks: ForksRow
    off_map: OffMapRow
    sure: SureRow
    chamber_as_tie_in: Count
    checks: ChecksRow
    depth: DepthRow
    not_past: NotPastRow = Field(alias="not past")
    across: AcrossRow = Field(alias="across a double fitting")
    contrary: ContraryRow
    machine_end: MachineEndRow = Field(alias="machine ends ahead")
    tool_lost: ToolRow = Field(alias="tool in the pipe")
    in_water: ToldRow = Field(alias="in water")
    light_above: LightRow = Field(alias="light from above")
    told_holds: Quantity = Field(alias="told holds")

    @model_validator(mode="after")
    def _whole(self) -> WhereFile:
        for row, names, has in (
            ("travel: wander", get_args(MapQuality), self.travel.wander),
            ("travel: longer", get_args(MapQuality), self.travel.longer),
            ("seen", get_args(Seen), self.seen),
            ("undrawn", get_args(MapQuality), self.undrawn),
            ("stopped: chances", get_args(StopAt), self.stopped.chances),
        ):
            for name in names:
                if name not in has:
                    raise ValueError(f"{row}: {name!r} is missing")
        return self


def number(belief: Known | Estimate) -> float:
    """The likely value: the filter takes each of these numbers as one."""
    return belief.likely
