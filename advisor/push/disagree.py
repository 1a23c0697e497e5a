"""Where a push and its plan part."""

from __future__ import annotations

import numpy as np

from advisor.push.held_now import held_now, plight_of
from advisor.push.now.across import across
from advisor.push.now.course import mean
from advisor.push.now.here import likely_here, may_be_in
from advisor.push.now.now import Now
from advisor.quantity import show_counter
from advisor.site.mouths import has_channel


def disagree(now: Now) -> tuple[str, ...]:
    """What came otherwise than planned, in words; nothing while it goes as planned."""
    course, drawn = now.push.course, now.push.study.drawn
    ones = np.ones(now.push.study.worlds)
    spots = {met.name: met for met in reversed(course.spots)}
    found = []
    for tried in now.tries:
        met = spots.get(tried.spot)
        if met is None:
            continue
        foreseen = mean(met.hard.with_techniques, ones)
        if tried.passed and foreseen < drawn.likely("unlikely_share"):
            found.append(f"It passed the {met.name}, which was thought unlikely.")
        failed = sum(t.spot == tried.spot and not t.passed for t in now.tries)
        if not tried.passed and failed > 1 and foreseen > drawn.likely("likely_share"):
            found.append(f"It was held {failed} times at the {met.name}, which was thought likely to pass.")
    met, held = now.held_at
    stop = held_now(now)
    by_rim = stop is not None and stop.by_rim and not stop.spot
    if held and now.on_way_out:
        found.append("It is held on the way back.")
    elif by_rim and now.rooted is not None:
        rim = now.push.study.tables.in_pipe.rim_seen
        found.append(f"It is {rim.held.format(name=now.rooted.name)}.")
    elif held and met is None and now.rooted is not None:
        found.append(f"It is held along the {now.rooted.name}, which was thought unlikely.")
    elif held and met is None and (run := may_be_in(now)) is not None:
        rim = now.push.study.tables.in_pipe.rim_seen
        along = f"It may be held along the {run.name}, which was thought unlikely."
        found.append(f"It is {rim.held_perhaps.format(name=run.name)}." if by_rim else along)
    elif held and met is None:
        where = "may be held" if likely_here(now).spots else "is held"
        found.append(f"It {where} where the plan has no hard place.")
    told = now.push.study.tables.in_pipe.rod_in_roots
    found += [
        told.parted.format(reading=show_counter(reading, now.push.study.units))
        for reading in plight_of(now).roots
    ]
    if now.wrong_port is not None:
        opening, tables = now.push.opening, now.push.study.tables
        channel = "The head is most likely in another mouth of {} than planned."
        other = channel if has_channel(opening, tables) else "{} leads the other way than planned."
        found.append(other.format(opening.name))
    over = across(now.push.tracker, now.belief)
    if over is not None and over.likely(now.push.study.tables) and not now.push.course.leads_into(over.arm):
        found.append(f"It may have run straight across the double fitting into {over.arm.name}.")
    if now.contrary is not None:
        water = now.contrary.water
        found.append(f"Water of the {water.fixture} did not come as it should where the head is said to be.")
    if now.off_map:
        found.append("It may be in a pipe that is not on your map.")
    return tuple(dict.fromkeys(found))
