"""North American houses: a drain under the floor, branches and a stack into it, a cleanout in the yard."""

from __future__ import annotations

from tests.bench.simulation.houses import House, Piece

INCH = 0.0254
MAIN = "house drain"


class AmericanHouse(House):
    """A house with three to six openings on a 3 or 4 in drain."""

    def build(self) -> str:
        """Sheet text."""
        self.main_inches = 4 if self.year < 1960 or self.chance(0.5) else 3
        arms = ["toilet branch", *self._some("stack", "kitchen line", "laundry line", "floor drain line")]
        order = [arms[i] for i in self.draw.permutation(len(arms))]
        pieces: list[Piece] = []
        if self.chance(0.75):
            kind = self.one_of("stack-base cleanout", "floor cleanout", "end cleanout")
            pieces.append({"opening": "indoor cleanout", "kind": kind})
        else:
            pieces.append({"capped": "yes"})
        for arm in order:
            pieces.append(self.pipe(0.6, 5))
            if self.chance(0.15):
                pieces += [self.bend("level"), self.pipe(0.5, 2)]
            inches = 3 if arm in ("toilet branch", "stack") else 2
            pieces.append(self.junction(arm, "flat", inches * INCH, self.main_inches * INCH))
            getattr(self, "_" + arm.replace(" ", "_"))()
        pieces += self._outside()
        self.lines.insert(0, {"line": MAIN, "kind": "drain", "size": f"{self.main_inches} in",
                              **self.pipe_stuff("drain"), "pieces": pieces})  # fmt: skip
        self._aim(order)
        return self.text()

    def _some(self, *names: str) -> list[str]:
        count = int(self.draw.integers(1, len(names) + 1))
        return [names[i] for i in self.draw.permutation(len(names))[:count]]

    def _outside(self) -> list[Piece]:
        pieces = [self.pipe(1.5, 8, landmark="foundation wall")]
        change: Piece = self.pipe_stuff("sewer")
        if self.main_inches == 3:
            change["size"] = "4 in"
        pieces += [{"change": change}] if change else []
        self.yard = self.chance(0.6)
        if self.yard:
            kind = self.one_of("two-way cleanout", "yard cleanout", "twin cleanout")
            hole: Piece = {"opening": "cleanout in the yard", "kind": kind}
            if self.chance(0.25):
                hole |= {"buried": "yes", "depth": "0.5 m"}
            pieces += [self.pipe(1, 4), hole]
        pieces.append(self.pipe(2, 8))
        if self.chance(0.15):
            pieces += [{"joint": "offset", "step": self.one_of("unknown", "6 mm", "10 mm")}, self.pipe(1, 4)]
        if self.chance(0.2):
            pieces += [self.bend("level"), self.pipe(1, 4)]
        return [*pieces, {"end": "public sewer"}]

    def _aim(self, order: list[str]) -> None:
        """Below the last branch there is most to see; sometimes a joining or a point."""
        far = "cleanout in the yard" if self.yard and self.chance(0.5) else "public sewer"
        upper = order[-1] if self.chance(0.6) else order[-2]
        self.target = [
            f"{MAIN}, from {upper} to {far}",
            f"{MAIN}, from {upper} to foundation wall",
            f"{MAIN}, {self.metres(0.5, 1.4)} below {order[-1]}",
            f"where {order[-1]} joins",
        ][int(self.draw.choice(4, p=[0.35, 0.25, 0.25, 0.15]))]

    def _toilet_branch(self) -> None:
        hole: Piece = {"opening": "toilet", "kind": "toilet flange"}
        if self.chance(0.2):
            hole["water"] = "dry"
        pieces = [hole, {"bend": "closet bend"}, self.pipe(0.5, 3)]
        if self.chance(0.5):
            pieces += [self.bend("level"), self.pipe(0.4, 2)]
        self.line("toilet branch", "branch", "3 in", pieces)

    def _stack(self) -> None:
        basin = self.junction("basin arm", "stack", 1.5 * INCH, 3 * INCH)
        pieces = [{"opening": "roof vent", "kind": "roof vent"}, {"drop": self.metres(2.5, 5)}, basin]
        if self.chance(0.3):
            pieces += [
                {"drop": self.metres(0.3, 0.6)},
                {"opening": "door in the stack", "kind": "stack access door"},
            ]
        pieces += [{"drop": self.metres(1.5, 3)}, self.bend("up"), self.pipe(0.5, 3)]
        self.line("stack", "stack", "3 in", pieces)
        self.line("basin arm", "branch", "1-1/2 in", [{"fixture": "basin"}, self.pipe(0.4, 1.5)])

    def _kitchen_line(self) -> None:
        top: Piece = {"fixture": "kitchen sink"}
        if self.chance(0.6):
            top = {"opening": "kitchen cleanout", "kind": "wall cleanout"}
        pieces = [top, {"drop": self.metres(0.4, 2.4)}, self.bend("up"), self.pipe(1, 6)]
        if self.chance(0.4):
            pieces += [self.bend("level"), self.pipe(0.5, 2)]
        self.line("kitchen line", "branch", "2 in", pieces)

    def _laundry_line(self) -> None:
        pieces = [
            {"fixture": "laundry tub"},
            {"drop": self.metres(0.4, 1.5)},
            self.bend("up"),
            self.pipe(1, 5),
        ]
        self.line("laundry line", "branch", "2 in", pieces)

    def _floor_drain_line(self) -> None:
        pieces = [{"opening": "drain in the floor", "kind": "floor drain"}, self.pipe(1, 4)]
        self.line("floor drain line", "branch", "2 in", pieces)
