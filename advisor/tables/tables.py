"""Everything that the tables know, as the rest of the program asks for it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from advisor.evidence import Source
from advisor.mechanics.junction_constants import JunctionConstants
from advisor.quantity import Chances, Estimate, Known
from advisor.tables.bends import BendKind, BendsFile
from advisor.tables.card import CardFile
from advisor.tables.conditions import ConditionsFile
from advisor.tables.finds import FindsFile
from advisor.tables.fixtures import FixtureKind
from advisor.tables.in_the_pipe import InPipeFile
from advisor.tables.junctions import JunctionKind, JunctionsFile
from advisor.tables.kits import KitClass
from advisor.tables.likely import mixed
from advisor.tables.materials import Material, MaterialsFile
from advisor.tables.openings import OpeningKind
from advisor.tables.pipes import PipesFile
from advisor.tables.regions import REGIONS
from advisor.tables.slopes import SlopesFile
from advisor.tables.stoppers import StopperKind
from advisor.tables.stuck import StuckFile
from advisor.tables.typical import TypicalFile
from advisor.tables.where import WhereFile
from advisor.tables.words import WordsFile


@dataclass(frozen=True)
class Files:
    """The files whose tables answer questions rather than list things."""

    materials: MaterialsFile
    pipes: PipesFile
    conditions: ConditionsFile
    bends: BendsFile
    junctions: JunctionsFile
    slopes: SlopesFile
    typical: TypicalFile
    words: Mapping[str, WordsFile]


@dataclass(frozen=True)
class Tables:
    """Everything that rules/sources.yaml, rules/tables and rules/words say; numbers in SI.

    Materials are given by their own name or an alias; a name that no table has raises KeyError, so
    check a sheet's words against these tables first.
    """

    sources: Mapping[str, Source]
    materials: Mapping[str, Material]
    material_aliases: Mapping[str, str]
    conditions: Mapping[str, str]
    bends: Mapping[str, BendKind]
    junctions: Mapping[str, JunctionKind]
    openings: Mapping[str, OpeningKind]
    hazards: Mapping[str, str]
    fixtures: Mapping[str, FixtureKind]
    stoppers: Mapping[str, StopperKind]
    ends: tuple[str, ...]  # what else a line may end in
    limits: Mapping[str, Known | Estimate]
    costs: Mapping[str, Known | Estimate]
    kit_classes: Mapping[str, KitClass]
    junction: JunctionConstants
    typical: Mapping[str, Known | Estimate]
    signs: Mapping[str, Known | Estimate]
    card: CardFile
    meanings: Mapping[str, str]
    trouble_metres: Mapping[str, Known | Estimate]
    where: WhereFile
    stuck: StuckFile
    in_pipe: InPipeFile
    finds: FindsFile
    files: Files

    def material_name(self, name: str) -> str:
        """The table's name for a material, whatever its case or alias."""
        name = name.lower()
        return self.material_aliases.get(name, name)

    def material(self, name: str) -> Material:
        """A material by its name or an alias."""
        return self.materials[self.material_name(name)]

    def likely_material(
        self, region: str, year: int | None, place: str, nominal: float | None = None
    ) -> Chances:
        """What a pipe in a stack, branch, vent, drain or sewer is likely made of; `nominal` in m."""
        return self.files.materials.likely_material(region, year, place, nominal or 0.0)

    def bore(self, material: str, nominal: float) -> Known | Estimate:
        """The sound bore in m for a nominal size in m."""
        return self.files.pipes.bore(self.material(material).pipes, nominal)

    def likely_condition(self, material: str, year: int | None) -> Chances:
        """How a pipe of this material and year is likely to be inside."""
        made_of, table = self.material(material), self.files.conditions
        stocks = self.files.materials.stock.built_before
        found = [table.chances(made_of, year, stocks[region]) for region in REGIONS]
        return Chances(mixed((1.0, chances.options) for chances in found), found[0].evidence)

    def bore_factor(self, material: str, condition: str) -> Estimate:
        """The share of the sound bore that is left."""
        return self.files.conditions.bore_factor(
            self.material(material), condition, self.likely_condition(material, None)
        )

    def joint_length(self, material: str) -> Estimate:
        """From one joint of such pipe to the next, m."""
        return self.files.conditions.joint_length(self.material(material))

    def friction(self, material: str, condition: str, wet: bool | None) -> Estimate:
        """The friction coefficient of the rod on the wall; `wet` None where nobody knows."""
        return self.files.conditions.friction(
            self.material(material), condition, wet, self.likely_condition(material, None)
        )

    def likely_bend(self, region: str, year: int | None, turning: str) -> Chances:
        """What an unknown bend is: flow turning level, down (into a drop), up (out of one) or vent."""
        stock = self.files.materials.stock.built_before[region]
        return self.files.bends.likely_bend(region, year, turning, stock)

    def likely_junction(
        self, region: str, year: int | None, lie: str, branch_nominal: float, main_nominal: float
    ) -> Chances:
        """What an unknown junction is, by its lie (stack, flat, drop, vent) and nominal sizes in m."""
        stock = self.files.materials.stock.built_before[region]
        share = branch_nominal / main_nominal
        return self.files.junctions.likely_junction(region, year, lie, share, stock)

    def minimum_slope(self, region: str, nominal: float) -> Known:
        """The least slope (rise over run) that a code asks for a nominal size in m."""
        return self.files.slopes.minimum_slope(region, nominal)

    def typical_size(self, region: str, place: str) -> Known:
        """The usual nominal size in m of a drain, sewer, stack, branch or vent."""
        return self.files.typical.size(region, place)

    def words(self, region: str) -> Mapping[str, str]:
        """Plain names and what the trade of a region calls them."""
        kinds = (self.openings, self.bends, self.junctions, self.stoppers)
        named = {name: kind.words[region] for table in kinds for name, kind in table.items()}
        return {**self.files.words[region].words, **named}
