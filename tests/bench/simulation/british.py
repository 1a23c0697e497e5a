"""British houses: a drain outside from chamber to chamber, gullies and a soil stack into it."""

from __future__ import annotations

from tests.bench.simulation.houses import House, Piece

MAIN = "rear drain"
DRAIN, WASTE = 0.100, 0.040  # m


class BritishHouse(House):
    """A house with three to six openings on a 100 mm drain."""

    region = "britain"

    def build(self) -> str:
        """Sheet text."""
        top = self.one_of("gully", "rodding eye")
        pieces: list[Piece] = [{"opening": "top of the drain", "kind": top}, self.pipe(1, 4)]
        arms = (
            ["soil stack"] + ["kitchen gully line"] * self.chance(0.7) + ["second branch"] * self.chance(0.4)
        )
        order = [arms[i] for i in self.draw.permutation(len(arms))]
        self.chamber = self.chance(0.7)
        for number, arm in enumerate(order):
            if number == 0 and self.chamber:
                pieces.append({"opening": "yard chamber", "kind": "inspection chamber", "depth": "700 mm"})
                pieces.append(
                    {"joined by": arm, "fitting": "chamber branch", "side": self.one_of("left", "right")}
                )
            else:
                pieces.append(self.junction(arm, "flat", DRAIN, DRAIN))
            pieces.append(self.pipe(1.5, 7))
            getattr(self, "_" + arm.replace(" ", "_"))()
            if self.chance(0.15):
                pieces += [self.bend("level"), self.pipe(0.5, 3)]
        pieces += self._outside()
        self.lines.insert(0, {"line": MAIN, "kind": "drain", "size": "100 mm",
                              **self.pipe_stuff("drain"), "pieces": pieces})  # fmt: skip
        self._aim(order)
        return self.text()

    def _outside(self) -> list[Piece]:
        pieces: list[Piece] = []
        if self.chance(0.2):
            pieces += [{"joint": "offset", "step": self.one_of("unknown", "6 mm", "12 mm")}, self.pipe(1, 4)]
        self.front = self.chance(0.6)
        if self.front:
            pieces.append({"opening": "front chamber", "kind": "inspection chamber", "depth": "1 m"})
            if self.year < 1940 and self.chance(0.3):
                arm = {"opening": "rodding arm", "kind": "disconnecting trap rodding arm"}
                pieces += [{"trap": "disconnecting trap"}, arm]
        pieces.append(self.pipe(3, 9))
        if self.chance(0.3):
            pieces += [self.bend("level"), self.pipe(1, 4)]
        return [*pieces, {"end": "public sewer"}]

    def _aim(self, order: list[str]) -> None:
        far = "front chamber" if self.front and self.chance(0.6) else "public sewer"
        self.target = [
            f"{MAIN}, from {order[-1]} to {far}",
            f"{MAIN}, {self.metres(0.5, 1.4)} below {order[-1]}",
            f"where {order[-1]} joins",
        ][int(self.draw.choice(3, p=[0.55, 0.3, 0.15]))]

    def _soil_stack(self) -> None:
        toilet = self.junction("toilet branch", "stack", DRAIN, DRAIN)
        pieces = [
            {"opening": "vent above the eaves", "kind": "roof vent"},
            {"drop": self.metres(2, 5)},
            toilet,
        ]
        pieces += [{"drop": self.metres(2, 3.5)}, self.bend("up"), self.pipe(0.5, 3)]
        self.line("soil stack", "stack", "100 mm", pieces)
        pan = {"opening": "upstairs toilet", "kind": "P-outlet toilet"}
        self.line("toilet branch", "branch", "100 mm", [pan, self.pipe(0.3, 1.5)])

    def _kitchen_gully_line(self) -> None:
        pieces = [{"opening": "kitchen gully", "kind": "gully"}, self.pipe(1, 4)]
        if self.chance(0.5):
            pieces += [self.bend("level"), self.pipe(0.5, 2)]
        self.line("kitchen gully line", "drain", "100 mm", pieces)

    def _second_branch(self) -> None:
        pieces: list[Piece] = [{"opening": "side rodding eye", "kind": "rodding eye"}, self.pipe(1, 5)]
        self.line("second branch", "drain", "100 mm", pieces)
