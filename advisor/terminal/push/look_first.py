"""Whether the line drains, seen before any fixture is run: a cup, a jug, a short run, and a watcher."""

from __future__ import annotations

from advisor.push.log.sighting import is_wet
from advisor.push.now.cup_here import tells_here
from advisor.push.now.now import Now
from advisor.push.now.watched import from_stairs, mains_live
from advisor.terminal.choose import BACK, Choice, choose
from advisor.terminal.page import Page

_INDOORS = ("floor", "wall", "fixture", "pit")  # where an opening may be in the cellar
_CUP = ("into", "why", "run", "then")  # what the steps say of it


def to_be_seen(now: Now) -> bool:
    """Whether it is still to be seen, and may be: never with a cleaner in the line."""
    return now.doubtful and not now.push.study.circumstances.chemicals


def look_first(now: Now, page: Page) -> bool | None:
    """How it is seen, in order, and what came of it: it ran away, it stands or rose, or nothing was told."""
    study = now.push.study
    row = study.tables.in_pipe.drained_before
    cup = _poured_into(now)
    said = {"look_into": study.look_into, "watch": _watched(now), **(cup or dict.fromkeys(_CUP, ""))}
    wet = any(is_wet(now.entries[place]) for place in now.stops)
    first, *then = (step.format(**said) for step in row.steps)
    then = then if cup is not None else [row.no_cup.format(opening=now.push.opening.name)]
    page.steps([*([row.falls] if wet else []), first, *from_stairs(study), *then])
    # Where no cup tells it, none gives leave for anything.
    ran = () if cup is None else (Choice("y", row.ran_away.format(run=row.poured[cup["run"] != row.run])),)
    choices = (*ran, Choice("n", row.stands), Choice("d", row.not_looked, also="?"))
    told = {"y": True, "n": False}.get(key := choose(page, row.asked, choices, (BACK,)))
    if told is None and key != BACK.key:
        page.line(row.none_noted)
    return told


def _watched(now: Now) -> str:
    """Where it would come up: the opening in use is open, and may be the lowest of all; none on a roof is."""
    study = now.push.study
    high, row = study.site_facts["site.stands_high"], study.tables.in_pipe.drained_before
    looked = row.all_of_these if high else study.look_into
    if _place(now) == "roof":
        return looked
    return f"{looked} and {now.push.opening.name}, which stands open,"


def _poured_into(now: Now) -> dict[str, str] | None:
    """What runs past the place that may hold it: elsewhere a cup tells nothing. None where nothing may take
    it: not what backs up or is slow, whatever ran away since, nor what lies lowest, where it comes up."""
    push, row = now.push, now.push.study.tables.in_pipe.drained_before
    off = {*push.laundry, *now.line.not_into, *now.line.lowest, push.opening.name}  # the rod is in there
    above = now.not_to_run or frozenset(push.smallest)
    then = {"then": row.then_none if now.line.none_left else row.then_one}
    names = [name for name in push.smallest if name in above and name not in off]
    if names:
        told = " or ".join(filter(None, (", ".join(names[:-1]), *names[-1:])))
        return {"into": f"the {told}", "why": "", "run": row.run, **then}
    if _place(now) == "roof" or not tells_here(now):
        return None
    live = row.live_there if mains_live(push.study) and _place(now) in _INDOORS else ""
    into = row.into_opening.format(opening=push.opening.name)
    return {"into": into, "why": f"{row.no_fixture}{live}", "run": row.run_there, **then}


def _place(now: Now) -> str:
    hole = now.push.opening.hole
    assert hole is not None
    return now.push.study.tables.openings[hole.kind].place
