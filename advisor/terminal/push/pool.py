"""Where standing water ends: asked with the next reading of nothing new, and kept as a reading of its own."""

from __future__ import annotations

from advisor.push.log.kinds import SIGHTING
from advisor.push.log.pools import open_pools, waits
from advisor.push.log.sighting import POOL
from advisor.push.now.now import Now
from advisor.quantity import show_counter
from advisor.terminal.choose import BACK, DONT_KNOW, Choice, choose
from advisor.terminal.push.asks import Asks, Data

_SEEN = (Choice("y", "yes"), Choice("n", "no"))
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
    late = [each for at, each in enumerate(now.told) if waits(each[0]) and at in open_pools(now.entries)]
    if last is None or last[0].data["what"] != POOL:
        last = late[-1] if late else None  # what was seen since was no answer to it
    if last is None or last[0].counter is None:
        return None
    first = now.counted(last[0].counter + last[1].shift)  # the counter may have been set anew since
    if read <= first:
        return None
    began = show_counter(first, asks.units)
    key = choose(asks.page, f"The standing water told at {began}: is the lens out of it?", _OUT, (BACK,))
    if key == "n":
        data["what"] = POOL
    if key != "y":
        return key == "n"
    if waits(last[0]):
        data["dry"] = True  # the lens has been on since: it ends no further in than that
        return True
    ended = _where(asks, first, read, ", as now")
    if ended is None:
        return ask_end_of_pool(now, asks, read, data)
    data.update({"ended": ended} if ended < read else {"dry": True})
    return True


def ask_end_of_late(asks: Asks, began: float, until: float, data: Data) -> bool:
    """Whether the end of standing water that is told late, at `began`, was seen, and at which reading, no
    further in than `until`, told after it: as `ended`. Else that it was not is kept, as `dry`. False: back.
    """
    for each in ("ended", "dry"):
        data.pop(each, None)
    key = choose(asks.page, "Was its end seen, the lens out of it again?", _SEEN, (DONT_KNOW, BACK))
    if key != "y":
        data["dry"] = False
        return key != BACK.key
    ended = _where(asks, began, max(began, until))
    if ended is None:
        return ask_end_of_late(asks, began, until, data)
    data["ended"] = ended
    return True


def with_end(counter: float | None, says: Data) -> list[tuple[float | None, Data]]:
    """What is told for a reading: itself and, where water `ended`, that."""
    ended, told = says.pop("ended", None), [(counter, says)]
    if ended is not None:
        told.insert(says["what"] == POOL, (float(ended), {"what": "nothing", "dry": True}))
    return told


def _where(asks: Asks, first: float, last: float, which: str = "") -> float | None:
    """The reading of an end between these two; None: back."""
    began, shown = (show_counter(each, asks.units) for each in (first, last))
    while True:
        ended = asks.counter(f"At which reading did it end? Empty: {shown}{which}", last)
        if ended is None or first <= ended <= last:
            return ended
        asks.page.line(f"It lies between {began} and {shown}. Type a reading of these.")
