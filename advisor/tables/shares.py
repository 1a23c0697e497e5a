"""How much of a bore is shut, by a share of it that somebody wrote: "1/4 open" is three quarters shut.

Each is read the right way round, with what bounds it: "not 1/4 open" is less than that. Where that leaves
open how much, the most that may be shut counts.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from advisor.tables.entry import Graded, Share

_PARTS = ("half", "third", "quarter", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_PART = {name: 1 / part for part, name in enumerate(_PARTS, start=2)} | {"fourth": 1 / 4, "halve": 1 / 2}
_COUNTS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_COUNT = {name: count for count, name in enumerate(_COUNTS, start=1)} | {"a": 1, "an": 1}
_SIGNS = {"¼": " 1/4", "½": " 1/2", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3", "⅛": " 1/8"}

_NUMBER = r"\d+(?:[.,]\d+)?"
_PERCENT = r"\s*(?:%|percent\b|per cent\b|pct\b)"
_AMOUNT = re.compile(
    rf"(?<![\w/.])(?:(?:(?P<low>{_NUMBER})(?:{_PERCENT})?\s*(?:-|–|to|or)\s*)?(?P<percent>{_NUMBER}){_PERCENT}"
    r"|(?P<over>\d+)\s*/\s*(?P<under>[1-9]\d*)(?:rds?|ths?)?(?![\w/])"
    rf"|(?:(?P<count>\d|{'|'.join(_COUNT)})[\s-]+)?(?P<part>{'|'.join(_PART)})s?(?!\w))"
)
_CLAUSE = re.compile(r"[,;:!?()]|\.(?!\d)")
_WORD = re.compile(r"[\w']+|[<>~]")

# What stands before a share and bounds it; first what turns another round.
_AT_LEAST = re.compile(
    r"\b(?:no|not|never) (?:less than|under|below)\b|\b(?:more than|over|above|at least|upwards of)\b|>"
)
_AT_MOST = re.compile(
    r"\b(?:no|not|never) (?:more than|over|above)\b|\b(?:less than|under|below|up to|at (?:the )?most|max"
    r"|maximum|short of|hardly|barely|scarcely|no|not|never|isn't|isnt|wasn't|wasnt)\b|<"
)
_SCARCELY = re.compile(
    r"(?<!\w)((?:joints?|gaps?|cracks?|holes?|seams?|fractures?|splits?|lids?)\s+(?:is\s+|was\s+|are\s+)?)?"
    r"(?:not|never|isn't|isnt|wasn't|wasnt|hardly|barely|scarcely)\s+"
    r"(?:(?:even|at|all|really|fully|quite|wide|much|very|yet|completely)\s+)*"
    r"(?:open|passable)(?!\w|\s+(?:joint|gap|crack|hole|seam))"
)


@dataclass(frozen=True)
class SharesTold:
    """What a text tells of the bore: the share that is shut, as it reads and at most; in the `text`
    stands, for each that was understood, how little would."""

    text: str
    shut: float
    at_most: float


class SharesRow(Graded):
    """Words by which a share of a bore is told as `open` or `shut`, and before one as what is left open.

    `denies` turn one round; `between` may stand between it and those words, `bounds` before it, `measures`
    make it one of something that is no bore. From a `good_part` on it is shut as by the words of that, from
    the `whole` on as by those; `little` is how less stands there in words.
    """

    open: tuple[str, ...]
    leave: tuple[str, ...]
    shut: tuple[str, ...]
    denies: tuple[str, ...]
    between: tuple[str, ...]
    bounds: tuple[str, ...]
    measures: tuple[str, ...]
    little: str
    good_part: Share
    whole: Share

    def told_in(self, text: str) -> SharesTold:
        """By every share, and by each "hardly open"; the most that is shut counts."""
        for sign, plain in _SIGNS.items():
            text = text.replace(sign, plain)
        text = text.replace("’", "'")
        shut, at_most, kept, done = 0.0, 0.0, "", 0
        for found in _AMOUNT.finditer(text):
            read = self._read(text, found)
            if read is None or found.start() < done:
                continue
            shut, at_most = max(shut, read.shut), max(at_most, read.at_most)
            if read.instead:
                kept, done = f"{kept}{text[done : max(read.start, done)]} {self.little} ", read.end
        text = kept + text[done:]
        if any(not found[1] for found in _SCARCELY.finditer(text)):
            at_most = 1.0
        return SharesTold(text, shut, at_most)

    def _read(self, text: str, found: re.Match[str]) -> _ShareRead | None:
        """What one share tells; None where no word beside it says of what."""
        low, high = _amount(found)
        if high > 1:
            return None
        first = max((cut.end() for cut in _CLAUSE.finditer(text, 0, found.start())), default=0)
        last = next((cut.start() for cut in _CLAUSE.finditer(text, found.end())), len(text))
        before = list(_WORD.finditer(text, first, found.start()))
        behind = list(_WORD.finditer(text, found.end(), last))
        bound = self._bound(before)
        start = bound[0].start() if bound else found.start()
        says = " ".join(word[0] for word in bound)
        word, denied = self._behind(behind)
        if word is not None:
            end, opens = word.end(), (word[0] in self.open) is not denied
        else:
            led = before[: len(before) - len(bound)]
            word = led[-1] if led else None
            known = word is not None and word[0] in (*self.open, *self.leave, *self.shut)
            if word is None or not known or self._measured(behind):
                # "20 % left" is open, or it is what lies there still.
                return _ShareRead(high, 1.0, False, start, start) if self._is_left(behind) else None
            start, end, opens = word.start(), found.end(), word[0] not in self.shut
            if not opens and bound and bound[-1][0] == "to":
                return _ShareRead(high, 1.0, False, start, start)  # "shut to a quarter": by it, or but for it
        if any(each[0] in self.denies for each in before[: len(before) - len(bound)]):
            says = f"not {says}"  # whatever it denies
        least, most = _bounded(says, low, high)
        shut, at_most = (1 - low, 1 - least) if opens else (high, most)
        return _ShareRead(shut, at_most, True, start, end)

    def _behind(self, words: Sequence[re.Match[str]]) -> tuple[re.Match[str] | None, bool]:
        """The word behind a share that says of what it is one, and whether that is denied."""
        denied = False
        for place, word in enumerate(words):
            if word[0] in self.open or word[0] in self.shut:
                wet = " ".join(each[0] for each in words[place + 1 : place + 3]) in ("of water", "with water")
                return (None if wet else word), denied
            if word[0] not in (*self.between, *self.denies):
                break
            denied = denied or word[0] in self.denies
        return None, False

    def _bound(self, words: Sequence[re.Match[str]]) -> Sequence[re.Match[str]]:
        """The last of them, as far as they bound what comes behind."""
        place = len(words)
        while place and words[place - 1][0] in (*self.bounds, *self.denies):
            place -= 1
        return words[place:]

    def _is_left(self, words: Sequence[re.Match[str]]) -> bool:
        said = [word[0] for word in words]
        return bool(said) and said[-1] in ("left", "remains") and set(self.between).issuperset(said)

    def _measured(self, words: Sequence[re.Match[str]]) -> bool:
        """Whether it is a share of a measure, or of something that is no bore: a quarter inch."""
        first = next((word[0] for word in words if word[0] not in (*self.between, "an")), "")
        return first in self.measures


@dataclass(frozen=True)
class _ShareRead:
    """Of one: how much is shut as it reads, and at most, and whether `little` stands for it `instead`."""

    shut: float
    at_most: float
    instead: bool
    start: int
    end: int


def _amount(found: re.Match[str]) -> tuple[float, float]:
    """The least and the most of what is written there."""
    if found["percent"]:
        high = float(found["percent"].replace(",", ".")) / 100
        return min(high, float((found["low"] or found["percent"]).replace(",", ".")) / 100), high
    if found["over"]:
        share = int(found["over"]) / int(found["under"])
    else:
        count = found["count"] or "a"
        share = (_COUNT.get(count) or int(count)) * _PART[found["part"]]
    return share, share


def _bounded(says: str, low: float, high: float) -> tuple[float, float]:
    """The least and the most that it may be, by what stands before it."""
    turned = _AT_LEAST.search(says), _AT_MOST.search(says)
    at_least, at_most = turned
    if at_least and at_most:  # "not less than", "not over": the longer is meant
        at_least, at_most = (at_least, None) if len(at_least[0]) > len(at_most[0]) else (None, at_most)
    return (0.0 if at_most else low), (1.0 if at_least else high)
