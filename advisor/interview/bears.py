"""Whether what a question asks about lies on a way at all: the minutes of a way hang on no pipe that it never
goes through. Of many questions some seem to move such a way by luck, more so where few cases cost much.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from advisor.interview.ask import Ask
from advisor.interview.subject import Groups, Subject
from advisor.result.study import Study
from advisor.routes.passage import Route

Bearing = NDArray[np.bool_]


def bearing(asks: Sequence[tuple[Ask, Groups]], study: Study) -> Bearing:
    """bool[A, D]: for each question, and each decision in the order of its minutes; the last, to leave the
    job undone, goes through nothing."""
    ways = [ranked.outcome.route for ranked in study.ranked]
    return np.array([[*(_on(ask.subject, way) for way in ways), False] for ask, _ in asks], bool)


def on_its_ways(parts: NDArray[np.float64], bears: Bearing | None, leader: int) -> NDArray[np.float64]:
    """The part float[A, D] that each answer settles of the minutes between the leader and each decision, with
    none where it bears on neither."""
    return parts if bears is None else np.where(bears | bears[:, [leader]], parts, 0.0)


def _on(subject: Subject, way: Route) -> bool:
    """Whatever is no pipe may bear on any way: only a length and what pipe is made of do not."""
    pieces = [passage.piece for passage in way.passages]
    if subject.wall is not None:
        return any(piece.wall.id == subject.wall.id for piece in pieces)
    asked = {piece.id for each in (subject, *subject.parts) for piece in each.pieces}
    return subject.about != "run" or any(piece.id in asked for piece in pieces)
