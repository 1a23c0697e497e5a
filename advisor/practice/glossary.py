"""The trade words of a drill and what each means, for whoever has not met them."""

from __future__ import annotations

import re
from collections.abc import Iterator

from advisor.practice.drill import Ask, Drain, Drill
from advisor.result.study import Study


def drill_of(
    study: Study,
    kind: str,
    seed: int,
    about: str,
    story: tuple[str, ...],
    asks: tuple[Ask, ...],
    drain: Drain,
) -> Drill:
    """A drill with the words that stand in it."""
    asked = [text for ask in asks for text in (ask.question, *_options(ask))]
    said = " ".join((*story, *drain.rows(1000), *asked))
    return Drill(kind, seed, about, story, asks, drain, task_line(study), words_in(study, said))


def task_line(study: Study) -> str:
    """What is to be seen, in one line."""
    return f"To be seen: {study.target.words}."


def words_in(study: Study, text: str) -> tuple[tuple[str, str], ...]:
    """Each trade word of a text with its meaning, in the reader's words and the order of the alphabet."""
    found = {meaning: word for word, meaning in _meanings(study) if _stands_in(word, text)}
    return tuple(sorted((word, meaning) for meaning, word in found.items()))


def _meanings(study: Study) -> Iterator[tuple[str, str]]:
    tables = study.tables
    for name, meaning in tables.meanings.items():
        yield study.reader.call(name), meaning
        if study.reader.call(name) not in name:
            yield name, meaning  # people call an opening by the plain name too: kitchen end cleanout
    for stopper in tables.stoppers:
        yield study.reader.call(stopper), tables.stoppers[stopper].why
    yield from study.base.matrix.techniques.items()


def _stands_in(word: str, text: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(word)}s?(?!\w)", text, re.IGNORECASE) is not None


def _options(ask: Ask) -> tuple[str, ...]:
    return tuple(text for option in ask.options for text in (option.words, *option.why))
