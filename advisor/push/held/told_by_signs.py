"""What the signs of a stop tell of it: its causes with their chances, and whether a rim holds the head."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from advisor.push.held.freeing import free_to_turn
from advisor.push.now.causes import Cause, causes_of
from advisor.push.now.course import Course, Met
from advisor.push.now.evidence import Tried, weights_of
from advisor.push.now.plight import Plight
from advisor.push.track.chart import Array
from advisor.tables.where import number

CROSSED, FAR_WALL, RIM = "crossed over", "far wall", "rim"  # causes of rules/signs/stuck.yaml
_NAMED = 3  # layout: how many causes are told where none is likely


@dataclass(frozen=True)
class ToldBySigns:
    """What a stop is by its signs and by what was tried at it."""

    weights: Array  # of the worlds, by all that passed and failed
    here: tuple[Tried, ...]  # what was tried at this place and did not pass it
    wedged: frozenset[str]  # techniques that wedged it there; where the plan has no hard place, at any such
    causes: tuple[Cause, ...]
    sure: tuple[Cause, ...]  # those that are likely
    named: tuple[Cause, ...]  # those that are told: the sure ones, else the first few
    elsewhere: bool  # it may be held by what another push told of, or in an arm that it ran across into
    at_rim: bool  # a rim or step was seen or felt
    by_rim: bool  # it likely holds the head, and no roots were seen there
    clean: bool  # and what the lens shows hides none
    turned: tuple[Met, ...]  # runs marked for roots in which the rod may be turned all the same

    @property
    def chances(self) -> dict[str, float]:
        """Each cause's chance by the trouble that it is in the matrix of techniques."""
        return {cause.trouble: cause.chance for cause in self.causes}


def told_by_signs(
    course: Course,
    met: Met | None,
    signs: frozenset[str],
    tries: Sequence[Tried],
    at: float,
    plight: Plight,
    may_be: Sequence[Met],
) -> ToldBySigns:
    """What holds the head, by these signs (names of rules/signs/stuck.yaml) and tries, `at` m from the hand,
    at a hard spot if one is met; `may_be` are hard spots of which one may hold it."""
    table, rim = course.study.tables.stuck, course.study.tables.in_pipe.rim_seen
    weights = weights_of(course, tries)
    lying = tuple((name, chance * (1 - plight.across)) for name, chance in plight.elsewhere)
    if plight.across:
        lying = (*lying, (CROSSED, plight.across))
    without = (FAR_WALL,) if plight.no_wall else ()
    spot, near = met.name if met else "", number(course.study.tables.where.stopped.spread)
    here = tuple(tried for tried in tries if not tried.passed and tried.made_at(spot, at, near))
    failed = () if plight.out else here
    causes = causes_of(course, met, signs, weights, plight.out, lying, plight.near, without, failed)
    sure = tuple(cause for cause in causes if cause.chance >= number(table.tell.likely))
    at_rim = not signs.isdisjoint(rim.signs)
    by_rim = at_rim and not plight.out and signs.isdisjoint(rim.cut)
    by_rim = by_rim and any(cause.name == RIM for cause in sure)
    clean = by_rim and signs.isdisjoint(rim.hides)
    return ToldBySigns(
        weights,
        here,
        frozenset(tried.technique for tried in tries if tried.wedged and tried.spot == spot),
        causes,
        sure,
        sure or tuple(cause for cause in causes if cause.drawn)[:_NAMED],
        bool(lying),
        at_rim,
        by_rim,
        clean,
        free_to_turn((*may_be, *plight.through), plight, course.study) if clean else (),
    )
