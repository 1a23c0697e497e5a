"""Seconds are those of one file, not of what the tests before it have left for the collector of garbage."""

from __future__ import annotations

import gc

import pytest


@pytest.fixture(autouse=True, scope="module")
def nothing_left_to_collect():
    gc.collect()
    gc.freeze()
    yield
    gc.unfreeze()
