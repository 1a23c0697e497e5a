"""How sure the place of a find or mark is: what the tracker knew of it when it was told, kept in the log."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from advisor.push.log.kinds import Value
from advisor.push.log.log import Entry, entry_number, entry_text
from advisor.push.now.now import Now
from advisor.push.now.ran_otherwise import ran_otherwise
from advisor.push.now.since import Since, ends_way, since, sure_of
from advisor.push.report.advice import Advice
from advisor.push.track.fix import Fix, warned
from advisor.quantity import Dimension, Units, show, show_counter
from advisor.site.network import Network
from advisor.tables.where import number


@dataclass(frozen=True)
class Doubt:
    """`sure`: the chance of the pipe named and of what it is counted from, as the screen tells it; 80 % of it
    lies `low` to `high` m down the line by the sheet.

    `run` is the m of counter from `past`, what was seen before it in the same push, `off` m either way;
    `ends`, whether that ends the way of a head. What an older log does not hold is None.
    """

    sure: float | None
    low: float | None
    high: float | None
    past: str | None
    run: float | None
    off: float | None
    ends: bool = False
    somewhere: bool = False  # the screen told its span alone: the sheet's middle ran otherwise than the rod

    def broad(self, advice: Advice) -> bool:
        """Whether nobody may dig before it is located above ground."""
        if self.sure is None:
            return False  # told by the operator, not by the tracker
        if self.low is None or self.high is None or self.sure < advice.digs_from:
            return True
        return self.high - self.low > advice.broad

    def words(
        self,
        units: Units,
        place: str,
        between: Callable[[float, float], str],
        span: Callable[[float, float], str] | None = None,
    ) -> tuple[str, ...]:
        """A place with its range by the sheet and its chance, and the place by the counter; where the screen
        told its `span` alone, so here."""
        if self.sure is None:
            return (place,)
        sure = f"{show(self.sure, Dimension.SHARE, units)} sure of the pipe"
        if self.low is None or self.high is None:
            found = [f"by the sheet {place}", f"{sure}, its range is not in the log"]
        elif self.somewhere and span is not None:
            found = [f"by the sheet somewhere {span(self.low, self.high)}", sure]
        else:
            found = [f"by the sheet {place} ({between(self.low, self.high)}), {sure}"]
        if self.past is not None and self.run is not None and self.off is not None:
            low, high = self.run - self.off, self.run + self.off
            found.append(f"by the counter {self._from(self.past, low, high, units)}")
        return tuple(found)

    def _from(self, past: str, low: float, high: float, units: Units) -> str:
        least, most = (show_counter(abs(each), units) for each in (low, high))
        if self.ends and low > 0:
            return f"{least} to {most} more than where {past} was seen, and no head stands past that"
        if self.ends or high <= 0:
            return f"{show_counter(max(-high, 0.0), units)} to {least} short of {past}"
        return f"{least} to {most} past {past}" if low >= 0 else f"{least} short of {past} to {most} past it"


NONE = Doubt(None, None, None, None, None, None)


def doubt_now(now: Now) -> Mapping[str, Value]:
    """What is put into the log of how sure the place is."""
    found = doubt_at(now, now.fix, since(now, counts_from(now)))
    return {**found, "somewhere": True} if "low" in found and _span_alone(now) else found


def _span_alone(now: Now) -> bool:
    """Whether the screen tells no one figure by the sheet: it may lie far about, and is at nothing seen."""
    best, seen = now.fix.best, since(now)
    wide = abs(best.high - best.low) > number(now.push.tracker.chart.where.sure.spread)
    at_it = seen is not None and abs(seen.run) <= seen.off
    return wide and not at_it and ran_otherwise(now, seen)


def counts_from(now: Now) -> float:
    """How likely a landmark has to be the one it is called, for a place to be written down as counted from
    it: beside the opening its chance is told, but whoever digs reads it as what was seen."""
    return number(now.push.tracker.chart.where.sure.check_below)


def doubt_at(now: Now, fix: Fix, anchor: Since | None) -> Mapping[str, Value]:
    """The same of a place of the push, counted from an `anchor` that was seen in it."""
    best = fix.best
    found: dict[str, Value] = {"sure": sure_of(best, anchor)}
    if place_at(now, fix):
        found |= {"low": min(best.low, best.high), "high": max(best.low, best.high)}
    if anchor is not None:
        found |= {"past": anchor.name, "run": anchor.run, "off": anchor.off}
    return found


def place_at(now: Now, fix: Fix) -> Mapping[str, Value]:
    """The line and how far down it; nothing of a pipe that is not on the map."""
    best = fix.best
    if best.line not in now.push.study.network.lines or warned(now.push.tracker, fix):
        return {}
    return {"line": best.line, "distance": best.at}


def doubt_of(entry: Entry, network: Network) -> Doubt:
    """What an entry holds of it."""
    sure, low, high, run, off = (entry_number(entry, name) for name in ("sure", "low", "high", "run", "off"))
    past = entry_text(entry, "past")
    ends = past is not None and ends_way(past, network)
    return Doubt(sure, low, high, past, run, off, ends, entry.data.get("somewhere") is True)
