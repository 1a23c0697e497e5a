"""What was learned, in the plan: told, never against a caution, and gone with the job it came of."""

from __future__ import annotations

import shutil
from datetime import timedelta
from pathlib import Path

import numpy as np
import pytest

from advisor import demo
from advisor.cli import main
from advisor.errors import BadInput
from advisor.kit.loadouts import default_kit
from advisor.outcome.learned import BOOK, Learned
from advisor.plan import Case, plan
from advisor.push.learn.learn import lessons_of
from advisor.push.learn.taught import book_value
from advisor.push.log.log import Log
from advisor.push.report.taught_jobs import CACHE, lessons_now, listed, remember
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import RouteNote
from advisor.site.sheet import read_site
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables
from tests.push.test_learn import NOON, job


def demo_case(learned: Learned = BOOK, path: Path = demo.MAIN) -> Case:
    return Case(read_site(path, tables()), default_kit(tables()), Units.INCH, 300, 1, learned=learned)


@pytest.mark.usefixtures("anew")
def test_nothing_learned_is_the_book_bit_for_bit():
    plain = plan_of(
        plan(
            Case(read_site(demo.MAIN, tables()), default_kit(tables()), Units.INCH, 300, 1), tables(), rules()
        )
    )
    none = lessons_of([], tables()).learned
    assert none is BOOK
    assert plan_of(plan(demo_case(none), tables(), rules())).model_dump_json() == plain.model_dump_json()


def test_learning_moves_the_plan_and_says_so():
    book = plan_of(plan(demo_case(), tables(), rules()))
    rough = plan_of(plan(demo_case(Learned(friction=1.5, notes=("x",))), tables(), rules()))
    assert rough.routes[0].reach_m < book.routes[0].reach_m
    assert (book.learned, rough.learned) == ((), ("x",))
    study, other = (
        plan(demo_case(), tables(), rules()),
        plan(demo_case(Learned((("string", "merge", 1.0),))), tables(), rules()),
    )
    for one, two in zip(study.outcomes, other.outcomes, strict=True):
        for spot, shifted in zip(one.spots, two.spots, strict=True):
            for name, attempt in spot.tries.items():
                chance, moved = attempt.chance, shifted.tries[name].chance
                if name == "string" and spot.spot.shape.turn.way == "merge":
                    expected = np.where(
                        chance > 0, 1 / (1 + (1 - chance) / np.maximum(chance, 1e-9) / np.e), 0
                    )
                    assert np.allclose(moved, expected, atol=1e-4)
                else:
                    assert np.array_equal(chance, moved)


def way(route: RouteNote) -> tuple[object, ...]:
    """From one opening another way may be best once something is learned; that is another way."""
    return route.opening, route.loadout, route.covers, route.length_m, route.bends


def test_what_was_learned_is_not_logged_as_the_book():
    shifts = tuple((name, way, 0.8) for name in ("string", "quick push") for way in ("merge", "bend"))
    book, told = plan(demo_case(), tables(), rules()), plan(demo_case(Learned(shifts)), tables(), rules())
    met = 0
    for one, two in zip(book.outcomes, told.outcomes, strict=True):
        for spot, shifted in zip(one.spots, two.spots, strict=True):
            for name, where, _ in shifts:
                if where == spot.spot.shape.turn.way and spot.chance(name).mean() > 0.01:
                    met += 1
                    # A try is made where the head is held: there the plan tells its chance, and the log.
                    held = np.average(spot.chance(name), weights=spot.spot.plain.stuck)
                    assert book_value(shifted, name) == pytest.approx(float(held), abs=1e-4)
    assert met


@pytest.mark.parametrize("path", demo.ALL, ids=lambda p: p.stem)
@pytest.mark.parametrize("friction", [0.5, pytest.param(2.0, marks=pytest.mark.slow)])
def test_learning_never_takes_a_caution_away(path, friction):
    shifts = tuple((t, way, 3.0) for t in ("quick push", "string") for way in ("merge", "bend", "leg"))
    book = plan(demo_case(path=path), tables(), rules())
    told = plan_of(plan(demo_case(Learned(shifts, friction), path), tables(), rules()))
    plain = plan_of(book)
    assert set(plain.cautions) <= set(told.cautions)
    for route in plain.routes:
        same = [r for r in told.routes if way(r) == way(route)]
        for other in same:
            assert {c.id for c in route.cautions} <= {c.id for c in other.cautions}
    assert {r.opening for r in plain.routes} == {r.opening for r in told.routes}


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path / "own"))
    return tmp_path


def learned() -> Learned:
    return lessons_now(rules_dir(), tables(), rules())[0].learned


def test_forgetting_or_deleting_a_job_restores_the_state_before(home):
    assert learned() is BOOK
    one, two = job(home / "one", 1), job(home / "two", 2)
    remember([one], forget=False)
    first = learned()
    assert first.changes
    remember([two], forget=False)
    assert learned() != first
    remember([two], forget=True)
    assert learned() == first
    remember([two], forget=False)
    shutil.rmtree(two)
    lessons, faults = lessons_now(rules_dir(), tables(), rules())
    assert lessons.learned == first
    assert len(faults) == 1
    remember([one], forget=True)
    assert learned() is BOOK


@pytest.mark.slow
def test_what_was_worked_out_before_changes_nothing(home):
    remember([job(home / "one", 1)], forget=False)
    first = learned()
    cache = home / "own" / CACHE
    assert cache.is_file()
    assert learned() == first
    for content in ("", "[]", "{", '{"x": 1}', '{"x": {"tries": 3}}'):
        cache.write_text(content)
        assert learned() == first
    cache.unlink()
    assert learned() == first


def test_an_undone_try_is_unlearned(home):
    folder = job(home / "one", 1)
    remember([folder], forget=False)
    log_ = Log.open(folder / "log.db")
    before = learned()
    extra = log_.append("try", 4.0, {"technique": "quick push", "way": "bend", "book": 0.5, "planned": True,
                                     "outcome": "passed"}, NOON + timedelta(hours=1))  # fmt: skip
    assert learned() != before
    log_.undo(extra.number, NOON + timedelta(hours=2))
    assert learned() == before


def test_bad_jobs_are_told_and_the_list_stays(home):
    with pytest.raises(BadInput, match="no such folder"):
        remember([home / "nowhere"], forget=False)
    (home / "empty").mkdir()
    with pytest.raises(BadInput, match="no log"):
        remember([home / "empty"], forget=False)
    with pytest.raises(BadInput, match="nothing is learned"):
        remember([home / "empty"], forget=True)
    assert listed() == ()


def run(*arguments: str) -> int:
    with pytest.raises(SystemExit) as ended:
        main(list(arguments))
    return int(ended.value.code or 0)


def test_the_command_and_the_plan_say_what_was_learned(home, capsys):
    folder = job(home / "one", 1, tries=3)
    assert run("learn") == 0
    assert "goes by the book" in capsys.readouterr().out
    assert run("learn", str(folder)) == 0
    shown = capsys.readouterr().out
    assert "1 of 3" in shown
    assert "mostly book value" in shown
    assert "80 of 100" in shown
    assert run("plan", str(folder), "--worlds", "100") == 0
    assert "Learned from your pushes: " in capsys.readouterr().out
    shutil.rmtree(folder)
    assert run("learn", "show") == 2
    assert "no such folder" in capsys.readouterr().err
