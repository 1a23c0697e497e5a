"""Generated examples are the same in every run, so that a red test is red for everybody."""

import gc
import os
from functools import cache, lru_cache

import pytest
from hypothesis import settings
from prompt_toolkit.application import application

from advisor.strict_yaml import mend, tree

# A program that a test starts need not compile every module of ours again.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

settings.register_profile("same", derandomize=True, deadline=None)
settings.load_profile("same")


@pytest.fixture(autouse=True)
def _own_folder_is_empty(tmp_path, monkeypatch):
    """No test sees, or leaves, a kit or a log of whoever runs it."""
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path / "own folder"))


@pytest.fixture(scope="session", autouse=True)
def _keys_bound_once():
    """prompt_toolkit binds its several hundred keys anew for every question, always the same."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(application, "load_key_bindings", cache(application.load_key_bindings))
        yield


@pytest.fixture(scope="session", autouse=True)
def _same_text_same_tree():
    """Hundreds of tests begin by reading all of rules/; a tree is never changed, so it is built once."""
    read = lru_cache(256)(tree.tree_and_twice)

    def known(text, file):
        found, twice = read(text, file)
        return found, list(twice)

    with pytest.MonkeyPatch.context() as patch:
        for module in (tree, mend):
            patch.setattr(module, "tree_and_twice", known)
        yield


@pytest.hookimpl(trylast=True)
def pytest_collection_finish():
    """What was imported stays to the end: the collector need not go through it again and again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20000, 10, 10)
