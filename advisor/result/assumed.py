"""What a plan took for true that nobody has seen: of the site, and of the kit."""

from __future__ import annotations

from advisor.evidence import Grade
from advisor.quantity import Chances, Dimension, Estimate, Known, show
from advisor.result.model import AssumedNote
from advisor.result.study import Study


def assumed_notes(study: Study) -> tuple[AssumedNote, ...]:
    """Each, as it is told, with its grade."""
    notes = []
    for item in study.network.assumed:
        evidence = item.belief.evidence
        taken = study.reader.call(item.taken) or _shown(item.belief, item.dimension, study)
        if study.site_facts["site.broken"] is True and item.about.startswith("condition"):
            taken = f"{taken} (of its wall; a broken place is counted by itself)"
        notes.append(
            AssumedNote(about=item.about, taken=taken, grade=evidence.grade.words, weak=evidence.grade.weak)
        )
    notes += [
        AssumedNote(about="kit", taken=text, grade=Grade.JUDGEMENT.words, weak=True)
        for text in study.kit.assumed
    ]
    return tuple(notes)


def _shown(belief: Known | Estimate | Chances, dimension: Dimension, study: Study) -> str:
    if isinstance(belief, Chances):
        return ", ".join(
            f"{study.reader.call(name)} {share:.0%}"
            for name, share in sorted(belief.options, key=lambda o: -o[1])[:3]
        )
    if isinstance(belief, Known):
        return show(belief.value, dimension, study.units)
    low, high = (show(end, dimension, study.units) for end in (belief.low, belief.high))
    return f"{low} to {high}"
