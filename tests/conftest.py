"""Generated examples are the same in every run, so that a red test is red for everybody."""

import gc
import os
import sys
from functools import cache, lru_cache

import pytest
from hypothesis import settings
from prompt_toolkit.application import application
from prompt_toolkit.styles import style

from advisor.rulebase.load import load_rules
from advisor.strict_yaml import tree
from advisor.tables.load import load_tables

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
    """prompt_toolkit binds some hundred keys and reads some hundred styles anew for every question."""
    with pytest.MonkeyPatch.context() as patch:
        for module, name in ((application, "load_key_bindings"), (style, "_parse_style_str")):
            patch.setattr(module, name, cache(getattr(module, name)))
        yield


@pytest.fixture(scope="session", autouse=True)
def _same_text_same_tree():
    """Hundreds of tests begin by reading all of rules/; nobody changes what was read, so it is read once."""
    tree_of = lru_cache(256)(tree.tree_and_twice)

    def known_tree(text, file):
        found, twice = tree_of(text, file)
        return found, list(twice)

    def by_files(read):
        """Of one state of the files of a folder and, for the rules, of one set of tables."""
        made = {}

        def known(rules, *more):
            files = tuple((path, path.stat().st_mtime_ns) for path in sorted(rules.rglob("*.yaml")))
            key = (rules, files, *map(id, more[:1]))
            if key not in made:
                if len(made) == 8:  # wounded files come by the thousand
                    made.clear()
                made[key] = (read(rules, *more), more)  # what an id stands for stays
            return made[key][0]

        return known

    with pytest.MonkeyPatch.context() as patch:
        for name, real, known in (
            ("tree_and_twice", tree.tree_and_twice, known_tree),
            ("load_tables", load_tables, by_files(load_tables)),
            ("load_rules", load_rules, by_files(load_rules)),
        ):
            for module in list(sys.modules.values()):
                if vars(module).get(name) is real:
                    patch.setattr(module, name, known)
        yield


@pytest.hookimpl(trylast=True)
def pytest_collection_finish():
    """What was imported stays to the end: the collector need not go through it again and again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20000, 10, 10)
