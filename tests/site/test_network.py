"""What a sheet becomes: positions, footage, loops, walls and names, worked by hand on small sheets."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.errors import BadInput
from advisor.site.build import network_of
from advisor.site.network import likely
from advisor.site.sheet import site_of_text
from advisor.site.suspects import suspects
from advisor.site.target import target_of
from tests.cases.jobs import tables

DRAIN = """
site: by hand
region: {region}
map: measured
lines:
  - line: drain
    size: 100 mm
    material: pvc
    condition: sound
    slope: {slope}
    pieces:
      - opening: plug
        kind: end cleanout
{pieces}
      - end: public sewer
{lines}
"""


def sheet_of(*pieces: str, lines: str = "", region: str = "britain", slope: str = "2 %", task: str = ""):
    rows = "\n".join(f"      - {piece}" for piece in pieces)
    text = DRAIN.format(pieces=rows, lines=lines, region=region, slope=slope) + task
    return site_of_text(text, "sheet", tables())


def laid(*pieces: str, **more: str):
    return network_of(sheet_of(*pieces, **more), tables())


def length(network, line="drain"):
    return sum(network.pieces[key].along for key in network.lines[line])


def named(network, name):
    return next(piece for piece in network.pieces.values() if name in (piece.name, piece.branch))


class TestFootage:
    def test_of_a_bend_is_measured_from_the_opening_above(self):
        network = laid("{pipe: 2 m}", "{bend: 1/8 bend, at: 5 m}", "{pipe: 1 m}")
        assert network.positions("drain")[named(network, "1/8 bend").id] == pytest.approx(5.0)
        assert length(network) == pytest.approx(6.0)

    def test_starts_again_at_each_opening(self):
        pieces = ("{opening: eye, kind: rodding eye, at: 5 m}", "{bend: 1/8 bend, at: 3 m}", "{pipe: 1 m}")
        network = laid(*pieces)
        assert network.positions("drain")[named(network, "1/8 bend").id] == pytest.approx(8.0)

    def test_tells_the_length_of_an_unknown_pipe_above(self):
        network = laid("{pipe: unknown}", "{bend: 1/8 bend, at: 0.7 m}", "{pipe: 1 m}")
        assert length(network) == pytest.approx(1.7)
        assert sum(piece.kind == "pipe" for piece in network.pieces.values()) == 2
        assert not [each for each in network.assumed if each.about.startswith("length")]

    def test_leaves_other_guesses_assumed(self):
        network = laid("{pipe: unknown}", "{bend: 1/8 bend, at: 40 m}", "{pipe: unknown}")
        assert [each.about for each in network.assumed] == ["length of a pipe in drain, below plug"]

    def test_keeps_its_range(self):
        network = laid("{pipe: 2 m}", "{bend: 1/8 bend, at: 5 to 7 m}")
        pipe = [piece for piece in network.pieces.values() if piece.kind == "pipe"][1]
        assert (pipe.length.low, pipe.length.likely, pipe.length.high) == pytest.approx((3.0, 4.0, 5.0))

    def test_backwards_is_refused_at_its_line(self):
        with pytest.raises(BadInput, match="sheet:15: at: this lies above"):
            laid("{pipe: 2 m}", "{bend: 1/8 bend, at: 1 m}")


class TestWalls:
    def test_a_change_of_condition_keeps_the_material_and_assumes_nothing(self):
        network = laid("{pipe: 2 m}", "{change: {condition: moderate scale}}", "{pipe: 1 m}")
        below = named(network, "public sewer").wall
        assert below.material.likeliest == "pvc"
        assert below.condition.likeliest == "moderate scale"
        assert network.assumed == ()

    def test_a_slope_given_as_a_range_is_taken_in_its_middle_and_said(self):
        network = laid("{pipe: 2 m}", slope="1 to 2 %")
        assert named(network, "plug").slope.value == pytest.approx(0.015)
        (said,) = network.assumed
        assert (said.about, said.taken) == ("slope of drain", "the middle of what was given")

    def test_the_step_of_a_joint_is_no_length_of_pipe(self):
        network = laid("{pipe: 2 m}", "{joint: offset, step: 20 mm}", "{pipe: 1 m}")
        assert length(network) == pytest.approx(3.0)
        assert likely(named(network, "offset joint").length) == pytest.approx(0.02)


LOOP = """
  - line: loop
    size: 50 mm
    pieces:
      - tied to: drain
      - pipe: 1 m
"""


class TestLoops:
    def test_a_loop_on_one_line_leaves_it_above_and_comes_back_below(self):
        network = laid(
            "{pipe: 2 m}",
            "{joined by: loop, name: upper}",
            "{pipe: 3 m}",
            "{joined by: loop, name: lower}",
            lines=LOOP,
        )
        upper, lower = named(network, "upper"), named(network, "lower")
        first, last = network.lines["loop"][0], network.lines["loop"][-1]
        assert network.links[(upper.id, "branch")] == (first, "up")
        assert network.links[(lower.id, "branch")] == (last, "down")

    def test_of_two_joinings_one_must_be_meant(self):
        pieces = ("{pipe: 2 m}", "{joined by: loop}", "{pipe: 3 m}", "{joined by: loop}")
        sheet = sheet_of(*pieces, lines=LOOP, task="task: {look at: where loop joins}\n")
        with pytest.raises(BadInput, match="'loop' joins in 2 places"):
            target_of(sheet, network_of(sheet, tables()))


class TestNames:
    PIECES = (
        "{pipe: 2 m}",
        "{bend: 1/8 bend, name: by the door}",
        "{pipe: 3 m}",
        "{bend: 1/4 bend}",
        "{pipe: 1 m}",
    )

    @given(st.integers(0, 1), st.sampled_from(["{bend: 1/16 bend}", "{joint: open}", "{pipe: 1 m}"]))
    def test_a_piece_with_a_name_keeps_its_id_whatever_is_put_before_it(self, at, piece):
        more = (*self.PIECES[:at], piece, *self.PIECES[at:])
        before, after = laid(*self.PIECES), laid(*more)
        for name in ("by the door", "1/4 bend", "public sewer"):
            assert named(before, name).id == named(after, name).id

    def test_the_name_can_be_looked_at(self):
        task = "task: {look at: 'drain, 1 m below by the door'}\n"
        sheet = sheet_of(*self.PIECES, task=task)
        network, target = target_of(sheet, network_of(sheet, tables()))
        assert network.positions("drain")[target.span[0]] == pytest.approx(3.0)

    def test_two_of_one_name_are_refused_when_meant(self):
        pieces = ("{pipe: 2 m}", "{bend: 1/8 bend}", "{pipe: 3 m}", "{bend: 1/8 bend}")
        sheet = sheet_of(*pieces, task="task: {look at: 'drain, 1 m below 1/8 bend'}\n")
        with pytest.raises(BadInput, match="2 pieces of drain are called '1/8 bend'"):
            target_of(sheet, network_of(sheet, tables()))


class TestPoints:
    @pytest.mark.parametrize(
        ("region", "words", "told"),
        [
            ("britain", "drain, at 7 m", "about 6 m long"),
            ("north america", "drain, at 40 ft", "about 20 ft long"),
        ],
    )
    def test_beyond_the_end_is_told_in_the_user_s_units(self, region, words, told):
        sheet = sheet_of("{pipe: 6 m}", region=region, task=f"task: {{look at: '{words}'}}\n")
        with pytest.raises(BadInput, match=told):
            target_of(sheet, network_of(sheet, tables()))

    def test_the_very_end_is_a_place(self):
        sheet = sheet_of("{pipe: 4 m}", "{pipe: 2 m}", task="task: {look at: 'drain, at 6 m'}\n")
        network, target = target_of(sheet, network_of(sheet, tables()))
        assert network.positions("drain")[target.span[0]] == pytest.approx(6.0)
        assert length(network) == pytest.approx(6.0)

    def test_where_a_fixture_joins(self):
        sheet = sheet_of(
            "{pipe: 2 m}", "{fixture: basin}", "{pipe: 2 m}", task="task: {look at: where basin joins}\n"
        )
        network, target = target_of(sheet, network_of(sheet, tables()))
        assert target.kind == "connection"
        assert network.pieces[target.span[0]].branch == "basin arm"


def test_a_fine_fixture_counts_where_it_is_low_and_was_tested():
    """Water let out of a bath all at once fills the drain below: it would show a stoppage there.

    Common practice, no source.
    """
    bath = "  - line: arm\n    size: 50 mm\n    pieces:\n      - fixture: FIXTURE\n      - pipe: 1 m\n"

    def below(fixture, complaint):
        pieces = (
            "{pipe: 6 m}",
            "{joined by: arm}",
            "{pipe: 6 m}",
            "{opening: eye, kind: rodding eye, water: standing}",
            "{pipe: 6 m}",
        )
        sheet = sheet_of(
            *pieces, lines=bath.replace("FIXTURE", fixture), task=f"task:\n  complaint: {{{complaint}}}\n"
        )
        network = network_of(sheet, tables())
        found = suspects(network, sheet.model.task.complaint, tables())
        return sum(s.share for s in found if s.upper in ("arm", "eye") and s.line == "drain")

    untested = below("bath", "fine: [bath]")
    tested = below("bath", "fine: [bath], tested with volume: [bath]")
    high = below("basin", "fine: [basin], tested with volume: [basin]")
    assert tested < untested - 0.02
    assert high == pytest.approx(below("basin", "fine: [basin]"))


LAUNDRY = """
  - line: laundry line
    size: 50 mm
    pieces:
      - {fixture: laundry tub, label: tub}
      - pipe: 9 m
  - line: bath line
    size: 100 mm
    pieces:
      - {fixture: toilet}
      - pipe: 3 m
"""


def odds(complaint: str, piece: str, against: str = "bath line", lines: str = LAUNDRY) -> float:
    """How much likelier the trouble lies in the section that begins at a piece than in another line."""
    shape = (
        "{pipe: 4 m}",
        "{joined by: laundry line}",
        "{pipe: 6 m}",
        "{joined by: bath line}",
        "{pipe: 8 m}",
    )
    sheet = sheet_of(*shape, lines=lines, task=f"task:\n  complaint: {{{complaint}}}\n")
    found = suspects(network_of(sheet, tables()), sheet.model.task.complaint, tables())
    share = {s.upper: s.share for s in found}
    assert sum(share.values()) == pytest.approx(1)
    return share[piece] / next(s.share for s in found if s.line == against)


def test_pipe_that_serves_only_what_runs_fine_is_cleared_however_high_it_stands():
    """What is stopped there is the tub's own water: it could not run away (nothing else comes in).
    Below where the toilet joins, a high fixture that runs fine tells as little as before (Bayes by hand)."""
    ratio = {name: tables().signs[name].likely for name in ("fine, alone", "fine, below", "fine, beside")}
    before = {piece: odds("slow: [toilet]", piece) for piece in ("tub", "laundry line", "bath line")}
    after = {piece: odds("slow: [toilet], fine: [tub]", piece) for piece in before}
    for own in ("tub", "laundry line"):
        assert after[own] == pytest.approx(before[own] * ratio["fine, alone"] / ratio["fine, beside"])
    shared = before["bath line"] * ratio["fine, below"] / ratio["fine, beside"]
    assert after["bath line"] == pytest.approx(shared)


@pytest.mark.parametrize(
    "more", ["- {fixture: basin, label: basin}", "- {opening: eye, kind: rodding eye, water: standing}"]
)
def test_where_something_else_drains_or_water_stands_what_runs_fine_clears_no_pipe(more):
    """Nobody has said how the basin runs; and water that stands on the way was not let by."""
    lines = LAUNDRY.replace("      - pipe: 9 m\n", f"      - pipe: 4 m\n      {more}\n      - pipe: 5 m\n")
    ratio = {name: tables().signs[name].likely for name in ("fine, below", "fine, beside")}
    told = [odds(f"slow: [toilet]{fine}", "laundry line", lines=lines) for fine in ("", ", fine: [tub]")]
    assert told[1] == pytest.approx(told[0] * ratio["fine, below"] / ratio["fine, beside"])


@pytest.mark.parametrize("complaint", ["fine: [tub]", "fine: [tub], holding: no", ""])
def test_where_nothing_runs_badly_nothing_is_a_suspect(complaint):
    """A smell with everything running away: what nobody has spoken of is no likelier for that."""
    lines = LAUNDRY.partition("  - line: bath")[0]
    task = f"task:\n  complaint: {{{complaint}}}\n"
    sheet = sheet_of("{pipe: 4 m}", "{joined by: laundry line}", "{pipe: 6 m}", lines=lines, task=task)
    found = suspects(network_of(sheet, tables()), sheet.model.task.complaint, tables())
    assert found == ()
