"""What holds a head that goes no further: causes, and the signs by which they are told."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import Literal

from pydantic import Field, model_validator

from advisor.strict_yaml.model import nearest
from advisor.tables.entry import Count, Graded, Length, Row, TableFile

# What the planner works out at a hard spot: ends of a steady push, and what forbids or outlasts it.
Planned = Literal[
    "far_wall",
    "rod_end",
    "folds",
    "wrong_way",
    "crosses",
    "jams",
    "ledge",
    "reach",
    "bore",
    "roots",
    "stopper",
]


class SignRow(Row):
    """A sign, seen by eye or felt by hand, and its chance where a cause says nothing of it.

    `warns` are cautions of the site, by their ids, that are told with it: everywhere, or only where the plan
    has no hard place that would explain it. `water` is whether what is seen lets water by. `of` is the sign
    that this one tells apart: its chances are shares of that one's. `not with` it are signs that one lens
    cannot show at once with it.
    """

    by: Literal["eye", "hand"]
    words: str
    unseen: Count
    warns: tuple[str, ...] = ()
    warns_at: Literal["anywhere", "no hard place"] = Field("anywhere", alias="warns at")
    water: Literal["held", "free", "not known"] = "not known"
    of: str | None = None
    not_with: tuple[str, ...] = Field((), alias="not with")


class ToldRow(Row):
    """What a cause is called, and why it holds, once a sign tells which kind of thing it is."""

    words: str
    why: str


class CauseRow(Row):
    """A cause: the mechanics behind it, its usual share, and the chance of each sign given it.

    `explained_by` are troubles beside its own whose rules tell how a push comes to it; `told` are its
    words once a sign tells what it is.
    """

    words: str
    why: str
    told: dict[str, ToldRow] = Field(default_factory=dict)
    planned: Planned | None = None
    trouble: str
    explained_by: tuple[str, ...] = Field((), alias="explained by")
    usual: Count
    needs: Literal["turn", "branch", "way out of a branch"] | None = None
    there: bool = False
    signs: dict[str, Count]


class GentleStep(Row):
    """A step; where it is a `technique`, it goes when that is forbidden.

    One that `draws` the head back so far is told in the words of `nearer` where that would draw it out.
    """

    do: str
    technique: str | None = None
    draws: Length | None = None
    nearer: str = ""


class GentleRow(Graded):
    """At these signs the steps come before any try, and every try comes before the blows."""

    signs: tuple[str, ...]
    blows: tuple[str, ...]
    steps: tuple[GentleStep, ...]


class FreeRow(Graded):
    """At these signs the head is freed before anything else; `stop` says so."""

    signs: tuple[str, ...]
    stop: str


class FreeFirstRow(FreeRow):
    """`back` is to be looked at once rod came back of such a head, `home` before it goes in again.

    `plan` tells that with every plan of the job, `looked` asks it where that gear is to go in.
    """

    back: str
    home: str
    plan: str
    looked: str


class EasedRow(FreeRow):
    """Causes on the way out that a little push in undoes, where one of the signs was seen there."""

    causes: tuple[str, ...]


class RiggedRow(Graded):
    """What to do first for `techniques` that are put on outside the pipe.

    `head_out` are those for which all of the rod is drawn out: whoever tells one of them is `asked` that.
    """

    techniques: tuple[str, ...]
    do: str
    head_out: tuple[str, ...] = Field(alias="head out")
    asked: str
    not_out: str = Field(alias="not out")


class AgainstRow(Graded):
    """What to say of a try that was made though it was told not to; `look` where it may be pushed on.

    `no_hard_push` are cautions of the site, by their ids, that forbid a hard push, each with what one may do.
    """

    barred: str
    hard: str
    on: str
    no_hard_push: dict[str, str] = Field(alias="no hard push")
    look: str
    out: str


class MayBeStopperRow(Graded):
    """Where a trap, valve or tank may begin: signs that show something `other`, and `stop` without them."""

    other: tuple[str, ...]
    stop: str


class CleanedRow(Graded):
    """Signs of what can be cleaned away, and why nothing is where none of them is told."""

    signs: tuple[str, ...]
    why: str


class WayRow(Row):
    """A step of the way out, and the techniques that it is made of."""

    uses: tuple[str, ...]
    do: str


class WayOutRow(Graded):
    """Steps of the way out; of each kind the first is told that needs nothing that is forbidden.

    `nor_then` is said besides `no_water` where nobody knows yet whether the line drains. `stays` is the last:
    it sends nobody to an opening, for the next plan bars what gear lies in.
    """

    holds: tuple[WayRow, ...]
    string: tuple[WayRow, ...]
    rim: tuple[WayRow, ...]
    no_water: str = Field(alias="no water")
    nor_then: str = Field(alias="nor then")
    stays: str


class AgainRow(Graded):
    """What to do at a stop to which the head comes anew; `not_past` are causes at which push does no good.

    `plan_stop` and `plan_gently` stand in a plan made from before it, `untold` where its chances do not know;
    `left`, `left_passed` and `left_cleared` with every plan of the job; `what` it is called and `see` in a
    row, `missed` if it does not come, where no head goes past it; `instead` where every way ends so.
    """

    not_past: tuple[str, ...] = Field(alias="not past")
    stop: str
    gently: str
    passed: str
    cleared: str
    plan_stop: str = Field(alias="plan, not past")
    plan_gently: str = Field(alias="plan, gently")
    untold: str
    left: str
    left_passed: str = Field(alias="left, passed")
    left_cleared: str = Field(alias="left, cleared")
    what: str
    see: str
    missed: str
    instead: str


class ThroatRow(Graded):
    """What to say where the head went the wrong way in; `techniques` are those that choose a way."""

    techniques: tuple[str, ...]
    two: str
    back: str
    again: str
    one: str
    channel: str


class TellRow(Row):
    """From when on what is said."""

    likely: Count
    open: Count
    here: Count
    others: Count
    turn_near: Length = Field(alias="turn near")
    hard_pull: Count
    kinked_pull: Count


class StuckFile(TableFile):
    """rules/signs/stuck.yaml."""

    grade: str
    source: str
    signs: dict[str, SignRow]
    causes: dict[str, CauseRow]
    causes_out: dict[str, CauseRow] = Field(alias="causes on the way out")
    first: dict[str, tuple[GentleStep, ...]]
    not_clear: tuple[GentleStep, ...] = Field(alias="not clear")
    gentle_first: GentleRow = Field(alias="gentle first")
    free_first: FreeFirstRow = Field(alias="free first")
    eased_in: EasedRow = Field(alias="eased in")
    tried_against: AgainstRow = Field(alias="tried against")
    rigged_outside: RiggedRow = Field(alias="rigged outside")
    may_be_stopper: MayBeStopperRow = Field(alias="may be a stopper")
    cleaned: CleanedRow = Field(alias="cleaned once known")
    no_push_in: tuple[str, ...] = Field(alias="no push in")
    way_out: WayOutRow = Field(alias="way out")
    nothing_won: tuple[str, ...] = Field(alias="nothing won")
    lie_in_pipe: tuple[str, ...] = Field(alias="lie in the pipe")
    not_drawn: str = Field(alias="not drawn")
    met_again: AgainRow = Field(alias="met again")
    other_throat: ThroatRow = Field(alias="other throat")
    water_held: str = Field(alias="water held")
    tell: TellRow

    @model_validator(mode="after")
    def _names_known(self) -> StuckFile:
        wrong = list(self._unknown())
        if wrong:
            raise ValueError("; ".join(wrong))
        return self

    def _unknown(self) -> Iterator[str]:
        for name, row in self.signs.items():
            if row.of is not None and (row.of not in self.signs or self.signs[row.of].by != row.by):
                yield f"{name!r}: told apart of {row.of!r}, which is no sign of the same kind"
            for sign in row.not_with:
                if sign not in self.signs:
                    yield f"{name!r}: not with {sign!r}{nearest(sign, list(self.signs))}"
        for name, cause in (*self.causes.items(), *self.causes_out.items()):
            for sign in (*cause.signs, *cause.told):
                if sign not in self.signs:
                    yield f"{name!r}: no sign {sign!r}{nearest(sign, list(self.signs))}"
        told = (
            self.gentle_first.signs,
            self.free_first.signs,
            self.eased_in.signs,
            self.may_be_stopper.other,
            self.cleaned.signs,
        )
        for sign in chain(*told):
            if sign not in self.signs:
                yield f"first at a sign: no sign {sign!r}{nearest(sign, list(self.signs))}"
        for rows in (self.way_out.holds, self.way_out.string, self.way_out.rim):
            if not rows or rows[-1].uses:
                yield "way out: the last step of each kind must need nothing, for something is to be said"
        for name in (
            *self.first,
            *self.nothing_won,
            *self.no_push_in,
            *self.met_again.not_past,
            *self.lie_in_pipe,
        ):
            if name not in self.causes:
                yield f"what to do at a cause: no cause {name!r}{nearest(name, list(self.causes))}"
        for name in self.eased_in.causes:
            if name not in self.causes_out:
                yield f"eased in: no cause {name!r}{nearest(name, list(self.causes_out))}"
