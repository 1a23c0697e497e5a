"""A drill from a real job: what was tried is the question, and no name is left in it."""

from __future__ import annotations

import re
from dataclasses import asdict
from datetime import UTC, datetime

import pytest

from advisor.demo import MAIN
from advisor.errors import BadInput
from advisor.job.folder import Job
from advisor.practice.from_job import from_job, names_of, without_names
from advisor.push.log.log import Log
from advisor.site.sheet import site_of_text
from advisor.strict_yaml import plain, written
from tests.cases.jobs import tables
from tests.practice.school import school

NOW = datetime(2026, 5, 4, 10, tzinfo=UTC)
SITE = """
site: Mrs Quillfeather, 12 Elder Row
region: north america
built: 1958
lines:
  - line: Quillfeather main
    kind: drain
    size: 4 in
    material: cast iron
    pieces:
      - {opening: Odalys plug, kind: end cleanout, opens: yes}
      - pipe: 10 ft
        landmark: Quillfeather wall
      - bend: 1/4 bend
        note: Odalys heard it
      - pipe: 6 ft
      - {opening: yard plug, kind: yard cleanout, opens: yes}
      - pipe: 20 ft
      - {joined by: Elder arm, fitting: sanitary tee}
      - pipe: 10 ft
      - {end: Elder Row sewer}
  - line: Elder arm
    kind: branch
    size: 3 in
    pieces:
      - {fixture: toilet, label: Odalys toilet}
      - pipe: 4 ft
task:
  look at: "Quillfeather main, from Elder arm to Elder Row sewer"
  complaint: {slow: [Odalys toilet], holding: no}
"""
NAMES = ("quillfeather", "odalys", "elder")


def _job(folder, site=SITE):
    (folder / "site.yaml").write_text(site)
    return Job(folder)


def test_no_name_is_left_in_the_drill(tmp_path):
    drill = from_job(_job(tmp_path), school(), 1)
    assert drill.kind == "opening"
    told = repr(asdict(drill)).lower()
    assert not [name for name in NAMES if name in told]
    assert "opening 1" in told
    tree = plain(site_of_text(SITE, "site", tables()).tree)
    assert not [
        name for name in NAMES if name in written(without_names(tree, names_of(tree, tables()))).lower()
    ]


@pytest.mark.parametrize(("said", "seen"), [("", True), ("", False), (", holding: yes", True)])
def test_that_it_was_seen_to_drain_as_the_push_began_is_known(tmp_path, said, seen):
    job = _job(tmp_path, SITE.replace(", holding: no", said))
    log = Log.open(job.log)
    log.append("start", 0.0, {"opening": "Odalys plug", "drains": seen}, NOW)
    log.append("try", 3.0, {"technique": "quick push", "outcome": "stopped"}, NOW)
    drill = from_job(job, school(), 1)
    assert ("The line drains." in " ".join(drill.story)) is seen


def test_what_failed_on_the_job_is_what_has_failed_in_the_drill(tmp_path):
    job = _job(tmp_path)
    log = Log.open(job.log)
    log.append("start", 0.0, {"opening": "Odalys plug"}, NOW)
    for technique, outcome in (
        ("quick push", "stopped"),
        ("quick push", "stopped"),
        ("turn the rod", "passed"),
    ):
        log.append("try", 3.0, {"technique": technique, "outcome": outcome, "note": "Odalys"}, NOW)
    drill = from_job(job, school(), 1)
    assert drill.kind == "stop"
    assert "Failed so far: steady push 1x, quick push 2x." in drill.story
    assert drill.afterwards == "On the job turn the rod passed in the end."
    assert not [name for name in NAMES if name in repr(asdict(drill)).lower()]


def test_what_the_drain_ends_in_keeps_its_kind():
    """A tank holds the head in the drill as on the job; the name of a street goes."""
    pieces = [{"end": "septic tank"}, {"end": "Elder Row sewer"}]
    names = names_of({"lines": [{"line": "main", "pieces": pieces}]}, tables())
    assert without_names(pieces, names) == [{"end": "septic tank"}, {"end": "sewer 1"}]


def test_a_name_inside_a_word_stays():
    tree = {
        "site": "x",
        "lines": [{"line": "main", "kind": "drain", "pieces": []}],
        "task": {"look at": "main"},
    }
    names = names_of(tree, tables())
    assert without_names("remaining, main, from main to mainland", names) == (
        "remaining, drain 1, from drain 1 to mainland"
    )


def test_the_demo_house_gives_a_drill(tmp_path):
    drill = from_job(_job(tmp_path, MAIN.read_text()), school(), 1)
    assert len(drill.asks[0].options) > 2


@pytest.mark.parametrize(("kept", "unit", "other"), [("metric\n", " m", " ft"), (None, " ft", " m")])
def test_it_is_told_in_the_units_of_the_job(tmp_path, kept, unit, other):
    """Those kept in its folder stand before those of its region."""
    job = _job(tmp_path)
    if kept is not None:
        job.units.write_text(kept)
    drill = from_job(job, school(), 1)
    shown = " ".join(option.words for option in drill.asks[0].options)
    assert re.search(rf"\d{unit}\b", shown)
    assert not re.search(rf"\d{other}\b", shown)


def test_a_folder_that_is_no_job_is_told(tmp_path):
    with pytest.raises(BadInput, match=r"no site\.yaml in this folder"):
        from_job(Job(tmp_path), school(), 1)
