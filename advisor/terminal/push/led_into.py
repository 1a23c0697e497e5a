"""Which way an opening leads, and in an open channel into which of its mouths the head is led."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.push.log.kinds import DOWN, UNKNOWN, UP
from advisor.push.now.course import Course
from advisor.push.now.led_anew import Led, Told, led_anew
from advisor.push.now.now import Now
from advisor.quantity import show_counter
from advisor.result.study import Study
from advisor.site.mouths import Mouth, mouth_by, surely_in_chamber, up_mouths
from advisor.site.network import Piece
from advisor.terminal.choose import BACK, DONT_KNOW, Choice, choose
from advisor.terminal.page import Page
from advisor.terminal.push.asks import KEYS, Asks
from advisor.terminal.push.machine import WAYS
from advisor.terminal.push.steps import in_turn

_OUTLET, _ANY = "s", "h"  # as of the ways
_KEYS = "".join(key for key in KEYS if key not in "shn")  # n: it does not open


@dataclass(frozen=True)
class LedInto:
    """What is asked, what may be answered, and what each answer tells by its key."""

    asked: str
    choices: tuple[Choice, ...]
    tells: dict[str, Led]


def led_into(study: Study, opening: Piece, gear: str) -> LedInto:
    """With one mouth upstream, which way; with more, which mouth, that of the plan for that gear marked."""
    found = up_mouths(study.network, opening, study.tables)
    if len(found) < 2:
        ways = {key: Led(told) for key, _, told in WAYS}
        asked = "Which way does this opening lead?"
        return LedInto(asked, tuple(Choice(key, words) for key, words, _ in WAYS), ways)
    planned = _planned(study, opening, gear)
    rows = [(_OUTLET, "the mouth that leads downstream, to sewer or tank", Led(DOWN), Mouth("down"))]
    for key, (line, mouth) in zip(_KEYS, found.items(), strict=False):
        rows.append((key, _called(study, line, mouth), Led(UP, line), mouth))
    choices = [
        Choice(key, f"{words} (planned)" if mouth == planned else words) for key, words, _, mouth in rows
    ]
    tells = {key: led for key, _, led, _ in rows} | {_ANY: Led(UP)}
    choices.append(Choice(_ANY, "one that leads upstream, not known which"))
    return LedInto("Into which mouth of the channel is the head led?", tuple(choices), tells)


def ask_led_anew(now: Now, asks: Asks, page: Page) -> tuple[Told, ...]:
    """Into which mouth it was led, and the counter there, as the end of one push and the start of the next;
    nothing where that is left."""
    told = led_into(now.push.study, now.push.opening, now.push.loadout.name)
    led, counter = Led(UNKNOWN), now.counted(0.0)

    def mouth() -> bool:
        nonlocal led
        key = choose(page, told.asked, told.choices, (DONT_KNOW, BACK))
        led = told.tells.get(key, Led(UNKNOWN))
        return key != BACK.key

    def reading() -> bool:
        nonlocal counter
        asked = "What does the counter show with the lens at the opening?"
        read = asks.counter(f"{asked} Empty: {show_counter(counter, asks.units)}", counter)
        counter = counter if read is None else read
        return read is not None

    return led_anew(now, counter, led) if in_turn(mouth, reading) else ()


def _called(study: Study, line: str, mouth: Mouth) -> str:
    """A mouth in words; what perhaps joins further on is said to."""
    if not mouth.junction:
        return f"the mouth of {line} itself, upstream"
    sure = surely_in_chamber(study.network.pieces[mouth.junction], study.tables)
    return f"the mouth of {line}" if sure else f"the mouth of {line}, if it joins in there"


def _planned(study: Study, opening: Piece, gear: str) -> Mouth | None:
    loadout = next((each for each in study.kit.loadouts if each.name == gear), None)
    wanted = Course(study, opening, loadout).wanted if loadout is not None else None
    return mouth_by(wanted.route.passages, study.tables) if wanted is not None else None
