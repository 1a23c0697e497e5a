"""Names that a terminal, a printer or a spreadsheet would obey, through every command and into every file.

A name on a sheet or in a log may hold escapes, marks that turn the writing round, signs of no width, and
formulas. Wherever it is shown it stands there as plain signs; nothing of it may be obeyed.
"""

from __future__ import annotations

import csv
import json
import unicodedata
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from advisor.cli import main
from advisor.push.log.log import Log

NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)
# ESC and a colour, bell, a C1 control, right-to-left override, no width, a line break of its own, a formula.
HOSTILE = '=A1+\\e[31m\\x07\\x9b2J\\u202e\\u200b\\u2028[red]<b>\\"'
TOLD = '=A1+\x1b[31m\x07\x9b2J\u202e\u200b\u2028[red]<b>"'
SITE = f"""
site: "site {HOSTILE}"
region: north america
built: 1962
map: sketch
lines:
  - line: "drain {HOSTILE}"
    kind: drain
    size: 4 in
    material: cast iron
    pieces:
      - opening: "plug {HOSTILE}"
        kind: end cleanout
        depth: 400 mm
      - pipe: 3 m
        landmark: "wall {HOSTILE}"
      - bend: 1/4 bend
      - joined by: "line {HOSTILE}"
        fitting: unknown
        side: left
      - pipe: 12 m
      - end: public sewer
  - line: "line {HOSTILE}"
    size: 2 in
    pieces:
      - fixture: basin
        label: "basin {HOSTILE}"
      - pipe: 3 m
task:
  look at: "drain {HOSTILE}"
  complaint: {{holding: no, slow: ["basin {HOSTILE}"]}}
"""


def harmful(text: str) -> list[str]:
    """Signs that something would obey; a line break and a tab are the writer's own."""
    return [sign for sign in text if unicodedata.category(sign)[0] == "C" and sign not in "\n\t"] + [
        sign for sign in text if sign in "\u2028\u2029"
    ]


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "job"
    folder.mkdir()
    (folder / "site.yaml").write_text(SITE, encoding="utf-8")
    log = Log.open(folder / "log.db")
    told = [
        ("start", 0.0, {"opening": f"plug {TOLD}", "direction": "known", "operator": TOLD}),
        ("sighting", 3.4, {"what": "bend", "note": TOLD, "photo": f"{TOLD}.jpg"}),
        ("find", 5.0, {"what": f"crack {TOLD}", "line": f"drain {TOLD}", "distance": 4.0, "advice": TOLD}),
        (
            "mark",
            5.0,
            {"name": TOLD, "line": f"drain {TOLD}", "distance": 4.0, "tape_a": TOLD, "from_a": 2.0},
        ),
        ("note", None, {"text": TOLD}),
        ("try", 6.0, {"technique": "steady push", "outcome": "passed", "spot": TOLD, "note": TOLD}),
    ]
    for number, (kind, counter, data) in enumerate(told):
        log.append(kind, counter, data, NOON + timedelta(minutes=number))
    log.close()
    monkeypatch.chdir(tmp_path)
    return folder


SHOWN = [
    ["check", "job/site.yaml"],
    ["plan", "job", "--worlds", "100"],
    ["plan", "job", "--worlds", "100", "--json"],
    ["explain", "how", "--site", "job", "--full", "--worlds", "100"],
    ["explain", "why-not", "--site", "job", "--full", "--worlds", "100"],
    ["explain", "matters", "--site", "job", "--json", "--worlds", "100"],
    ["card", "job", "--worlds", "100"],
    ["card", "job", "-o", "card.txt", "--worlds", "100"],
    ["report", "job", "-o", "report.html", "--worlds", "100"],
    ["card", "job", "--format", "svg", "--worlds", "100"],
    ["report", "job", "--format", "txt", "--worlds", "100"],
    ["report", "job", "--format", "html", "--worlds", "100"],
    ["log", "job"],
    ["log", "job", "--csv"],
    ["log", "job", "--json"],
    ["log", "job", "--geojson"],
    ["learn", "job"],
    ["learn"],
]


@pytest.mark.parametrize("command", SHOWN, ids=" ".join)
def test_what_is_shown_obeys_nobody(job, capsys, command):
    with pytest.raises(SystemExit) as ended:
        main(command)
    out, err = capsys.readouterr()
    assert ended.value.code == 0, err
    assert out
    written = "".join(path.read_text(encoding="utf-8") for path in texts())
    assert not harmful(out + err + written)


def texts() -> list[Path]:
    """Files of text that a command wrote."""
    kinds = (".txt", ".html", ".csv", ".svg", ".json")
    return [path for path in Path().rglob("*") if path.suffix in kinds]


def test_a_name_that_a_browser_would_obey_is_text(job):
    with pytest.raises(SystemExit):
        main(["report", "job", "--format", "html", "--worlds", "100"])
    told = Path("job/report.html").read_text(encoding="utf-8")
    assert "[red]&lt;b&gt;" in told
    assert "[red]<b>" not in told


def test_tables_hold_no_formula(job, capsys):
    with pytest.raises(SystemExit):
        main(["log", "job", "--csv"])
    rows = list(csv.reader(capsys.readouterr().out.splitlines()))
    with pytest.raises(SystemExit) as ended:
        main(["batch", "job", "-o", "plans.csv", "--worlds", "100", "--cores", "1"])
    assert ended.value.code == 0
    text = Path("plans.csv").read_text(encoding="utf-8")
    assert not harmful(text)
    rows += list(csv.reader(text.splitlines()))
    cells = [cell for row in rows for cell in row]
    assert any("A1" in cell for cell in cells), "the names are there"
    assert not [cell for cell in cells if cell[:1] in "=+@" and cell]


@pytest.mark.parametrize("command", [["log", "job", "--json"], ["plan", "job", "--json", "--worlds", "100"]])
def test_what_is_written_out_for_machines_gives_the_name_back(job, capsys, command):
    with pytest.raises(SystemExit):
        main(command)
    told = json.loads(capsys.readouterr().out)
    # A line break within a name is a space to a sheet.
    assert TOLD.replace("\u2028", " ") in "".join(_strings(told)).replace("\u2028", " ")


def _strings(tree: object) -> Iterator[str]:
    if isinstance(tree, str):
        yield tree
    elif isinstance(tree, list):
        for each in tree:
            yield from _strings(each)
    elif isinstance(tree, dict):
        for each in tree.values():
            yield from _strings(each)


def test_a_refused_name_is_shown_as_signs(job, capsys):
    for command in (
        ["plan", "job", "--loadout", TOLD],
        ["explain", TOLD],
        [TOLD],
        ["plan", f"no/{TOLD}.yaml"],
    ):
        with pytest.raises(SystemExit) as ended:
            main(command)
        out, err = capsys.readouterr()
        assert ended.value.code == 2
        assert not harmful(out + err)
