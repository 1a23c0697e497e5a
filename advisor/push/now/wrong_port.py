"""The mouth by which the plan goes in, where the head was found to have gone in by another."""

from __future__ import annotations

from advisor.push.now.course import Course
from advisor.push.track.track import Belief, Tracker
from advisor.site.mouths import Mouth, has_channel, mouth_by, surely_in_chamber
from advisor.tables.where import number


def wrong_port(tracker: Tracker, course: Course, belief: Belief, most: float) -> Mouth | None:
    """That mouth; None where the head may have gone in by it, or no way is wanted. No surer than `most`.

    In an open channel it is told from when on another mouth alone would be named, by something that was seen
    and not by what was not. What perhaps joins in a closed pipe beside the chamber is no mouth to lay a head
    into: of that only the port counts.
    """
    if course.wanted is None:
        return None
    chart, study = tracker.chart, course.study
    planned = mouth_by(course.wanted.route.passages, study.tables)
    joins = study.network.pieces.get(planned.junction)
    by_port = joins is not None and not surely_in_chamber(joins, study.tables)
    planned = Mouth(planned.port) if by_port else planned
    shares: dict[Mouth, float] = {}
    for way, share in zip(chart.ways, belief.mass.sum(axis=(0, 2)), strict=True):
        mouth = Mouth(way.port) if by_port else way.mouth
        shares[mouth] = shares.get(mouth, 0.0) + float(share)
    total = sum(shares.values())
    if not total > 0:
        return None
    if max(shares.pop(planned, 0.0) / total, 1 - most) < number(chart.where.sure.other_way):
        return planned
    other = min(max(shares.values(), default=0.0) / total, most)
    channel = bool(belief.things) and has_channel(course.opening, study.tables) and not by_port
    return planned if channel and other >= number(chart.where.sure.name_two_below) else None
