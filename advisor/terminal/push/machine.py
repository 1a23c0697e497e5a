"""A cutter, jet or other machine that was run: what is asked of it, what is said where a rod lay there."""

from __future__ import annotations

from math import inf

from advisor.push.log.kinds import DOWN, UP
from advisor.result.study import Study
from advisor.site.history import BROKEN, CAME_BACK
from advisor.terminal.choose import BACK, DONT_KNOW, choose, yes_no
from advisor.terminal.page import Page
from advisor.terminal.push.asks import KEYS, Asks, Data
from advisor.terminal.push.offers import only_way, openings
from advisor.terminal.push.steps import in_turn

_MACHINES = (
    ("c", "a cutter", "a cutter"),
    ("s", "a descaler: chain or brush", "a descaler"),
    ("j", "a water jet", "a water jet"),
    ("o", "another machine", "a machine"),
)
_BROUGHT = tuple((word[0] if word != BROKEN else "p", word, word) for word in (*CAME_BACK, "nothing"))
WAYS = (
    ("s", "downstream: away from the house, to sewer or tank", DOWN),
    ("h", "upstream: back to the house", UP),
)


def ask_machine(asks: Asks, study: Study, first: str, data: Data) -> bool:
    """What was run (`what`), whether all of the rod was out then (`outside`), by which opening and which
    way (`opening`, `direction`), how far in (`to`), what came back (`brought`). The opening `first`
    is offered before the others. False: back."""
    words = study.tables.in_pipe.machine_run

    def what() -> bool:
        told = asks.into(data, "what", "What was run?", _MACHINES)
        data["what"] = data["what"] or "a machine"
        return told

    def outside() -> bool:
        """Before all else: beside a rod it must not go on. What an earlier push left in lies there still."""
        key = choose(asks.page, words.outside, yes_no("yes, all of it", "no"), (DONT_KNOW, BACK))
        data["outside"] = key == "y" and not study.barred.left
        if key != BACK.key and not data["outside"]:
            lies = study.tables.in_pipe.left_in.first if study.barred.left else words.rod_in
            asks.page.boxed("warning", [lies])
        return key != BACK.key

    def opening() -> bool:
        names = dict.fromkeys((first, *openings(study)))
        choices = [(key, name, name) for key, name in zip(KEYS, names, strict=False)]
        return asks.into(data, "opening", words.opening, choices)

    def way() -> bool | None:
        data["direction"] = only_way(study, str(data["opening"])) if data["opening"] else None
        if data["opening"] is None or data["direction"]:
            return None
        return asks.into(data, "direction", words.way, WAYS)

    def far() -> bool:
        read = asks.length("How far in did it go, by its cable? Empty: not known", inf)
        data["to"] = read if read != inf else None
        return read is not None

    return in_turn(
        what,
        outside,
        opening,
        way,
        far,
        lambda: asks.into(data, "brought", "What came back on it?", _BROUGHT),
    )


def show_machine(data: Data, study: Study, page: Page) -> None:
    """That it is noted; where not all of it is known, that no stop is softer for it."""
    page.line(f"Noted: {data['what']} was run")
    if not data["outside"] or None in (data["opening"], data["direction"], data["to"]):
        page.strong(study.tables.in_pipe.machine_run.settles_nothing)
