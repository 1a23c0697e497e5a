"""An entry of the push in a line."""

from __future__ import annotations

from advisor.push.log.kinds import STOPPED
from advisor.push.log.log import Entry
from advisor.push.log.sighting import sign_names
from advisor.push.log.sign_words import sign_words
from advisor.push.now.now import Now
from advisor.push.report.words import technique_words
from advisor.terminal.push.words import Words


def short(entry: Entry, now: Now) -> str:
    """An entry in a few words, as it is shown to be chosen or taken back."""
    words = Words(now)
    at = "" if entry.counter is None else f" at {words.length(entry.counter)}"
    says = ("what", "opening", "fixture", "technique", "outcome", "name", "text")
    signs = sign_words(sign_names(entry), now.push.study.tables.stuck) if entry.kind == STOPPED else ""
    data = dict(entry.data) | ({"technique": technique_words(entry)} if "technique" in entry.data else {})
    what = ", ".join(filter(None, (*(str(data.get(name) or "") for name in says), signs)))
    return f"{entry.kind}{at}" + (f": {what}" if what else "")
