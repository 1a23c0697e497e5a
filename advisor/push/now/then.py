"""The push as it was when the head stood at a reading: a find belongs there, wherever the head is now."""

from __future__ import annotations

from advisor.push.log.kinds import BACK, STOPPED
from advisor.push.log.log import Entry
from advisor.push.log.went_in import SAME_READING
from advisor.push.now.now import Now


def passed(now: Now) -> tuple[float, float]:
    """From which reading to which the lens has been in this push, m, as the counter stands now."""
    return max(0.0, -now.belief.shift), now.belief.furthest - now.belief.shift


def at_reading(now: Now, reading: float) -> Now | None:
    """The push with the head last at that reading; None where the lens has not been there."""
    first, last = passed(now)
    if not first - SAME_READING <= reading <= last + SAME_READING:
        return None
    rod = reading + now.belief.shift
    if abs(now.belief.rod - rod) <= SAME_READING:
        return now
    rods = (now.after(0).rod, *now.rods)
    upto = max((place for place, at in enumerate(rods) if at >= rod - SAME_READING), default=0)
    then = Now(now.push, now.entries[:upto])
    if rods[upto] - rod <= SAME_READING:
        return then
    drawn = Entry(0, now.push.began.told_at, now.push.began.told_at, BACK, rod - then.belief.shift, {})
    return Now(now.push, (*then.entries, drawn))


def stops_behind(now: Now) -> tuple[float, ...]:
    """Where the head was stopped and is no longer, as the counter stands now, m, the last first."""
    found = [belief.rod for entry, belief in now.told if entry.kind == STOPPED]
    left = (rod - now.belief.shift for rod in reversed(found) if abs(rod - now.belief.rod) > SAME_READING)
    return tuple(dict.fromkeys(left))
