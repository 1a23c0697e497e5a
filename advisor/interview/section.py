"""Which section to look at hangs on lengths too: what is open of them, in minutes.

Where the complaint names no place, the plan looks at the likeliest section, and a section is the likelier the
longer it is (site/suspects.py). Whoever looks at one with a chance p finds nothing there in 1 - p of the
cases and needs another push, taken to cost what this one does.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from advisor.interview.ask import Ask
from advisor.interview.leading import Standing
from advisor.interview.subject import Groups, answers_over
from advisor.quantity import Estimate
from advisor.result.study import Study
from advisor.site.suspects import Suspect, trouble_metres
from advisor.worlds.draws import Array, Worlds

MOST_SECTIONS = 6  # the likeliest; what comes after them does not lead


def about_section(asks: Sequence[Ask], now: Standing) -> tuple[list[tuple[Ask, Groups]], Array]:
    """The questions on lengths of likely sections with their groups intp[N], and minutes float[S, N] of
    looking at each; without any where the sheet says what to look at."""
    study = now.study
    likely = study.suspects[:MOST_SECTIONS] if study.target.kind == "suspect" else ()
    # Apart from the plan's own: its ways may never meet these lengths.
    worlds = Worlds(study.seed, study.worlds)
    within = {key for suspect in likely for key in suspect.span}
    told = [
        (ask, found[1])
        for ask in asks
        if ask.quantity == "length" and ask.subject.id in within
        if (found := answers_over(ask.subject, "length", study.network, study.tables, worlds)) is not None
    ]
    if not told or len(likely) < 2:
        return [], np.zeros((0, study.worlds), np.float32)
    push = float(now.costs[now.leader].mean())
    shares = np.stack([_share(suspect, study, worlds) for suspect in likely])
    # The plan reckons with likely lengths: about its shares the drawn ones spread.
    centred = shares - shares.mean(axis=1, keepdims=True) + np.array([[s.share] for s in likely])
    return told, np.asarray(push * (1 - centred), np.float32)


def _share(suspect: Suspect, study: Study, worlds: Worlds) -> Array:
    """The section's chance in each world, other sections as long as they are likely to be."""
    pieces = [study.network.pieces[key] for key in suspect.span]
    more = sum(
        worlds.value(f"{piece.id}/length", piece.length) - piece.along
        for piece in pieces
        if isinstance(piece.length, Estimate)
    )
    longer = np.maximum(1 + more / trouble_metres(study.network, suspect.span, study.tables), 0) * np.ones(
        study.worlds
    )
    return np.asarray(suspect.share * longer / (suspect.share * longer + 1 - suspect.share))
