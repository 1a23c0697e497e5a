"""What is to be seen, and what part of it the plan goes for, as plain data."""

from __future__ import annotations

from collections.abc import Collection

from advisor.ranking.part import points_at
from advisor.result.straight_on import straight_on
from advisor.result.study import Study
from advisor.result.target_model import PartNote, RestNote, TargetNote
from advisor.site.target import Target


def target_note(study: Study, barred: Collection[str], ended: Collection[str]) -> TargetNote:
    """What the plan goes for, and, where that is a part, what it leaves: from `barred` openings without a
    chance, and nothing straight on behind what has `ended` a way."""
    target, part = study.target, study.part
    return TargetNote(
        words=target.words,
        kind=target.kind,
        line=target.line,
        length_m=_length(study, target),
        part=PartNote(
            of=part.of.words,
            of_length_m=_length(study, part.of),
            covers=part.covers,
            trouble=part.trouble,
            points=points_at(target.span, study.suspects, study.network),
            rest=tuple(
                RestNote(
                    words=each.words,
                    opening=each.opening,
                    covers=each.covers,
                    chance=None if each.opening in barred else each.chance,
                )
                for each in part.rest
            ),
        )
        if part
        else None,
        straight_on=straight_on(study, ended),
    )


def _length(study: Study, target: Target) -> float:
    return sum(study.network.pieces[key].along for key in target.span)
