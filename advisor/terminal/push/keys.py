"""The keys beside the opening."""

from __future__ import annotations

from advisor.push.now.led_anew import may_be_led_anew
from advisor.push.now.now import Now
from advisor.terminal.choose import Choice

LED_ANEW = "o"
_FIRST = (
    Choice("r", "reading: what the counter shows, what you see"),
    Choice("w", "water: run a fixture, or one was run"),
    Choice("s", "stuck: it goes no further"),
    Choice("p", "pulled back"),
    Choice("f", "found something"),
)
_CHANNEL = Choice(LED_ANEW, "lifted out of the channel, led in anew")
HANDS_ON = ("r", "w", "s", "f", "a", LED_ANEW)  # not before what was told too long ago is told anew
MORE = (
    Choice("u", "undo"),
    Choice("l", "late entry"),
    Choice("x", "counter set anew"),
    Choice("a", "plan again"),
    Choice("e", "end"),
    Choice("q", "leave, go on later"),
)


def offered(now: Now) -> tuple[Choice, ...]:
    """What may be told of the head as it is now."""
    return (*_FIRST, _CHANNEL) if may_be_led_anew(now) else _FIRST
