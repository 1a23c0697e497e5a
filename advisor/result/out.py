"""What of kit and drain is out for every plan of a job, in words: what kinked, and what lies in the pipe."""

from __future__ import annotations

from advisor.quantity import show_reading
from advisor.result.barred import LeftIn
from advisor.result.study import Study

_SIDES: dict[tuple[str, ...], str] = {("down",): ", downstream", ("up",): ", upstream"}


def out_words(study: Study) -> str | None:
    """What of the kit kinked in a push of the job; None where nothing did."""
    words = study.tables.in_pipe.kinked
    gear = [each.name for each in study.kit.loadouts if not study.barred.sound(each)]
    if not gear:
        return None
    return words.none if len(gear) == len(study.kit.loadouts) else words.out.format(gear=" or ".join(gear))


def left_words(study: Study) -> tuple[str, ...]:
    """Each head and rod that lie in the drain, and after them what that shuts and what stays out of use."""
    words = study.tables.in_pipe.left_in
    lie = [
        words.lies.format(
            gear=left.gear, opening=f"{left.opening}{left.way}", reading=rod_words(study, left.rod)
        )
        + (f" {left.locate}" if left.locate else "")
        for left in study.barred.left
    ]
    if not lie:
        return ()
    through = shut_by_rods(study)
    ways = words.ways.format(openings=", ".join(through)) if through else ""
    gear = [each.name for each in study.kit.loadouts if study.barred.lies_there(each)]
    without = words.gear.format(gear=" or ".join(gear)) if gear else ""
    return (*dict.fromkeys(lie), " ".join(filter(None, (words.nothing, ways, without, words.say_so))))


def in_from(left: LeftIn) -> str:
    """From which opening and to which side it went in, as far as that is known."""
    side = _SIDES.get(left.ports, "")
    return f"{left.opening}{left.way or side}"


def rod_words(study: Study, rod: float | None) -> str:
    """How much rod lies in there."""
    return "nobody knows how far" if rod is None else f"about {show_reading(rod, study.units)}"


def shut_by_rods(study: Study) -> tuple[str, ...]:
    """The openings whose every way to what is to be seen goes through a pipe in which gear lies."""
    ways: dict[str, bool] = {}
    for route in study.routes:
        name = route.opening.name
        ways[name] = ways.get(name, True) and study.barred.shut(route)
    return tuple(name for name, shut in ways.items() if shut)
