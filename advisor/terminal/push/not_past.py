"""What the head must not go past, on the screen: far off in a line, near it in a box of its own."""

from __future__ import annotations

from advisor.push.before.limit import Limit
from advisor.push.now.now import Now
from advisor.result.beyond import stop_at, turn_before
from advisor.result.model import SightNote
from advisor.result.sights import sight_notes
from advisor.terminal.page import Page
from advisor.terminal.push.words import Words


def show_not_past(limit: Limit, now: Now, page: Page, words: Words) -> None:
    """Which it is and at which readings; what it does to the head and what to do instead."""
    stop, told = limit.stop, now.push.study.tables.where.not_past
    if limit.other is not None:
        name = f"{limit.other.what[:1].upper()}{limit.other.what[1:]}."
        page.boxed("not past here", [name, told.seen, limit.other.do])
        return
    if stop is None:
        return
    at, name = f"counter {words.length(stop.low)} to {words.length(stop.high)}", stop_name(limit, words)
    if words.far(stop.slow_from) and not limit.seen:
        if stop.holds is not None:
            page.line(f"Not past: {name}, {at}. It holds the head. Slow from {words.length(stop.slow_from)}.")
        return
    texts = [f"Slow. {name[:1].upper()}{name[1:]}, {at}.", "Stop short of it."]
    if now.counter >= stop.low:  # whoever is in the span cannot stop short of it but by the lens
        texts[1] = told.within
    if limit.seen or limit.water:
        texts[1] = told.seen if limit.seen else told.water
    elif not limit.within and (turn := _turn(limit, now)) is not None:
        row, on = now.push.study.tables.card.from_turn, words.length(turn.to_stop_m or 0.0)
        texts.append(row.format(seen=turn.name, on=on))
    if stop.holds is not None:
        kind = now.push.study.tables.stoppers[stop.holds]
        instead = kind.told_instead(stop.piece.shut_beside)
        texts += ["It holds the head.", kind.why, *filter(None, (instead,))]
    page.boxed("not past here", texts)


def _turn(limit: Limit, now: Now) -> SightNote | None:
    """The last turn of the way planned before it: what the head may go on from there is known better."""
    wanted, study = now.push.course.wanted, now.push.study
    found = None if wanted is None else stop_at(wanted, study)
    if wanted is None or found is None or limit.stop is None or found.piece.id != limit.stop.piece.id:
        return None
    return turn_before(sight_notes(wanted, study), found.leasts[0])


def stop_name(limit: Limit, words: Words) -> str:
    """What it is called."""
    assert limit.stop is not None
    return words.call(limit.stop.holds or limit.stop.piece.name)
