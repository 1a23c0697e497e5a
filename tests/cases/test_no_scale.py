"""On plastic no scale grows: nothing there is descaled, a chain would cut the pipe.

Iron and steel rust inside, plastic does not; that a descaling tool harms plastic is common practice.
"""

from __future__ import annotations

import json
import re
from dataclasses import replace

import pytest

from advisor.explain.change import cures
from advisor.outcome.memory import Memory
from advisor.plan import plan
from advisor.result.build import plan_of
from advisor.site.sheet import site_of_text
from tests.cases.hazards import run, site
from tests.cases.jobs import note, rules, tables, technique
from tests.cases.test_every_rule import case, studied

DESCALED = re.compile(r"descal|take off the scale|scraper", re.IGNORECASE)
JOBS = {"choked plastic": False, "long head": True}  # the same way, of plastic and of iron


@pytest.mark.parametrize(("job", "iron"), JOBS.items())
def test_what_clears_the_wall_first_looks_at_the_material(job, iron):
    made = plan_of(studied(job))
    first = technique(note(made, made.routes[0].opening, "knuckle"), "clean first")
    assert first.verdict in ("try", "required")
    said = " ".join(first.steps)
    assert ("Do not descale" in said) == iron
    assert ("No chain, no cutter" in said) == (not iron)
    if not iron:
        assert not DESCALED.search(json.dumps(made.model_dump(exclude={"weak"})))


@pytest.mark.parametrize(("material", "what"), [("cast iron", "descale"), ("pvc", "flush")])
def test_what_would_change_it_looks_at_the_material(material, what):
    pipe = run("kind: end cleanout", "pipe: 3 m", size="2 in", material=material, condition="heavy scale")
    told = replace(case("long head"), sheet=site_of_text(site(pipe, "run"), "site", tables()))
    found = cures(told, plan(told, tables(), rules()), tables(), rules(), Memory())
    first = [each.what for each in found if each.what.endswith("run first")]
    assert first == [f"{what} run first"]
