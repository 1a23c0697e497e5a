"""A place is told from what stands there, not from one that is itself told by a length from another."""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import SIGHTING
from advisor.push.now.since import _thing, passed
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from tests.terminal.test_now_shown import pushed

SITE = """
site: invented
region: britain
built: 1962
map: measured
lines:
  - line: back drain
    kind: drain
    size: 100 mm
    material: clay
    pieces:
      - opening: rear eye
        kind: rodding eye
        opens: yes
      - pipe: 5 m
      - opening: front chamber
        kind: inspection chamber
        opens: yes
      - pipe: 9 m
        landmark: garden wall
      - end: public sewer
task:
  look at: back drain, from rear eye to END
  complaint:
    holding: no
    chemicals: no
"""


@pytest.mark.parametrize("end", ["1 m below front chamber", "public sewer"])
def test_past_the_end_of_what_is_to_be_seen_it_is_told_from_the_chamber(capsys, end):
    """What is to be seen ends 1 m below the chamber, 5 m down: nobody finds that in the ground."""
    now = pushed(
        SITE.replace("END", end), "rear eye", (SIGHTING, 7.8, {"what": "nothing"}), direction="downstream"
    )
    show_now(now, Page())
    said = " ".join(capsys.readouterr().out.split())
    where = said.partition("Where: ")[2].partition("Likely")[0]
    assert "past front chamber" in where
    assert "1 m below" not in where


def test_a_landmark_of_the_sheet_still_gives_its_name():
    network = pushed(SITE.replace("END", "1 m below front chamber"), "rear eye").push.study.network
    marks = {piece.name: piece.only_measured for piece in network.pieces.values() if piece.kind == "mark"}
    assert marks == {"1 m below front chamber": True, "garden wall": False}


def test_a_landmark_that_was_seen_goes_by_its_own_name_though_what_is_to_be_seen_ends_there():
    now = pushed(
        SITE.replace("END", "0 m below front chamber"),
        "rear eye",
        (SIGHTING, 5.6, {"what": "chamber"}),
        direction="downstream",
    )
    seen = [_thing(now, each.landmark).name for each in passed(now)]
    assert seen == ["front chamber"]
