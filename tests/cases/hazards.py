# ruff: noqa: E501 (one job reads best on one line)
"""Invented jobs that between them meet every hazard and situation that a rule speaks of."""

from __future__ import annotations

SMALL = "kit: small\nheads: [{head: small head, diameter: 25 mm, length: 40 mm}]\nsprings: [{spring: spring, like: small reel, feel: soft}]\nrods: [{rod: small reel, like: small reel}]\n"
GUIDED = SMALL + (
    "guides: [{guide: ring, diameter: 60 mm, length: 90 mm}]\n"
    "loadouts: [{head: small head, spring: spring, rod: small reel, guide: ring}]\n"
)
LONG_HEAD = SMALL.replace("length: 40 mm", "length: 160 mm").replace("diameter: 25 mm", "diameter: 40 mm")
SHORT_REEL = SMALL.replace("like: small reel}]\n", "like: small reel, length: 4 m}]\n").replace(
    "feel: soft, length: 4 m", "feel: soft"
)
TWO_HEADS = SMALL.replace("heads: [", "heads: [{head: big head, diameter: 40 mm, length: 120 mm}, ")
THIN_ROD = SMALL.replace(
    "rod: small reel, like: small reel}]\n", "rod: thin reel, like: small reel, core: 1.8 mm}]\n"
)
RINGED = SMALL + (
    "guides: [{guide: ring, diameter: 70 mm, length: 10 mm}]\n"
    "loadouts: [{head: small head, spring: spring, rod: small reel}]\n"
)
RING_ON = RINGED.replace("rod: small reel}]", "rod: small reel, guide: ring}]")
BIG_HEAD = SMALL.replace("like: small reel", "like: large reel").replace(
    "diameter: 25 mm, length: 40 mm", "diameter: 55 mm, length: 80 mm"
)
TWO_LONG_HEADS = LONG_HEAD.replace(
    "heads: [", "heads: [{head: a longer head, diameter: 41 mm, length: 165 mm}, "
)
FIRM = SMALL.replace("feel: soft", "feel: firm")
WEAK_PULL = SMALL.replace("feel: soft", "feel: soft, pull limit: 4 N")
STIFF = SMALL.replace("like: small reel}]\n", "like: large reel}]\n").replace("feel: soft", "feel: soft")


def site(
    lines: str, look_at: str, region: str = "north america", complaint: str = "holding: no", top: str = ""
) -> str:
    return (
        f"site: a job\nregion: {region}\nbuilt: 1950\nmap: measured\n{top}lines:\n{lines}"
        f'task: {{look at: "{look_at}", complaint: {{{complaint}}}}}\n'
    )


def line(name: str, *pieces: str, size: str = "4 in", material: str = "pvc", condition: str = "sound") -> str:
    rows = "".join(f"      - {{{piece}}}\n" for piece in pieces)
    return (
        f"  - line: {name}\n    size: {size}\n    material: {material}\n    condition: {condition}\n"
        f"    pieces:\n{rows}"
    )


def run(opening: str, *pieces: str, **wall: str) -> str:
    return line(
        "run", f"opening: way in, {opening}", *(pieces or ("pipe: 4 m",)), "end: public sewer", **wall
    )


def branch(
    fitting: str, *pieces: str, size: str = "3 in", main: str = "4 in", extra: str = "", **wall: str
) -> str:
    return line(
        "main", "opening: top, kind: end cleanout", "pipe: 2 m", f"joined by: side, fitting: {fitting}{extra}",
        "pipe: 3 m", "end: public sewer", size=main, **wall,
    ) + line("side", *(pieces or ("opening: way in, kind: end cleanout", "pipe: 1 m")), size=size, **wall)  # fmt: skip


DOWN = "main, from side to public sewer"
BEFORE_A_SADDLE = site(
    line(
        "run", "opening: top, kind: end cleanout, opens: no", "pipe: 2 m", "joined by: side, fitting: saddle",
        "pipe: 8 m", "opening: way in, kind: inspection chamber, opens: yes, depth: 600 mm", "pipe: 3 m",
        "end: public sewer", material="clay", condition="roots",
    ) + line("side", "opening: stub, kind: end cleanout, opens: no", "pipe: 3 m", size="3 in"),
    "side",
)  # fmt: skip
LONE_TOILET = site(
    line(
        "run",
        "opening: toilet, kind: toilet flange",
        "pipe: 2 m",
        "joined by: bath branch, fitting: wye",
        "pipe: 2 m",
        "end: public sewer",
        size="3 in",
    )
    + line("bath branch", "fixture: bath", "pipe: 1 m", size="2 in"),
    "run",
    complaint="holding: no, chemicals: no, backs up: [toilet], fine: [bath]",
)

FULL_UPSTAIRS = site(
    "  - line: yard drain\n    kind: drain\n    size: 100 mm\n    pieces:\n"
    "      - {opening: gully, kind: gully}\n      - pipe: 3 m\n      - joined by: stack\n      - pipe: 9 m\n      - end: public sewer\n"
    "  - line: stack\n    kind: stack\n    size: 100 mm\n    pieces:\n"
    "      - {opening: top toilet, kind: P-outlet toilet}\n      - pipe: 500 mm\n      - drop: 3 m\n      - bend: stack-base bend\n      - pipe: 1 m\n",
    "yard drain",
    "britain",
    "holding: yes, backs up: [gully, top toilet]",
)
JOBS: dict[str, tuple[str, str]] = {
    "plain": (site(run("kind: end cleanout"), "run"), SMALL),
    "plain britain": (site(run("kind: rodding eye"), "run", "britain"), SMALL),
    "gas": (site(run("kind: end cleanout"), "run", complaint="holding: no, gas smell: yes"), SMALL),
    "chemicals": (site(branch("sanitary tee", extra=", lies: on its side"), DOWN, complaint="holding: no, chemicals: yes"), SMALL),
    "holding": (site(branch("sanitary tee", extra=", lies: on its side"), DOWN, complaint="holding: yes"), SMALL),
    "nobody looked": (site(branch("sanitary tee", extra=", lies: on its side"), DOWN, complaint="gas smell: no"), SMALL),
    "shared, pumps, septic": (
        site(run("kind: end cleanout", "pipe: 3 m", "tank: septic tank", "pipe: 1 m"), "run",
             complaint="holding: no, chemicals: no}, history: {worse on: [rain]",
             top="shared: yes\npumps: yes\nseptic: yes\n"), SMALL),
    "backs up": (site(run("kind: toilet flange"), "run", complaint="holding: no, backs up: [way in]"), SMALL),
    "buried": (site(run("kind: yard cleanout, buried: yes, depth: 2 ft"), "run"), SMALL),
    "buried britain": (site(run("kind: yard cleanout, buried: yes, depth: 600 mm"), "run", "britain"), SMALL),
    "full plug": (site(run("kind: stack-base cleanout, water: standing"), "run"), SMALL),
    "roof": (site(run("kind: roof vent", "drop: 9 m", "bend: 1/4 bend", "pipe: 2 m", size="3 in"), "run"), SMALL),
    "roof britain": (site(run("kind: roof vent", "drop: 6 m", "bend: stack-base bend", "pipe: 2 m"), "run", "britain"), SMALL),
    "no way onto the roof": (site(run("kind: roof vent", "drop: 9 m", "bend: 1/4 bend", "pipe: 2 m", size="3 in"), "run", top="roof safe: no\n"), SMALL),
    "history": (site(run("kind: end cleanout"), "run", complaint="holding: no}, history: {came back: [soil or pipe], worse on: [rain], tool lost: yes"), SMALL),
    "a neighbour's pit": (site(run("kind: inspection chamber, depth: 2 ft, ground: neighbour"), "run"), SMALL),
    "pit": (site(run("kind: inspection chamber, depth: 7 ft"), "run"), SMALL),
    "pit britain": (site(run("kind: inspection chamber, depth: 2.5 m"), "run", "britain"), SMALL),
    "wall": (site(run("kind: wall cleanout", "drop: 1 m", "bend: long sweep", "pipe: 3 m", size="2 in"), "run"), SMALL),
    "house trap plug": (site(run("kind: house trap street-side plug"), "run"), SMALL),
    "house trap plug, no deep pit": (site(run("kind: house trap street-side plug"), "run", top="deep pits: no\n"), SMALL),
    "house trap plug, no deep chamber": (site(run("kind: house trap street-side plug"), "run", "britain", top="deep pits: no\n"), SMALL),
    "toilet": (site(run("kind: toilet flange", "bend: closet bend", "pipe: 3 m", size="3 in", material="cast iron"), "run"), SMALL),
    "toilet alone": (LONE_TOILET, SMALL),
    "toilet alone, nobody asked": (LONE_TOILET.replace("chemicals: no, ", ""), SMALL),
    "full upstairs and below": (FULL_UPSTAIRS, SMALL),
    "full upstairs alone": (FULL_UPSTAIRS.replace("holding: yes, backs up: [gully, top toilet]", "backs up: [top toilet]"), SMALL),
    "lead": (site(run("kind: end cleanout", "pipe: 1 m", "bend: knuckle", "pipe: 2 m", size="3 in", material="lead"), "run"), SMALL),
    "asbestos cement": (site(run("kind: end cleanout", "pipe: 2 m", material="asbestos cement"), "run"), SMALL),
    "pitch fibre": (site(branch("sanitary tee", material="pitch fibre", extra=", lies: on its side"), DOWN), SMALL),
    "pitch fibre, scaled": (site(run("kind: end cleanout", "pipe: 1 m", "bend: knuckle", "pipe: 2 m", material="pitch fibre", condition="roots"), "run"), SMALL),
    "roots": (site(run("kind: end cleanout", "pipe: 20 m", material="clay", condition="roots"), "run"), BIG_HEAD),
    "roots before a saddle": (BEFORE_A_SADDLE, SMALL),
    "through a chamber": (site(run("kind: rodding eye", "pipe: 3 m", "opening: yard chamber, kind: inspection chamber, depth: 2 ft", "pipe: 4 m"), "run"), SMALL),
    "a mouth in the chamber": (site(line("main", "opening: top, kind: end cleanout", "pipe: 2 m", "opening: yard chamber, kind: inspection chamber, depth: 500 mm", "joined by: side, fitting: chamber branch", "pipe: 3 m", "end: public sewer") + line("side", "opening: way in, kind: end cleanout", "pipe: 4 m"), "side"), SMALL),
    "roots came back": (site(run("kind: end cleanout", "pipe: 3 m", material="clay"), "run", complaint="holding: no}, history: {came back: [roots]"), SMALL),
    "earlier jobs asked": (site(run("kind: end cleanout", "pipe: 3 m"), "run", complaint="holding: no}, history: {asked: [earlier jobs]"), SMALL),
    "history asked": (site(run("kind: end cleanout", "pipe: 3 m"), "run", complaint="holding: no}, history: {asked: [earlier jobs, machines]"), SMALL),
    "machine run from somewhere": (site(run("kind: end cleanout", "pipe: 3 m"), "run", complaint="holding: no}, history: {machine runs: {to: 41 ft}"), SMALL),
    "machine run, nobody knows how far": (site(run("kind: end cleanout", "pipe: 3 m"), "run", complaint="holding: no}, history: {machine runs: {to: unknown}"), SMALL),
    "machine run from nowhere": (site(run("kind: end cleanout", "pipe: 3 m", "opening: yard pit, kind: inspection chamber, there: no", "pipe: 1 m"), "run", complaint="holding: no}, history: {machine runs: {in at: yard pit, to: 41 ft}"), SMALL),
    "cable kinked": (site(run("kind: end cleanout", "pipe: 3 m"), "run", complaint="holding: no}, history: {machine runs: {to: 41 ft, came back: [kinked cable]}"), SMALL),
    "machine run": (site(run("kind: end cleanout", "pipe: 3 m"), "run", complaint="holding: no}, history: {machine runs: [{on: 2026-05, in at: way in, to: 41 ft}]"), SMALL),
    "sink": (site(line("side", "fixture: kitchen sink", "drop: 2 ft", "pipe: 3 m", "end: far drain", size="2 in", material="galvanised steel", condition="moderate scale"), "side"), SMALL),
    "a house trap nobody knows of": (site(run("kind: end cleanout"), "run", top="house trap: unknown\n"), SMALL),
    "cellar, it comes up": (site(run("kind: end cleanout"), "run", complaint="holding: no, wet cellar: comes up"), SMALL),
    "cellar, it comes up and holds": (site(run("kind: end cleanout"), "run", complaint="holding: yes, chemicals: no, wet cellar: comes up"), SMALL),
    "cellar wet when water is used": (site(run("kind: end cleanout"), "run", complaint="holding: no, chemicals: no, wet cellar: when used"), SMALL),
    "a British cellar, it comes up": (site(run("kind: end cleanout"), "run", "britain", "holding: no, wet cellar: comes up"), SMALL),
    "cellar wet after rain, gully or sump": (site(run("kind: floor drain, cellar: yes"), "run", complaint="holding: no, wet cellar: after rain", top="pumps: yes\n"), SMALL),
    "cellar wet, nobody knows when": (site(run("kind: end cleanout"), "run", complaint="holding: no, wet cellar: yes"), SMALL),
    "asked sink": (site(line("side", "fixture: kitchen sink", "drop: 2 ft", "pipe: 3 m", "end: far drain", size="2 in", material="galvanised steel", condition="moderate scale"), "side", complaint="holding: no, chemicals: no, sewage smell: yes"), SMALL),
    "broken and holding": (site(branch("sanitary tee", extra=", lies: on its side"), DOWN, complaint="holding: yes}, history: {came back: [soil or pipe]"), SMALL),
    "broken, asked, holding": (site(branch("sanitary tee", extra=", lies: on its side"), DOWN, complaint="holding: yes, chemicals: no}, history: {came back: [soil or pipe]"), SMALL),
    "pitch fibre and holding": (site(run("kind: end cleanout", "pipe: 3 m", material="pitch fibre"), "run", complaint="holding: yes"), SMALL),
    "pitch fibre, asked, holding": (site(run("kind: end cleanout", "pipe: 3 m", material="pitch fibre"), "run", complaint="holding: yes, chemicals: no"), SMALL),
    "holding, opened outside": (site(run("kind: yard cleanout"), "run", complaint="holding: yes"), SMALL),
    "holding, full outside": (site(run("kind: yard cleanout, water: standing"), "run", complaint="holding: yes"), SMALL),
    "holding, a chamber and a trap without its arm": (site(run("kind: inspection chamber", "trap: disconnecting trap", "opening: arm, kind: disconnecting trap rodding arm, there: no", "pipe: 3 m"), "run", complaint="holding: yes"), SMALL),
    "holding, a chamber and its trap": (site(run("kind: inspection chamber", "trap: disconnecting trap", "pipe: 3 m"), "run", complaint="holding: yes"), SMALL),
    "asked holding": (site(branch("sanitary tee", extra=", lies: on its side"), DOWN, complaint="holding: yes, chemicals: no"), SMALL),
    "blocked sink": (site(line("side", "fixture: kitchen sink", "drop: 2 ft", "pipe: 3 m", "end: far drain", size="1-1/2 in", material="galvanised steel", condition="heavy scale"), "side"), SMALL),
    "shower": (site(line("side", "fixture: shower", "drop: 1 ft", "bend: 1/4 bend", "pipe: 3 m", "end: far drain", size="2 in"), "side"), SMALL),
    "standpipe": (site(run("kind: washing-machine standpipe", size="2 in") , "run"), SMALL),
    "tee on its back": (site(branch("straight tee", extra=", lies: on its back"), DOWN), SMALL),
    "small into large": (site(branch("combination", size="2 in", material="cast iron", condition="light scale"), DOWN), SMALL),
    "small into large, guided": (site(branch("combination", size="2 in", material="cast iron", condition="light scale"), DOWN), GUIDED),
    "double": (site(line("stack", "opening: vent, kind: roof vent", "drop: 2 m", "joined by: side, fitting: double sanitary tee", "drop: 2 m", "end: far drain", size="3 in") + line("side", "opening: way in, kind: end cleanout", "pipe: 1 m", size="3 in"), "stack, from side to far drain"), SMALL),
    "into the leg": (site(branch("wye"), "way in"), SMALL),
    "into the side hole": (site(branch("sanitary tee", extra=", lies: on its side"), "way in"), SMALL),
    "up the main": (site(run("kind: end cleanout", "pipe: 1 m", "joined by: other, fitting: wye, drawn: no", "pipe: 2 m", "opening: yard, kind: two-way cleanout", "pipe: 3 m"), "way in"), SMALL),
    "many turns": (site(branch("sanitary tee", "opening: way in, kind: end cleanout", *["pipe: 300 mm", "bend: 1/4 bend"] * 6, "pipe: 300 mm", size="2 in", extra=", lies: on its side"), DOWN), SMALL),
    "rims": (site(run("kind: end cleanout", "pipe: 1 m", "joint: offset, step: 25 mm", "pipe: 1 m", "change: {size: 6 in}", "pipe: 2 m", size="4 in", material="clay"), "run"), SMALL),
    "rims, guided": (site(run("kind: end cleanout", "pipe: 1 m", "joint: offset, step: 12 mm", "pipe: 2 m", material="clay"), "run"), SMALL),
    "sag": (site(run("kind: end cleanout", "pipe: 1 m", "belly: 6 m", "pipe: 1 m"), "run"), SMALL),
    "inside the stretch": (site(run("kind: end cleanout", "pipe: 2 m", "opening: middle, kind: two-way cleanout", "pipe: 6 m"), "run"), SMALL),
    "long head": (site(run("kind: end cleanout", "pipe: 1 m", "bend: knuckle", "pipe: 2 m", size="2 in", material="cast iron", condition="moderate scale"), "run"), LONG_HEAD),
    "choked plastic": (site(run("kind: end cleanout", "pipe: 1 m", "bend: knuckle", "pipe: 2 m", size="2 in", material="pvc", condition="heavy scale"), "run"), LONG_HEAD),
    "two heads": (site(run("kind: end cleanout", "pipe: 1 m", "bend: 1/4 bend", "pipe: 2 m", size="2 in", material="cast iron"), "run"), TWO_HEADS),
    "long guide": (site(run("kind: end cleanout", "pipe: 1 m", "bend: 1/4 bend", "pipe: 2 m", size="3 in", material="cast iron"), "run"), GUIDED),
    "short reel": (site(run("kind: end cleanout", "pipe: 12 m, landmark: wall", "pipe: 2 m"), "run, from wall to public sewer"), SHORT_REEL),
    "far": (site(run("kind: end cleanout", "pipe: 60 m", material="cast iron", condition="heavy scale"), "run"), SMALL),
    "weak coupling": (site(run("kind: end cleanout", "pipe: 6 m", "bend: 1/4 bend", "pipe: 3 m", material="cast iron"), "run"), WEAK_PULL),
    "stiff rod": (site(run("kind: end cleanout", "pipe: 1 m", "bend: 1/4 bend", "pipe: 2 m", size="3 in", material="cast iron"), "run"), STIFF),
    "thin rod": (site(branch("sanitary tee", extra=", lies: on its side"), DOWN), THIN_ROD),
    "rims, ring on the truck": (site(run("kind: end cleanout", "pipe: 1 m", "joint: offset, step: 12 mm", "pipe: 2 m", material="clay"), "run"), RINGED),
    "rims, ring on": (site(run("kind: end cleanout", "pipe: 1 m", "joint: offset, step: 12 mm", "pipe: 2 m", material="clay"), "run"), RING_ON),
    "shallow chamber, tee": (site(branch("sanitary tee", "opening: way in, kind: inspection chamber, depth: 450 mm", "pipe: 1 m", extra=", lies: on its side"), DOWN), SMALL),
    "deep chamber, tee": (site(branch("sanitary tee", "opening: way in, kind: inspection chamber, depth: 1.5 m", "pipe: 1 m", extra=", lies: on its side"), DOWN), SMALL),
    "two long heads": (site(run("kind: end cleanout", "pipe: 1 m", "bend: knuckle", "pipe: 2 m", size="2 in", material="cast iron", condition="moderate scale"), "run"), TWO_LONG_HEADS),
    "up and into the leg": (site(line("main", "opening: top, kind: end cleanout", "pipe: 2 m", "joined by: side, fitting: wye", "pipe: 2 m", "opening: lower, kind: inspection chamber", "pipe: 1 m", "end: public sewer") + line("side", "opening: way in, kind: end cleanout", "pipe: 1 m", size="3 in"), "way in"), SMALL),
    "seized": (site(run("kind: end cleanout, opens: no"), "run"), SMALL),
    "rough, nothing poured": (site(run("kind: end cleanout", "pipe: 3 m", "bend: 1/4 bend", "pipe: 3 m", size="3 in", material="cast iron", condition="heavy scale"), "run", complaint="holding: no, chemicals: no"), SMALL),
    "vents, firm": (site(line("stack", "opening: vent, kind: roof vent", "drop: 2 m", "joined by: side, fitting: vent tee", "drop: 3 m", "end: far drain", size="3 in", material="cast iron") + line("side", "opening: way in, kind: end cleanout", "pipe: 1 m", size="2 in", material="cast iron"), "stack, from side to far drain"), FIRM),
    "stopper": (site(run("kind: end cleanout", "pipe: 1 m", "trap: house trap", "pipe: 2 m"), "run"), SMALL),
    "vents": (site(line("stack", "opening: vent, kind: roof vent", "drop: 2 m", "joined by: side, fitting: vent tee", "drop: 3 m", "end: far drain", size="3 in") + line("side", "opening: way in, kind: end cleanout", "pipe: 1 m", size="2 in"), "stack, from side to far drain"), SMALL),
    "rough": (site(run("kind: end cleanout", "pipe: 3 m", "bend: 1/4 bend", "pipe: 3 m", size="3 in", material="cast iron", condition="moderate scale"), "run"), SMALL),
}  # fmt: skip
