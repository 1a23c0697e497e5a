"""The pictures of the docs, from the program's own figures: `python -m tests.architecture.generate_docs`."""

from __future__ import annotations

from math import cos, hypot, pi, sin

import numpy as np
from scipy.integrate import solve_ivp

from advisor import demo
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.sheet import read_kit
from advisor.mechanics.elastica import droop_ratio
from advisor.mechanics.head import rigid_limit
from advisor.mechanics.push import Bend, Straight, push_bend, push_straight
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.sheet import read_site, site_of_text
from tests.architecture.svg import Drawing, Point
from tests.cases.jobs import rules, tables


def pictures() -> dict[str, str]:
    """Every picture by its place in the docs."""
    return {
        "pictures/journey.svg": _journey(),
        "pictures/openings.svg": _openings(),
        "pictures/turn.svg": _turn(),
        "pictures/push.svg": _push(),
        "pictures/margin.svg": _margin(),
        "pictures/droop.svg": _droop(),
    }


def _journey() -> str:
    """From the two sheets to the order of attempts."""
    steps = (
        ("Site sheet", "what is known of the drain"),
        ("Network", "pieces, flow, what was assumed"),
        ("Routes", "every way to what is to be seen"),
        ("Worlds", "each unknown drawn, the same for all"),
        ("Mechanics", "head, rod and push at each passage"),
        ("Rules", "reject, require, warn, explain"),
        ("Tries", "what passes, how often, what it costs"),
        ("Order", "which opening first, when to leave it"),
    )
    wide, high, gap = 250.0, 46.0, 22.0
    drawing = Drawing(2 * wide + 110, 4 * (high + gap) + 30, "From the sheets to the order of attempts")
    for number, (name, says) in enumerate(steps):
        column, row = divmod(number, 4)
        x, y = 20 + column * (wide + 70), 20 + row * (high + gap)
        drawing.box(x, y, wide, high)
        drawing.words(x + 10, y + 19, name, bold=True)
        drawing.words(x + 10, y + 37, says, size=12)
        if row < 3:
            drawing.line([(x + wide / 2, y + high), (x + wide / 2, y + high + gap)], arrow=True)
    bottom, top = 20 + 3 * (high + gap) + high / 2, 20 + high / 2
    middle = 20 + wide + 35
    drawing.line([(20 + wide, bottom), (middle, bottom), (middle, top), (20 + wide + 70, top)], arrow=True)
    drawing.words(
        20 + wide + 80 + 150, 4 * (high + gap) + 22, "the kit sheet comes in with Mechanics", "middle", 11
    )
    return drawing.text()


def _openings() -> str:
    """The demo house: what each opening promises."""
    case = Case(read_site(demo.MAIN, tables()), kit_of(read_kit(demo.KIT), tables()), Units.INCH)
    made = plan_of(plan(case, tables(), rules()))
    drawing = Drawing(640, 60 + 46 * len(made.routes), "The demo house: chance and minutes of each opening")
    left, full, most = 170.0, 180.0, max(route.score_minutes for route in made.routes)
    drawing.words(left, 24, "chance to see it all", size=12)
    drawing.words(left + full + 70, 24, "minutes, the cost of failing counted in", size=12)
    for number, route in enumerate(made.routes):
        y = 40 + 46 * number
        drawing.words(left - 10, y + 20, route.opening, "end")
        drawing.box(left, y + 6, full, 20)
        drawing.box(left, y + 6, full * route.chance, 20, "#888")
        drawing.words(left + full + 8, y + 21, f"{route.chance:.2f}")
        drawing.box(left + full + 70, y + 6, 150 * route.score_minutes / most, 20, "#ddd")
        drawing.words(
            left + full + 78 + 150 * route.score_minutes / most, y + 21, f"{route.score_minutes:.0f}"
        )
    return drawing.text()


def _turn() -> str:
    """The longest head that turns in a quarter bend, where it binds."""
    bore, radius, head = 0.1, 0.1, 0.05
    longest = float(rigid_limit(bore, head, radius, pi / 2))
    scale, middle = 1200.0, (150.0, 220.0)
    drawing = Drawing(640, 360, "The longest rigid head that turns in a bend")

    def at(x: float, y: float) -> Point:
        return middle[0] + scale * x, middle[1] - scale * y

    for wall in (radius - bore / 2, radius + bore / 2):
        arc = [at(wall * cos(a), wall * sin(a)) for a in np.linspace(0, pi / 2, 40)]
        drawing.line([at(wall, -0.1), *arc, at(-0.1, wall)], 2.5)
    # Across the line that halves the bend, its inner side on the inner wall.
    inner, along = radius - bore / 2, (-sin(pi / 4), cos(pi / 4))
    across = (cos(pi / 4), sin(pi / 4))
    corners = [
        at(d * across[0] + s * longest / 2 * along[0], d * across[1] + s * longest / 2 * along[1])
        for d, s in ((inner, -1), (inner, 1), (inner + head, 1), (inner + head, -1))
    ]
    drawing.shape(corners, "#ddd")
    drawing.words(370, 60, "bore 100 mm, bend of radius 100 mm", size=12)
    drawing.words(370, 80, "head 50 mm across", size=12)
    drawing.words(370, 104, f"longest that turns: {1000 * longest:.0f} mm", bold=True)
    drawing.words(370, 128, "its inner side lies on the inner wall,", size=12)
    drawing.words(370, 146, "its outer ends on the outer one", size=12)
    reaches = hypot(inner + head, longest / 2)
    drawing.words(370, 170, f"check: {1000 * reaches:.0f} mm from the centre, as the wall", size=12)
    return drawing.text()


RUN = """
site: a run
region: north america
lines:
  - line: run
    kind: drain
    size: 3 in
    material: pvc
    condition: sound
    pieces:
      - opening: way in
        kind: end cleanout
      - pipe: 3 m
      - bend: 1/4 bend
      - pipe: 27 m
      - end: public sewer
task: {look at: run, complaint: {holding: no}}
"""


def _push() -> str:
    """What is left of a push along the way, with quarter bends every 3 m, all as likely as the tables say."""
    case = Case(site_of_text(RUN, "run", tables()), default_kit(tables()), Units.METRIC)
    study = plan(case, tables(), rules())
    outcome = next(o for o in study.outcomes if o.loadout.rod.name == "small reel")
    kit, likely = study.drawn.kit(outcome.loadout), study.drawn.likely
    piece = next(each for each in study.network.pieces.values() if each.kind == "pipe")
    wall = study.drawn.wall(piece.wall)
    shape = next(each for each in outcome.geometries if each.turn.bends)
    run = [0.1, *(float(np.median(each)) for each in (wall.friction, kit.weight))]
    room = (float(np.median(wall.bore)) - float(np.median(kit.diameter))) / 2
    straight = Straight(*run, 0.0, float(np.median(kit.stiffness)), room, likely("helical_factor"))
    bend = Bend(*(float(np.median(each)) for each in (shape.friction, shape.turn.angle, shape.load)))
    force, least = likely("push_force"), likely("tip_force")
    drawing = Drawing(640, 300, "The push that is left along the way")
    left, bottom, wide, high, reach = 60.0, 250.0, 540.0, 210.0, 30.0

    def at(metres: float, newtons: float) -> Point:
        return left + wide * metres / reach, bottom - high * newtons / force

    drawing.line([at(0, force), at(0, 0), at(reach, 0)])
    for metres in range(0, 31, 5):
        drawing.words(*_moved(at(metres, 0), 0, 18), f"{metres} m", "middle", 11)
    for newtons in range(25, round(force) + 1, 25):
        drawing.words(*_moved(at(0, newtons), -8, 4), f"{newtons} N", "end", 11)
    drawing.line([at(0, least), at(reach, least)], 1, "4 4")
    drawing.words(*_moved(at(0, least), -8, 4), "least", "end", 11)
    for count, dash in ((0, ""), (2, "8 4"), (4, "2 3")):
        now, points, end = force, [at(0, force)], reach
        for tenth in range(1, round(10 * reach) + 1):
            now = float(push_straight(now, *straight))
            if tenth % 30 == 0 and tenth // 30 <= count:
                now = float(push_bend(now, *bend))
            if now < least:
                end = tenth / 10
                break
            points.append(at(tenth / 10, now))
        drawing.line(points, 2, dash)
        where = "it reaches past 30 m" if end == reach else f"it dies at {end:.0f} m"
        _named(drawing, (330, 60 + 11 * count), dash, f"{count} quarter bends: {where}")
    return drawing.text()


def _named(drawing: Drawing, place: Point, dash: str, words: str) -> None:
    """What a kind of line stands for."""
    drawing.line([place, _moved(place, 34, 0)], 2, dash)
    drawing.words(*_moved(place, 42, 4), words, size=11)


def _moved(point: Point, x: float, y: float) -> Point:
    return point[0] + x, point[1] + y


def _margin() -> str:
    """From a margin to the chance of one try."""
    drawing = Drawing(480, 260, "From the margin to the chance of one try")
    left, bottom, wide, high = 60.0, 215.0, 390.0, 180.0

    def at(m: float, q: float) -> Point:
        return left + wide * (m - 0.5) / 1.5, bottom - high * q

    drawing.line([at(0.5, 1), at(0.5, 0), at(2, 0)])
    for m in (0.5, 1.0, 1.5, 2.0):
        drawing.words(*_moved(at(m, 0), 0, 18), f"{m:g}", "middle", 11)
    for q in (0.0, 0.5, 1.0):
        drawing.words(*_moved(at(0.5, q), -8, 4), f"{q:g}", "end", 11)
    drawing.words(left + wide / 2, bottom + 36, "margin m: what there is over what is needed", "middle", 12)
    drawing.words(left + 6, 24, "chance q of one try", size=12)
    drawing.line([at(1, 0), at(1, 1)], 1, "4 4")
    for k, dash in ((4, "2 3"), (10, "8 4"), (25, "")):
        m = np.linspace(0.5, 2, 120)
        drawing.line([at(float(x), float(x**k / (1 + x**k))) for x in m], 2, dash)
        _named(drawing, (left + 250, bottom - 30 - 3.2 * k), dash, f"k = {k}")
    return drawing.text()


def _droop() -> str:
    """The droop test: a rod over a table's edge, and the fall that is measured."""
    load = 3.0
    fall = float(droop_ratio(load))
    ends = _rod(load)
    drawing = Drawing(640, 260, "The droop test")
    scale, edge = 340.0, (170.0, 80.0)

    def at(x: float, y: float) -> Point:
        return edge[0] + scale * x, edge[1] + scale * y

    drawing.box(20, edge[1], edge[0] - 20, 14, "#ddd")
    drawing.line([(60, edge[1] + 14), (60, 250)], 3)
    drawing.line([(20, edge[1] - 2), *[at(x, y) for x, y in ends]], 4)
    drawing.line([at(0, 0), at(1.05, 0)], 1, "4 4")
    drawing.line([at(ends[-1][0], 0.02), at(ends[-1][0], fall)], 1, arrow=True)
    drawing.words(*_moved(at(ends[-1][0], fall / 2), 8, 4), "droop: from the", size=12)
    drawing.words(*_moved(at(ends[-1][0], fall / 2), 8, 20), "table's top down", size=12)
    drawing.words(*_moved(at(0.45, 0), 0, -12), "length over the edge, measured along the rod", "middle", 12)
    drawing.words(30, edge[1] - 14, "hold it flat here", size=12)
    return drawing.text()


def _rod(load: float) -> list[Point]:
    """The shape of a heavy rod, solved apart from the program; x on, y down, in lengths of the rod."""

    def rates(s: float, y: np.ndarray) -> list[float]:
        return [y[1], -load * (1 - s) * cos(y[0]), cos(y[0]), sin(y[0])]

    low, high = 0.0, load
    for _ in range(60):
        start = (low + high) / 2
        end = solve_ivp(rates, (0, 1), [0, start, 0, 0], rtol=1e-9, atol=1e-11)
        low, high = (start, high) if end.y[1, -1] < 0 else (low, start)
    shape = solve_ivp(rates, (0, 1), [0, start, 0, 0], t_eval=np.linspace(0, 1, 40), rtol=1e-9, atol=1e-11)
    return list(zip(shape.y[2].tolist(), shape.y[3].tolist(), strict=True))
