"""The cup by which it is seen whether a line drains goes into no fixture that backs up: there it comes up."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from advisor.terminal.push.look_first import _poured_into


@pytest.mark.parametrize(
    ("backs_up", "into"), [((), "bath, sink or floor drain"), (("floor drain",), "bath or sink")]
)
def test_what_backs_up_is_not_poured_into(backs_up, into):
    names = ("bath", "sink", "floor drain", "laundry")
    smallest = dict.fromkeys(names, 0)
    push = SimpleNamespace(laundry=("laundry",), opening=SimpleNamespace(name="toilet"), smallest=smallest)
    now = SimpleNamespace(push=push, backs_up=backs_up, not_to_run=frozenset(names))
    assert _poured_into(now) == into
