"""The trade's words for things, by region: rules/words/."""

from __future__ import annotations

from advisor.tables.entry import Row


class WordsFile(Row):
    """Plain names and what people of one region call them."""

    words: dict[str, str]


class MeaningsFile(Row):
    """What a trade word means; `source` is that of all of them."""

    source: dict[str, str]
    meanings: dict[str, str]
