"""Network, targets, routes and suspects, worked by hand on one small house."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.routes.enumerate import MOST_ROUTES, routes_to
from advisor.site.build import network_of
from advisor.site.network import likely
from advisor.site.sheet import site_of_text
from advisor.site.suspects import is_holding, suspect_target, suspects
from advisor.site.target import target_of
from tests.cases.jobs import tables

HOUSE = """
site: by hand
region: north america
built: 1990
map: measured
lines:
  - line: drain
    kind: drain
    size: 4 in
    material: pvc
    pieces:
      - opening: head plug
        kind: end cleanout
        water: WATER_HEAD
      - pipe: 3 m
      - joined by: stack
        fitting: combination
      - pipe: 4 m
EXTRA
        landmark: wall
      - opening: yard plug
        kind: two-way cleanout
        water: WATER_YARD
      - pipe: 10 m
      - end: public sewer
  - line: stack
    size: 3 in
    material: pvc
    pieces:
      - opening: roof
        kind: roof vent
      - drop: 6 m
      - joined by: toilet line
        fitting: sanitary tee
      - drop: 2 m
      - bend: long sweep
  - line: toilet line
    size: 3 in
    material: pvc
    pieces:
      - opening: toilet
        kind: toilet flange
      - bend: closet bend
      - pipe: 1 m
task:
  look at: "TARGET"
  complaint: {COMPLAINT}
"""


def laid(target="drain", complaint="holding: no", head="unknown", yard="unknown", extra="      - pipe: 2 m"):
    text = HOUSE.replace("TARGET", target).replace("COMPLAINT", complaint)
    text = text.replace("WATER_HEAD", head).replace("WATER_YARD", yard).replace("EXTRA", extra)
    sheet = site_of_text(text, "house", tables())
    network, found = target_of(sheet, network_of(sheet, tables()))
    return sheet, network, found


def routes(target: str):
    _, network, found = laid(target)
    assert found is not None
    return routes_to(network, found, tables())[0]


def named(network, name):
    return next(p for p in network.pieces.values() if name in (p.name, p.branch))


class TestNetwork:
    def test_water_from_the_toilet_runs_down_the_stack_and_the_drain(self):
        _, network, _ = laid()
        names = [network.pieces[key].name for key in network.downstream(named(network, "toilet").id)]
        assert names[0] == "toilet"
        assert names[-1] == "public sewer"
        assert "head plug" not in names

    def test_lies(self):
        _, network, _ = laid()
        assert named(network, "toilet line").lie == "stack"
        assert named(network, "stack").lie == "flat"  # the sweep at its foot has turned it level

    def test_links_go_both_ways(self):
        _, network, _ = laid()
        assert all(network.links[other] == one for one, other in network.links.items())

    def test_positions_add_up(self):
        _, network, _ = laid()
        at = network.positions("drain")
        assert at[named(network, "yard plug").id] == pytest.approx(9.0)

    @given(st.sampled_from(["      - bend: 1/8 bend\n", "      - joint: open\n", "      - belly: 1 m\n"]))
    def test_an_inserted_piece_leaves_all_other_ids_alone(self, piece):
        _, before, _ = laid()
        _, after, _ = laid(extra=piece + "      - pipe: 2 m")
        assert set(before.pieces) <= set(after.pieces)

    def test_running_footage_stands_for_the_pipe_between(self):
        _, network, _ = laid(extra="      - bend: 1/8 bend\n        at: 9 m\n      - pipe: 1 m")
        length = sum(likely(network.pieces[key].length) for key in network.lines["drain"])
        # 3 + 4 drawn, up to 9 m from the head plug by footage, then 1 and 10.
        assert length == pytest.approx(20.0)


class TestTargets:
    def test_whole_line(self):
        _, network, target = laid("drain")
        assert target.span == network.lines["drain"]

    def test_stretch_by_names_and_landmark(self):
        _, network, target = laid("drain, from stack to wall")
        names = [network.pieces[key].name for key in target.span]
        assert names[0] == "stack"
        assert names[-1] == "wall"
        assert sum(likely(network.pieces[key].length) for key in target.span) == pytest.approx(6.0)

    @pytest.mark.parametrize(("words", "metres"), [("drain, at 5 m", 5.0), ("drain, 2 m below stack", 5.0)])
    def test_points(self, words, metres):
        _, network, target = laid(words)
        assert target.is_point
        assert network.positions("drain")[target.span[0]] == pytest.approx(metres)
        length = sum(likely(network.pieces[key].length) for key in network.lines["drain"])
        assert length == pytest.approx(19.0)

    def test_connection_and_opening(self):
        assert laid("where toilet line joins")[2].kind == "connection"
        assert laid("yard plug")[2].kind == "opening"


class TestRoutes:
    def test_every_simple_route_to_the_whole_drain(self):
        found = {(r.opening.name, r.passages[0].leaves): r.covers for r in routes("drain")}
        # Only the head plug passes it all; 3 m are missed by whoever comes in at the stack (19 m in all),
        # the yard plug sees 10 m down or 9 m up.
        assert found[("head plug", "down")] == 1.0
        assert found[("roof", "down")] == pytest.approx(16 / 19)
        assert found[("yard plug", "down")] == pytest.approx(10 / 19)
        assert found[("yard plug", "up")] == pytest.approx(9 / 19)

    def test_ports_and_flow_on_the_way_from_the_toilet(self):
        route = next(r for r in routes("drain, from stack to public sewer") if r.opening.name == "toilet")
        joins = [(p.piece.branch, p.enters, p.leaves) for p in route.passages if p.piece.kind == "junction"]
        assert joins == [("toilet line", "branch", "down"), ("stack", "branch", "down")]
        assert route.direction == "with"
        assert route.covers == 1.0

    def test_up_from_the_yard_into_the_stack_is_against_the_flow(self):
        route = next(r for r in routes("where toilet line joins") if r.opening.name == "yard plug")
        joins = [(p.piece.branch, p.enters, p.leaves) for p in route.passages if p.piece.kind == "junction"]
        assert joins == [("stack", "down", "branch"), ("toilet line", "down", "")]
        assert {p.flow for p in route.passages if p.piece.kind == "junction"} == {"against"}


class TestSuspects:
    def section(self, complaint, **water):
        sheet, network, _ = laid("suspect section", complaint, **water)
        found = suspects(network, sheet.model.task.complaint, tables())
        assert sum(s.share for s in found) == pytest.approx(1.0)
        return {s.words: s.share for s in found}, suspect_target(found, network), network, sheet

    def test_a_slow_toilet_points_below_itself_and_never_above(self):
        shares, *_ = self.section("slow: [toilet]")
        above = sum(
            share for words, share in shares.items() if "head plug to stack" in words or "roof to" in words
        )
        assert above < 0.1

    def test_dry_yard_and_full_head_place_it_between(self):
        shares, target, *_ = self.section("slow: [toilet]", head="standing", yard="dry")
        assert target.words == max(shares, key=shares.get)
        assert target.words == "drain, from stack to yard plug"

    def test_full_at_the_yard_places_it_beyond(self):
        _, target, *_ = self.section("slow: [toilet]", head="standing", yard="standing")
        assert target.words == "drain, from yard plug to public sewer"

    def test_fine_counts_little_unless_low_and_tested(self):
        def beyond(complaint):
            return self.section(complaint)[0]["drain, from yard plug to public sewer"]

        alone = beyond("slow: [toilet]")
        fine = beyond("slow: [toilet], fine: [roof]")
        assert fine == pytest.approx(alone, abs=0.2)

    def test_is_holding(self):
        for complaint, water, expected in (
            ("holding: yes", {}, True),
            # It cannot be empty and stand full: nobody has looked.
            ("holding: no", {"yard": "standing"}, None),
            ("holding: no", {}, False),
            ("slow: [toilet]", {"yard": "standing"}, True),
            # Dry below a blockage, with the drain full above it; and dry above the water.
            ("slow: [toilet]", {"yard": "dry"}, None),
            ("slow: [toilet]", {"head": "dry"}, None),
            ("slow: [toilet]", {}, None),
        ):
            sheet, network, _ = laid("drain", complaint, **water)
            assert is_holding(network, sheet.model.task.complaint) is expected


class TestLargeAndLooped:
    def site(self, lines: str, look_at: str):
        text = f"site: large\nregion: britain\nlines:\n{lines}task: {{look at: '{look_at}'}}\n"
        sheet = site_of_text(text, "site", tables())
        network, target = target_of(sheet, network_of(sheet, tables()))
        return routes_to(network, target, tables())

    def test_a_line_of_thousands_of_pieces(self):
        pipes = "      - pipe: 1 m\n" * 3000
        top = "  - line: a\n    pieces:\n      - {opening: o, kind: end cleanout}\n"
        line = f"{top}{pipes}      - end: sewer\n"
        (route,), cut = self.site(line, "a")
        assert len(route.passages) >= 3000
        assert not cut

    def ladder(self, rungs: int) -> str:
        """Two stacks tied by rungs: a way down may cross at any of them, so ways double with each rung."""
        steps = "".join(
            f"      - drop: 1 m\n      - {{joined by: r{i}, fitting: vent tee}}\n" for i in range(rungs)
        )

        def stack(name: str, opening: str, more: str, end: str) -> str:
            top = f"  - line: {name}\n    pieces:\n      - {{opening: {opening}, kind: roof vent}}\n"
            return f"{top}{steps}{more}      - end: {end} sewer\n"

        tie = "  - line: r{}\n    pieces:\n      - tied to: a\n      - pipe: 1 m\n"
        both = stack("a", "o", "", "s") + stack("b", "p", "      - drop: 1 m\n", "t")
        ties = "".join(tie.format(i) for i in range(rungs))
        alone = "  - line: c\n    pieces:\n      - {opening: q, kind: end cleanout}\n"
        alone += "      - pipe: 3 m\n      - end: w sewer\n"
        return both + ties + alone

    def test_each_rung_of_two_is_a_way_across(self):
        found, cut = self.site(self.ladder(2), "b, from r1 to t sewer")
        # From o: across r0 then down b; across r1. Across r0 is the only one that passes all of r1 to t
        # from above, and across r1 joins b at r1 itself, so both see it whole.
        assert [r.covers for r in found if r.opening.name == "o"] == [1.0, 1.0]
        assert not cut

    @pytest.mark.parametrize("look_at", ["b", "c"])
    def test_ways_without_end_are_cut_short_and_said_so(self, look_at):
        found, cut = self.site(self.ladder(40), look_at)
        assert cut
        assert len(found) <= MOST_ROUTES
        # An opening with many ways leaves the others theirs.
        assert {r.opening.name for r in found} == ({"o", "p"} if look_at == "b" else {"q"})


def test_a_floor_drain_along_the_line_turns_once_where_its_short_arm_joins():
    """Its side arm is drawn as the junction: counted with the opening too, the rod would turn twice."""
    _, network, found = laid("drain", extra="      - fixture: floor drain\n      - pipe: 2 m")
    assert found is not None
    ways = [each for each in routes_to(network, found, tables())[0] if each.opening.name == "floor drain"]
    assert ways
    for way in ways:
        own = [each for each in way.passages if each.piece is way.opening]
        assert [each.step for each in own] == [None]
        assert [each.piece.kind for each in way.passages[1:3]] == ["pipe", "junction"]  # its short arm joins
