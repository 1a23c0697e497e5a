"""Cautions of the site that are told again once what they warn of may be before the lens."""

from __future__ import annotations

from collections.abc import Container

from advisor.result.model import CautionNote
from advisor.result.spots import cautions_of
from advisor.result.study import Study


def site_cautions(study: Study, ids: Container[str]) -> tuple[CautionNote, ...]:
    """Those of them that hold there, in its own words."""
    return tuple(note for note in cautions_of(study.site_firings) if note.id in ids)
