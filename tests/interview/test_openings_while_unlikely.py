"""Where no answer pays by itself and the best way in is unlikely, openings come before lengths.

From a trial: the plan stood at 7 %, the kitchen cleanout was in doubt, and he was to pace the pipe
below a basin. That two answers on an opening may do together what neither does alone is the design's rule.
"""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from advisor.interview import worth

LENGTH, COVER, PAYS = "a length", "a cover", "what pays"


@pytest.mark.parametrize(
    ("unlikely", "pays", "moving", "asked"),
    [
        (True, None, LENGTH, COVER),
        (False, None, LENGTH, LENGTH),
        (True, PAYS, LENGTH, PAYS),  # what pays by itself comes before
        (True, None, None, None),  # where nothing could change the leader it stops as before
    ],
)
def test_which_comes_first(monkeypatch, unlikely, pays, moving, asked):
    paying = None if pays is None else SimpleNamespace(ask=pays)
    monkeypatch.setattr(worth, "worthiest", lambda *_: paying)
    monkeypatch.setattr(worth, "most_moving", lambda *_: moving)
    monkeypatch.setattr(worth, "about_section", lambda *_: ((), None))
    monkeypatch.setattr(worth, "next_at_openings", lambda *_: COVER, raising=False)
    monkeypatch.setattr(worth, "bearing", lambda *_: None)
    study = SimpleNamespace(drawn=SimpleNamespace(likely=lambda _: 60.0))
    now = SimpleNamespace(study=study, costs=None, unlikely=unlikely)
    assert worth.next_to_ask((), now) == asked
