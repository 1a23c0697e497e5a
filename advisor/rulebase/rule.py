"""The shape of a rule: as written in its file (strict) and as the engine holds it (frozen)."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from advisor.evidence import Grade
from advisor.rulebase.condition import Condition
from advisor.rulebase.facts import Fact, Kind, Values
from advisor.rulebase.reader import Reader

PLACEHOLDER = re.compile(r"\{([^{}]*)\}")
_PLACE = re.compile(rf"(\b[Aa] )?{PLACEHOLDER.pattern}")

About = Literal["site", "opening", "route", "passage"]
Standing = Literal["rejected", "required"]
Verdict = Literal["clear first", "decline", "leave"]
SignalWord = Literal["danger", "warning", "caution", "notice"]
GRAVEST_FIRST: tuple[SignalWord, ...] = ("danger", "warning", "caution", "notice")
GRAVE = GRAVEST_FIRST[:2]  # of what can kill or maim


class _Entry(BaseModel):
    model_config = ConfigDict(defer_build=True, extra="forbid", frozen=True, populate_by_name=True)


class CautionEntry(_Entry):
    """A caution; danger, warning and caution are for injury only, anything else is a notice.

    `in short` is for paper with little room: fewer words, nothing less to do. One that is met `on the way`
    to an opening holds for whoever only goes to look for it. What was told to lie `in the pipe` may hold the
    head: it goes from no paper and is told as a push begins, though it injures nobody.
    """

    id: str
    word: SignalWord
    text: str
    short: str = Field("", alias="in short")
    on_the_way: Literal["yes"] | None = Field(None, alias="on the way")
    in_the_pipe: Literal["yes"] | None = Field(None, alias="in the pipe")


class EntryEntry(_Entry):
    """What to do and bring before the head goes in, and what only once the opening is open."""

    do: list[str] = []
    once_open: list[str] = Field([], alias="once open")
    bring: list[str] = []


class ConcludeEntry(_Entry):
    """What a rule concludes, as written."""

    technique: dict[str, Standing] = {}
    technique_steps: dict[str, list[str]] = Field({}, alias="technique steps")
    difficulty: dict[str, Literal["explained"]] = {}
    caution: CautionEntry | None = None
    verdict: Verdict | None = None
    entry: EntryEntry | None = None
    opening: Literal["closed"] | None = None


class ExampleEntry(_Entry):
    """One case of a rule, as written; what is not given is not known."""

    name: str
    given: dict[str, str] = {}
    expect: Literal["fires", "silent", "unknown"]


class RuleEntry(_Entry):
    """One rule, as written."""

    id: str = Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$")
    title: str
    about: About
    when: Any
    conclude: ConcludeEntry
    because: str
    mechanism: str
    if_wrong: str = Field(alias="if wrong")
    source: dict[Grade, str] = Field(min_length=1)
    examples: list[ExampleEntry] = []


class RuleFile(_Entry):
    """One file of rules."""

    rules: list[RuleEntry]


@dataclass(frozen=True)
class Caution:
    """A caution to show: `id` names the hazard, so that the same one is shown once."""

    id: str
    word: SignalWord
    text: str
    on_the_way: bool = False
    short: str = ""
    in_the_pipe: bool = False


@dataclass(frozen=True)
class Conclusion:
    """What a rule concludes. A rule rejects, requires, cautions or explains; it never raises a chance."""

    techniques: Mapping[str, Standing]
    steps: Mapping[str, tuple[str, ...]]
    troubles: tuple[str, ...]
    caution: Caution | None
    verdict: Verdict | None
    do: tuple[str, ...]
    once_open: tuple[str, ...]
    bring: tuple[str, ...]
    closed: bool

    def mapped(self, change: Callable[[str], str]) -> Conclusion:
        """The same with every text changed."""
        caution = self.caution
        return Conclusion(
            self.techniques,
            {name: tuple(map(change, steps)) for name, steps in self.steps.items()},
            self.troubles,
            replace(caution, text=change(caution.text), short=change(caution.short)) if caution else None,
            self.verdict,
            tuple(map(change, self.do)),
            tuple(map(change, self.once_open)),
            tuple(map(change, self.bring)),
            self.closed,
        )

    def texts(self) -> tuple[str, ...]:
        """Every text in it, for the check of placeholders and of plain words."""
        steps = tuple(step for steps in self.steps.values() for step in steps)
        cautions = tuple(filter(None, (self.caution.text, self.caution.short))) if self.caution else ()
        return (*steps, *cautions, *self.do, *self.once_open, *self.bring)


@dataclass(frozen=True)
class Example:
    """One case of a rule; `expect` is True for fires, False for silent, None for unknown."""

    name: str
    given: Values
    expect: bool | None


@dataclass(frozen=True)
class Rule:
    """One rule, checked; `sources` are (grade, source id) and `file`:`line` is where it stands."""

    id: str
    stratum: str
    title: str
    about: About
    when: Condition
    conclusion: Conclusion
    because: str
    mechanism: str
    if_wrong: str
    sources: tuple[tuple[Grade, str], ...]
    examples: tuple[Example, ...]
    shown: Mapping[str, Fact]
    file: str
    line: int

    @cached_property
    def subjects(self) -> frozenset[str]:
        """What it speaks of, in its condition or its texts: site, opening, route, passage, limits."""
        return frozenset(name.partition(".")[0] for name in (*self.when.names(), *self.shown))

    def fill(self, text: str, values: Values, reader: Reader, also: Sequence[Values] = ()) -> str:
        """The text with each {fact} replaced by its value, in the reader's units and words.

        Two values that differ never look the same: those are shown with a digit more. Of what is `also` so at
        other places the names and the counter readings are told as well.
        """
        if "{" not in text:
            return text
        named = {found[2]: self.shown[found[2]].show(values, reader) for found in _PLACE.finditer(text)}
        alike = {
            name
            for name, shown in named.items()
            if self.shown[name].kind is Kind.QUANTITY
            if any(shown == other and values.get(name) != values.get(one) for one, other in named.items())
        }
        named |= {name: self.shown[name].show(values, reader, more=1) for name in alike}
        places = (name for name in named if self.shown[name].kind is Kind.NAME or self.shown[name].counter)
        for name in places if also else ():
            *others, last = dict.fromkeys((named[name], *(self.shown[name].show(v, reader) for v in also)))
            named[name] = f"{', '.join(others)} and {last}" if others else last
        return _PLACE.sub(lambda found: _after(found[1], named[found[2]]), text)


def _after(article: str | None, shown: str) -> str:
    """What fills a place, behind `a` or `an` as it sounds."""
    if article is None:
        return shown
    told = with_article(shown)
    return f"{article.strip()[0]}{told[1:]}"


def with_article(shown: str) -> str:
    """A name behind `a` or `an`, as it sounds."""
    vowel = shown.lower().startswith(("a", "e", "i", "o", "un", "8", "11", "18"))
    return f"a{'n' if vowel else ''} {shown}"
