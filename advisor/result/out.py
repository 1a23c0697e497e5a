"""Gear that is out: its rod or spring kinked in a push of the job, and nobody has said that it is sound."""

from __future__ import annotations

from advisor.result.study import Study


def out_words(study: Study) -> str | None:
    """What of the kit is out; None where nothing is."""
    words = study.tables.stuck.kinked
    gear = [each.name for each in study.kit.loadouts if not study.sound(each)]
    if not gear:
        return None
    return words.none if len(gear) == len(study.kit.loadouts) else words.out.format(gear=" or ".join(gear))
