"""All tables read at once: every fault of every file in one message."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel

from advisor.errors import BadInput, Fault
from advisor.strict_yaml import Sheet, read_sheet
from advisor.strict_yaml.model import nearest
from advisor.tables.bends import BendsFile
from advisor.tables.card import SIGHTS, SIGNS, CardFile
from advisor.tables.conditions import CONDITIONS, ROOTS, UNKNOWN, ConditionsFile
from advisor.tables.constants import ConstantsFile
from advisor.tables.finds import FindsFile
from advisor.tables.fixtures import FixturesFile
from advisor.tables.in_the_pipe import InPipeFile
from advisor.tables.junctions import JunctionsFile
from advisor.tables.kits import KitsFile
from advisor.tables.likely import Steps
from advisor.tables.limits import CostsFile, LimitsFile
from advisor.tables.materials import MaterialsFile
from advisor.tables.openings import EntryStepsFile, OpeningHazardsFile, OpeningsFile
from advisor.tables.pipes import PipesFile
from advisor.tables.regions import REGIONS
from advisor.tables.slopes import SlopesFile
from advisor.tables.sources import SourcesFile, unknown_sources
from advisor.tables.stoppers import StoppersFile
from advisor.tables.stuck import StuckFile
from advisor.tables.tables import Files, Tables
from advisor.tables.typical import SignsFile, TypicalFile
from advisor.tables.where import WhereFile
from advisor.tables.words import MeaningsFile, WordsFile

__all__ = ["Tables", "load_tables"]

M = TypeVar("M", bound=BaseModel)

_FILES: dict[str, type[BaseModel]] = {
    "sources.yaml": SourcesFile,
    "tables/materials.yaml": MaterialsFile,
    "tables/pipes.yaml": PipesFile,
    "tables/conditions.yaml": ConditionsFile,
    "tables/bends.yaml": BendsFile,
    "tables/junctions.yaml": JunctionsFile,
    "tables/junction.yaml": ConstantsFile,
    "tables/entry_steps.yaml": EntryStepsFile,
    "words/opening_hazards.yaml": OpeningHazardsFile,
    "tables/openings.yaml": OpeningsFile,
    "tables/fixtures.yaml": FixturesFile,
    "tables/stoppers.yaml": StoppersFile,
    "tables/slopes.yaml": SlopesFile,
    "tables/typical.yaml": TypicalFile,
    "tables/signs.yaml": SignsFile,
    "tables/limits.yaml": LimitsFile,
    "tables/costs.yaml": CostsFile,
    "tables/kits.yaml": KitsFile,
    "signs/where.yaml": WhereFile,
    "signs/stuck.yaml": StuckFile,
    "signs/in_the_pipe.yaml": InPipeFile,
    "report/finds.yaml": FindsFile,
    "card/words.yaml": CardFile,
    "words/meanings.yaml": MeaningsFile,
    **{f"words/{region}.yaml": WordsFile for region in REGIONS},
}


def load_tables(rules: Path) -> Tables:
    """Every table under the folder `rules`; raises BadInput with every fault of every file."""
    read = _Read(rules)
    if not read.faults:
        read.faults.extend(_wrong_names(read))
    if read.faults:
        raise BadInput(read.faults)
    materials, openings = read.model(MaterialsFile), read.model(OpeningsFile)
    bends, junctions = read.model(BendsFile), read.model(JunctionsFile)
    typical, signs = read.model(TypicalFile), read.model(SignsFile)
    conditions = read.model(ConditionsFile)
    return Tables(
        sources=read.model(SourcesFile).by_id(),
        materials=materials.materials,
        material_aliases={a: m.name for m in materials.materials.values() for a in m.aliases},
        conditions=conditions.words,
        bends=bends.kinds(),
        junctions=junctions.junctions,
        openings=openings.kinds(read.model(EntryStepsFile).steps),
        hazards=read.model(OpeningHazardsFile).hazards,
        fixtures=read.model(FixturesFile).fixtures,
        stoppers=read.model(StoppersFile).stoppers,
        ends=read.model(StoppersFile).ends,
        limits=read.model(LimitsFile).limits,
        costs=read.model(CostsFile).costs,
        kit_classes=read.model(KitsFile).kit_classes,
        junction=read.model(ConstantsFile).constants(),
        typical=typical.lengths,
        signs=signs.signs,
        trouble_metres=signs.trouble_metres,
        where=read.model(WhereFile),
        stuck=read.model(StuckFile),
        in_pipe=read.model(InPipeFile),
        finds=read.model(FindsFile),
        card=read.model(CardFile),
        meanings=read.model(MeaningsFile).meanings,
        files=Files(
            materials,
            read.model(PipesFile),
            conditions,
            bends,
            junctions,
            read.model(SlopesFile),
            typical,
            {r: read.sheet(f"words/{r}.yaml", WordsFile).model for r in REGIONS},
        ),
    )


class _Read:
    """The files as far as they could be read, and what was wrong with the others."""

    def __init__(self, rules: Path) -> None:
        self.faults: list[Fault] = []
        self._sheets: dict[str, Sheet[BaseModel]] = {}
        for path, model in _FILES.items():
            try:
                self._sheets[path] = read_sheet(rules / path, model)
            except BadInput as fault:
                self.faults.extend(fault.faults)
        if "sources.yaml" in self._sheets:
            ids = list(self.model(SourcesFile).sources)
            for path, sheet in self._sheets.items():
                if path != "sources.yaml":
                    self.faults.extend(unknown_sources(sheet, ids))

    def sheet(self, path: str, model: type[M]) -> Sheet[M]:
        """A file that was read."""
        sheet = self._sheets[path]
        assert isinstance(sheet.model, model)
        return sheet  # type: ignore[return-value]

    def sheet_of(self, model: type[M]) -> Sheet[M]:
        """The file that is read with a model."""
        return self.sheet(next(p for p, m in _FILES.items() if m is model), model)

    def model(self, model: type[M]) -> M:
        """The contents of the file that is read with a model."""
        return self.sheet_of(model).model


def _wrong_names(read: _Read) -> Iterator[Fault]:
    """Names in one table that must stand in another."""
    materials = read.sheet_of(MaterialsFile)
    known = materials.model.materials
    for name, material in known.items():
        here = ("materials", name, "pipes")
        families = read.model(PipesFile).families
        yield from _unknown(materials, "pipe family", material.pipes, families, here)
        for alias in material.aliases:
            if alias in known:
                yield materials.fault(f"alias {alias!r} is a material of its own", *here[:2], "aliases")
    yield from _unknown_shares(materials, "material", materials.model.likely.shares, known)
    bends = read.sheet_of(BendsFile)
    yield from _unknown_shares(bends, "bend", bends.model.likely.shares, bends.model.bends)
    junctions = read.sheet_of(JunctionsFile)
    kinds = junctions.model.junctions
    yield from _unknown_shares(junctions, "junction", junctions.model.likely.usual, kinds, "usual")
    yield from _unknown_shares(junctions, "junction", junctions.model.likely.small, kinds, "small")
    fixtures = read.sheet_of(FixturesFile)
    openings_file = read.sheet_of(OpeningsFile)
    openings = openings_file.model.openings
    steps, hazards = read.model(EntryStepsFile).steps, read.model(OpeningHazardsFile).hazards
    for row in openings.values():
        yield from _unknown(openings_file, "step", row.entry, steps, ("openings", row.name, "entry"))
        yield from _unknown(openings_file, "hazard", row.hazards, hazards, ("openings", row.name, "hazards"))
    for fixture in fixtures.model.fixtures.values():
        if fixture.opening is not None:
            here = ("fixtures", fixture.name, "opening")
            yield from _unknown(fixtures, "opening", [fixture.opening], openings, here)
    card = read.sheet_of(CardFile)
    for kind, told, names in (("sight", card.model.sights, SIGHTS), ("sign", card.model.signs, SIGNS)):
        yield from _unknown(card, kind, told, names, (f"{kind}s",))
        for name in names:
            if name not in told:
                yield card.fault(f"no words for {name!r}", f"{kind}s")
    yield from _wrong_rows(read.sheet_of(ConditionsFile), materials.model)


def _unknown(
    sheet: Sheet[M], what: str, names: Iterable[str], known: Iterable[str], path: tuple[str, ...]
) -> Iterator[Fault]:
    known = list(known)
    for name in names:
        if name not in known:
            yield sheet.fault(f"no {what} {name!r}{nearest(name, known)}", *path)


def _unknown_shares(
    sheet: Sheet[M],
    what: str,
    shares: Mapping[str, Mapping[str, Steps]],
    known: Iterable[str],
    key: str = "shares",
) -> Iterator[Fault]:
    for region in REGIONS:
        if region not in shares:
            yield sheet.fault(f"no shares for {region}", "likely", key)
    for region, places in shares.items():
        for place, steps in places.items():
            path = ("likely", key, region, place)
            yield from _unknown(sheet, what, sorted(steps.names), known, path)


def _wrong_rows(sheet: Sheet[ConditionsFile], materials: MaterialsFile) -> Iterator[Fault]:
    """Every material must find a row of each table, and every row some material."""
    table = sheet.model
    classes = {material.wall_class for material in materials.materials.values()}
    rows = [*materials.materials, *sorted(classes), "any"]
    tables: list[tuple[tuple[str, ...], set[str]]] = [
        (("friction_of_wall",), set(table.friction_of_wall)),
        (("likely", "shares"), set(table.likely.shares)),
        *((("bore_left", c), set(r)) for c, r in table.bore_left.items()),
        (("roots", "joint_length"), set(table.roots.joint_length)),
        *((("friction_of_condition", c), set(r)) for c, r in table.friction_of_condition.items()),
    ]
    for path, names in tables:
        yield from _unknown(sheet, "material or wall class", sorted(names), rows, path)
        if path[0] == "friction_of_condition":
            continue  # a material without a row there has the friction of its wall
        for material in materials.materials.values():
            if not names & {material.name, material.wall_class, "any"}:
                yield sheet.fault(f"no row for {material.name}, its wall class or any", *path)
    for condition in CONDITIONS:
        if (condition in table.bore_left) == (condition == ROOTS):
            what = (
                "roots leave the bore at joints only" if condition == ROOTS else f"no row for {condition!r}"
            )
            yield sheet.fault(what, "bore_left")
    for condition in (*CONDITIONS, UNKNOWN):
        if condition not in table.words:
            yield sheet.fault(f"no words for {condition!r}", "words")
    for name, steps in table.likely.shares.items():
        path = ("likely", "shares", name)
        yield from _unknown(sheet, "condition", sorted(steps.names), CONDITIONS, path)
