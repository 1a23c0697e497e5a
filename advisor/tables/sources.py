"""Where the numbers and rules come from: rules/sources.yaml."""

from __future__ import annotations

from typing import Annotated, TypeVar

from pydantic import BaseModel, model_validator

from advisor.errors import Fault
from advisor.evidence import Source
from advisor.strict_yaml import Branch, Node, Sheet, Twigs
from advisor.strict_yaml.model import nearest
from advisor.tables.entry import Row, by_name

M = TypeVar("M", bound=BaseModel)


class SourceRow(Row):
    """One text, or the words for having none."""

    name: str
    title: str
    where: str = ""
    note: str = ""


class SourcesFile(Row):
    """Every source by its id."""

    sources: Annotated[dict[str, SourceRow], by_name]

    @model_validator(mode="after")
    def _not_empty(self) -> SourcesFile:
        if not self.sources:
            raise ValueError("there is no source in it")
        return self

    def by_id(self) -> dict[str, Source]:
        """The sources as the rest of the program knows them."""
        return {i: Source(i, r.title, r.where, r.note) for i, r in self.sources.items()}


def unknown_sources(sheet: Sheet[M], ids: list[str]) -> list[Fault]:
    """A fault for every `source:` in a file that names no known source."""
    found: list[Fault] = []
    known = set(ids)

    def walk(node: Node, *path: str | int) -> None:
        if isinstance(node, Twigs):
            for number, item in enumerate(node.items):
                walk(item, *path, number)
        elif isinstance(node, Branch):
            for key, child in node.entries.items():
                text = getattr(child, "text", None)
                if text is None:
                    walk(child, *path, key)
                elif key == "source" and text not in known:
                    message = f"source: no source has the id {text!r}{nearest(text, ids)}"
                    found.append(sheet.fault(message, *path, key))

    walk(sheet.tree)
    return found
