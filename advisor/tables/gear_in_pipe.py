"""What is said of gear in the pipe: kinked, left there, lying in roots, or a machine beside it."""

from __future__ import annotations

from pydantic import Field

from advisor.tables.entry import Graded


class KinkedRow(Graded):
    """What to say once a try has kinked rod or spring: in the push, at home, in the report, later.

    `gone` and `sound` are told and asked where that gear is to go in again, `out` and `none` with a plan that
    leaves it out, `none` where no other is in the kit.
    """

    stop: str
    pull: str
    home: str
    report: str
    gone: str
    sound: str
    out: str
    none: str


class RodInRootsRow(Graded):
    """What to say once the head is past roots that held it: the rod lies in them."""

    why: str
    now: str
    uncut: str
    parted: str
    plan: str
    home: str


class RodLiesInRow(Graded):
    """What is said, before the reason, of a hard place that the rod lies through."""

    why: str


class MachineRunRow(Graded):
    """What is asked of a machine that was run, and what is said where a rod lay in the pipe (`rod_in`), or
    where what was told of it is too little to take a stop for cut; `stop` ends that push, `home` is told as
    it is drawn out."""

    outside: str
    rod_in: str = Field(alias="rod in")
    stop: str
    home: str
    opening: str
    way: str
    settles_nothing: str = Field(alias="settles nothing")


class LeftInRow(Graded):
    """What to say, at the end of a push, in the report and in every plan, of a head that stays in the pipe.

    `lies` tells it, `nothing`, `ways`, `gear` and `say_so` what no plan goes by till it is out, `no_push`
    that nothing is left to plan with, `why` of one opening; `asked` and `stop` where a push begins. `first`
    comes before what the report advises, `once` before each of it that sends something into the pipe.
    """

    home: str
    report: str
    first: str
    once: str
    lies: str
    nothing: str
    ways: str
    gear: str
    say_so: str = Field(alias="say so")
    no_push: str = Field(alias="no push")
    why: str
    asked: str
    stop: str
