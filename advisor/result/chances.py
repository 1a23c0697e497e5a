"""In which words chances are told."""

from __future__ import annotations

from advisor.result.model import ChanceWords
from advisor.result.study import Study


def chance_words(study: Study) -> ChanceWords:
    """How chances are told, by the table of limits."""
    drawn = study.drawn
    return ChanceWords(
        likely=drawn.likely("likely_share"),
        unlikely=drawn.likely("unlikely_share"),
        least=drawn.likely("least_chance"),
    )
