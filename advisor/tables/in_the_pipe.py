"""rules/signs/in_the_pipe.yaml: what is said of gear in the pipe, and of what a push met before."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from advisor.tables.entry import Count, Graded, Row, TableFile
from advisor.tables.found_before import FoundBeforeRow, UndrawnRow
from advisor.tables.gear_in_pipe import KinkedRow, LeftInRow, MachineRunRow, RodInRootsRow, RodLiesInRow
from advisor.tables.stopped_before import StoppedBeforeRow


class OtherWayRow(Graded):
    """What to say, behind the opening, of a push whose way as told is in doubt: it is most likely the `other`
    one, or neither is sure; what to do before anybody digs for what lies there."""

    other: str
    unsure: str
    locate: str


class HeldOnWayInRow(Graded):
    """What to say on the way home of what held the head on the way in, or drawn `back`, or an earlier push.

    `left` is of the latter, with every plan of the job that goes in there.
    """

    home: str
    back: str
    earlier: str
    left: str


class WedgedRow(Graded):
    """What to say of a technique that wedged a head: in every plan of the job, and of a try `here` again.

    `again` ends it, or `gently` where it was an even push. `passed` is told where it came past what it was
    felt to come neither way at.
    """

    left: str
    passed: str
    again: str
    gently: str
    here: str


class TriedBeforeRow(Graded):
    """What came of a technique at a hard place in a push of the job; a stop that was passed is told `by`
    what, `gently` where that was an even push, with `in_roots` where the plan has roots, which bar it; `bare`
    of a guide, to gear that has none."""

    passed: str
    failed: str
    by: str
    bare: str
    in_roots: str = Field(alias="in roots")
    gently: str


class LeadsOtherwiseRow(Graded):
    """What a push found an opening with one throat to be: `left` is told with every plan, and before the next
    push is asked which way it leads, `followed` where that is told otherwise all the same."""

    what: str
    do: str
    followed: str
    left: str


class FromElsewhereRow(Graded):
    """What a push from another opening, or the other way, told of this pipe.

    `at` names a `stop`, `passed` or `cleared` since, or what was `seen`. `ahead` and `near` stand in the next
    push, `held` where the head is held there, `untold` in a plan made from before it; `do` is what to do.
    """

    stop: str
    passed: str
    cleared: str
    seen: str
    at: str
    do: str
    ahead: str
    near: str
    held: str
    untold: str


class ToldMaterialRow(Graded):
    """A material seen on the way: before a `notice` of another, and over what the plan `holds` of it.

    What it is told as where it was seen: a `change` that the sheet has or may have, or a place where the
    sheet has an `other` one, with what to say of a `slip`; those `alike` may be taken for one another.
    """

    notice: str
    holds: str
    alike: tuple[tuple[str, ...], ...]
    hardly: Count
    change: str
    other: str
    slip: str


class HardlyReachedRow(Graded):
    """A push told as having come to the end of what was to be seen, where counter and sheet speak against it.

    `told` is said before it is asked once more (`ask`), with how `short` it is where that is known; `report`
    is how the push is told to have ended.
    """

    told: str
    short: str
    ask: str
    report: str


class DrainedBeforeRow(Graded):
    """What is said with it that no water may be run after a stop, where the line was seen to drain before;
    `again` where such a push is gone on with. `not_cleaned` is why nothing is cleaned then; `cleaned`
    comes before it where only what is before the lens bars water. `look` is offered with the fixtures, as
    `how` and `key` say: its `steps`, and what came of them. `seen_earlier` and `stopped_earlier` tell what
    an earlier push met that may hold water back."""

    no_more: str = Field(alias="no more")
    again: str
    not_cleaned: str = Field(alias="not cleaned")
    cleaned: str
    how: str
    how_first: str = Field(alias="how first")
    key: str
    look: str
    seen_earlier: str = Field(alias="seen earlier")
    stopped_earlier: str = Field(alias="stopped earlier")
    steps: tuple[str, ...]
    then_one: str = Field(alias="then one")  # behind the last of them
    then_none: str = Field(alias="then none")
    asked: str
    ran_away: str = Field(alias="ran away")
    poured: tuple[str, str]
    stands: str
    not_looked: str = Field(alias="not looked")
    none_noted: str = Field(alias="none noted")
    stood: str  # why nothing is pushed on then
    ran_all_the_same: str = Field(alias="ran all the same")  # of one that ran though `tap` stood before it
    tap: str  # before a tap as a try, as `cleaned`, where what backs up was seen low with no water run
    still_look: str = Field(alias="still look")  # why it was not seen to drain then
    smallest_first: tuple[str, ...] = Field(alias="smallest first")  # fixtures, where water may come up
    pumped: tuple[str, ...]  # and after all others
    watched: str  # where it was seen to drain, as long as what backed it up is not surely cleared
    watched_met: str = Field(alias="watched met")  # the same, where nothing was told to back up by its name
    watched_cleared: str = Field(alias="watched cleared")  # and once it is
    none_left: str = Field(alias="none left")  # instead, where all of them back up or are slow
    none_to_run: str = Field(alias="none to run")  # what is asked then, and what may be told
    told_all_the_same: str = Field(alias="told all the same")
    first_see: str = Field(alias="first see")
    not_that: str = Field(alias="not that")  # of a fixture that backs up or is slow
    into_opening: str = Field(alias="into opening")  # what takes the cup
    no_fixture: str = Field(alias="no fixture")  # why it goes in there, with who pours where mains are live
    live_there: str = Field(alias="live there")
    run: str  # what follows the jug
    run_there: str = Field(alias="run there")
    all_of_these: str = Field(alias="all of these")
    no_cup: str = Field(alias="no cup")  # instead, where nothing may take it
    home_first: str = Field(alias="home first")  # before how it is run after a push, where it is to be seen
    home_last: str = Field(alias="home last")  # and behind it
    pool: str  # standing water, as what was seen
    falls: str  # before all else where the lens was told to be under water
    from_stairs: str = Field(alias="from stairs")


class CleanedThereRow(Graded):
    """How it is cleaned where no rule tells what lies on the wall."""

    steps: tuple[str, ...]


class RimSeenRow(Graded):
    """At these signs nothing that cuts or jets goes at it, as `no_machine` says, save for what is `cut`.

    With none of what `hides` it the rim is clean: where no roots were seen nor are likely the rod may be
    turned; `look` and `curl` stand before the steps of that, `in_roots` where the run's own bar is told, and
    `planned` where plan and card tell it. `further` stands there with each bar that is for roots; `held` is
    said of a head that a rim holds in a run that is marked for them, `held_perhaps` where it may be in one.
    """

    signs: tuple[str, ...]
    cut: tuple[str, ...]
    hides: tuple[str, ...]
    look: str
    curl: str
    in_roots: str = Field(alias="in roots")
    further: str
    held: str
    held_perhaps: str = Field(alias="held perhaps")
    planned: str
    no_machine: str = Field(alias="no machine")


class ComesFirstRow(Row):
    """What comes before another look, in a sentence and in few words for a card."""

    told: str
    card: str


class SeenWholeRow(Graded):
    """All of what the plan goes for was seen: `whole`; what is `left` of the rest, and how it is come at.

    `beyond` is told where a trap or tank lies between, with `shut` where what opens beside it does not. A
    card, which has no room to give away, tells it in few words.

    `part` is told of a part of it, `unseen` where nobody has looked yet, `edge` where on the counter that
    begins, `held` where a gentle push may come past what held the head, `on` where nothing held it. `comes
    first` is told of what was met before all of that, by its kind, with `then on` where more lies beyond,
    else `then there`, and its mark where it was `marked`; `instead` where what holds it was marked, `again`
    before the step that plans the same once more. `no roots` is told of a run in which some are expected,
    `roots left` where all of it was looked along.
    """

    whole: str
    part: str
    unseen: str
    edge: str
    comes_first: dict[Literal["held", "cleaned", "found", "trap", "end"], ComesFirstRow] = Field(
        alias="comes first"
    )
    then_on: str = Field(alias="then on")
    then_there: str = Field(alias="then there")
    marked: str
    held: str
    on: str
    instead: str
    again: str
    left: str
    beyond: str
    shut: str
    look_at: str = Field(alias="look at")
    card: str
    no_roots: str = Field(alias="no roots")
    roots_left: str = Field(alias="roots left")
    card_held: str = Field(alias="card held")
    card_left: str = Field(alias="card left")
    card_past: str = Field(alias="card past")


class InPipeFile(TableFile):
    """rules/signs/in_the_pipe.yaml."""

    kinked: KinkedRow
    left_in: LeftInRow = Field(alias="left in")
    other_way: OtherWayRow = Field(alias="other way")
    held_on_way_in: HeldOnWayInRow = Field(alias="held on the way in")
    drained_before: DrainedBeforeRow = Field(alias="drained before")
    cleaned_there: CleanedThereRow = Field(alias="cleaned there")
    rim_seen: RimSeenRow = Field(alias="rim seen")
    wedged_before: WedgedRow = Field(alias="wedged before")
    tried_before: TriedBeforeRow = Field(alias="tried before")
    stopped_before: StoppedBeforeRow = Field(alias="stopped before")
    found_before: FoundBeforeRow = Field(alias="found before")
    undrawn_bend: UndrawnRow = Field(alias="undrawn bend")
    undrawn_tie_in: UndrawnRow = Field(alias="undrawn tie-in")
    leads_otherwise: LeadsOtherwiseRow = Field(alias="leads otherwise")
    from_elsewhere: FromElsewhereRow = Field(alias="from elsewhere")
    told_material: ToldMaterialRow = Field(alias="told material")
    rod_in_roots: RodInRootsRow = Field(alias="rod in roots")
    machine_run: MachineRunRow = Field(alias="machine run")
    rod_lies_in: RodLiesInRow = Field(alias="rod lies in")
    hardly_reached: HardlyReachedRow = Field(alias="hardly reached")
    seen_whole: SeenWholeRow = Field(alias="seen whole")
