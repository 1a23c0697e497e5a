"""The head was lifted out of an open channel and led into a mouth of it anew: one push ends, another begins.

So what was passed before counts for the one that is over, and all of it stays in log and report.
"""

from __future__ import annotations

from dataclasses import dataclass

from advisor.push.log.kinds import ANEW, END, START, Value
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.redrawn import version_of
from advisor.push.now.now import Now
from advisor.site.mouths import has_channel

Told = tuple[str, float, dict[str, Value]]
_WHY = "lifted out of the channel, to be led in anew"
_KEPT = ("opening", "loadout", "target", "operator")


@dataclass(frozen=True)
class Led:
    """The direction as the log has it, and the `mouth`, where one was told, by the line that begins there."""

    direction: str
    mouth: str | None = None


def may_be_led_anew(now: Now) -> bool:
    """Whether it stands over an open channel with pipe both ways, and the gear is sound and comes back."""
    opening, study = now.push.opening, now.push.study
    both = {way.port for way in now.push.tracker.chart.ways} == {"down", "up"}
    return both and has_channel(opening, study.tables) and not now.kinked and not now.neither_way


def led_anew(now: Now, counter: float, led: Led) -> tuple[Told, Told]:
    """How the push that was ends and how the next begins; what was told of site and water goes on to hold."""
    began, study = now.push.began.data, now.push.study
    told = [entry_text(each, "told") for each in (now.push.began, *now.entries) if each.kind in (START, ANEW)]
    kept = {name: began[name] for name in _KEPT if name in began}
    start: dict[str, Value] = {
        **kept,
        "direction": led.direction,
        "mouth": led.mouth,
        "sheet": version_of(study.network),
        "told": told[-1],
        "drains": now.drains,
        "anew": True,
    }
    return (END, counter, {"reached": False, "why": _WHY, "out": True}), (START, counter, start)


def end_before(began: Entry, standing: tuple[Entry, ...]) -> Entry | None:
    """The end of the push from which the head was led in anew, for one that began so."""
    ends = [each for each in standing if each.kind == END and each.number < began.number]
    return ends[-1] if ends and began.data.get("anew") is True else None
