"""Every way round loops is listed once, and no opening is crowded out.

Counts by arithmetic: k loops in a row, each gone by one of two ways, make 2^k ways.
"""

from __future__ import annotations

import pytest

from advisor.routes.enumerate import MOST_ROUTES, routes_to
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.site.target import target_of
from tests.cases.jobs import tables


def line(name: str, *pieces: str) -> str:
    rows = "".join(f"      - {piece}\n" for piece in pieces)
    return f"  - line: {name}\n    size: 3 in\n    material: pvc\n    pieces:\n{rows}"


def loops(count: int) -> tuple[list[str], str]:
    """Pieces of a line that loops leave and come back to, and those loops."""
    pieces: list[str] = []
    for i in range(count):
        pieces += [f"joined by: loop {i}", "drop: 1 m", f"joined by: loop {i}", "drop: 1 m"]
    return pieces, "".join(line(f"loop {i}", "tied to: stack", "drop: 1 m") for i in range(count))


def listed(lines: str, look_at: str):
    text = f"site: loops\nregion: north america\nlines:\n{lines}task: {{look at: '{look_at}'}}\n"
    sheet = site_of_text(text, "loops", tables())
    network, target = target_of(sheet, network_of(sheet, tables()))
    return routes_to(network, target, tables())


@pytest.mark.parametrize("count", [0, 1, 2, 5])
def test_each_loop_doubles_the_ways(count):
    pieces, others = loops(count)
    stack = line(
        "stack",
        "{opening: top, kind: roof vent}",
        *pieces,
        "{opening: foot, kind: end cleanout}",
        "{end: public sewer}",
    )
    routes, cut = listed(stack + others, "foot")
    assert len(routes) == 2**count
    assert len({route.id for route in routes}) == 2**count
    assert not cut
    for route in routes:
        passed = [passage.piece.id for passage in route.passages]
        assert len(passed) == len(set(passed)), "no piece is passed twice"


def test_one_branch_reached_both_ways_round_a_loop_is_two_routes():
    stack = line(
        "stack",
        "{opening: top, kind: roof vent}",
        "joined by: loop",
        "drop: 2 m",
        "joined by: loop",
        "end: sewer",
    )
    loop = line("loop", "tied to: stack", "drop: 1 m", "joined by: arm", "drop: 1 m")
    arm = line("arm", "{opening: far, kind: end cleanout}", "pipe: 1 m")
    routes, _ = listed(stack + loop + arm, "far")
    # Off the stack at the upper meeting and down the loop, or on to the lower one and up the loop.
    at_arm = [
        next(p.enters for p in route.passages if p.piece.branch == "arm")
        for route in routes
        if route.opening.name == "top"
    ]
    assert sorted(at_arm) == ["down", "up"]


def test_many_ways_from_one_opening_leave_room_for_the_others_and_it_says_so():
    pieces, others = loops(12)
    stack = line(
        "stack",
        "{opening: top, kind: roof vent}",
        "joined by: side",
        *pieces,
        "{opening: foot, kind: two-way cleanout}",
        "pipe: 3 m",
        "end: sewer",
    )
    side = line("side", "{opening: side plug, kind: end cleanout}", "pipe: 1 m")
    routes, cut = listed(stack + side + others, "stack, from foot to sewer")
    assert cut
    assert len(routes) <= MOST_ROUTES
    assert {route.opening.name for route in routes} == {"top", "side plug", "foot"}


def test_loops_that_lead_nowhere_end_soon_and_a_long_line_is_walked():
    pieces, others = loops(40)
    stack = line("stack", "{opening: top, kind: roof vent}", *pieces, "end: sewer")
    long = line("long", "{opening: plug, kind: end cleanout}", *["pipe: 10 mm"] * 2000, "end: other sewer")
    routes, cut = listed(stack + long + others, "long")
    assert [route.opening.name for route in routes] == ["plug"]
    assert cut
    assert len(routes[0].passages) > 2000
