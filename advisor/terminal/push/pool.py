"""Where standing water ends: asked with the next reading of nothing new, and kept as a reading of its own."""

from __future__ import annotations

from advisor.push.log.kinds import SIGHTING
from advisor.push.log.sighting import POOL
from advisor.push.now.now import Now
from advisor.quantity import show_counter
from advisor.terminal.choose import BACK, Choice, choose
from advisor.terminal.push.asks import Asks, Data

_OUT = (Choice("y", "yes, out of it"), Choice("n", "no, still in it"))


def ask_end_of_pool(now: Now, asks: Asks, read: float, data: Data) -> bool | None:
    """Whether a lens that was pushed on to `read` is out of the standing water told last, and where that
    ended: as `dry` where that is now, as `ended` where it was before. False: back; None where nothing is
    asked.

    Still in it, that is what was seen: the water goes on.
    """
    for each in ("ended", "dry", "what"):
        data.pop(each, None)
    last = next((each for each in reversed(now.told) if each[0].kind == SIGHTING), None)
    if last is None or last[0].data["what"] != POOL or last[0].counter is None:
        return None
    first = now.counted(last[0].counter + last[1].shift)  # the counter may have been set anew since
    if read <= first:
        return None
    began, shown = (show_counter(each, asks.units) for each in (first, read))
    key = choose(asks.page, f"The standing water told at {began}: is the lens out of it?", _OUT, (BACK,))
    if key == "n":
        data["what"] = POOL
    if key != "y":
        return key == "n"
    while True:
        ended = asks.counter(f"At which reading did it end? Empty: {shown}, as now", read)
        if ended is None:
            return ask_end_of_pool(now, asks, read, data)
        if first <= ended <= read:
            data.update({"ended": ended} if ended < read else {"dry": True})
            return True
        asks.page.line(f"It lies between {began} and {shown}. Type a reading of these.")
