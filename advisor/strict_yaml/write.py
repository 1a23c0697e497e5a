"""A plain tree as YAML text that reads back as it was: no word of it is taken for anything but text."""

from __future__ import annotations

import sys
from typing import Any, ClassVar

import yaml


class _Dumper(yaml.SafeDumper):
    """Quotes nothing that our reader takes for text anyway: yes, 1958 and 3:00 stay as people write them."""

    yaml_implicit_resolvers: ClassVar[dict[str, list[object]]] = {}  # type: ignore[misc]

    def increase_indent(self, flow: bool = False, indentless: bool = False) -> None:
        """Lists stand in from their name."""
        super().increase_indent(flow, False)

    def ignore_aliases(self, data: Any) -> bool:
        """Written out twice, since the reader refuses aliases."""
        return True


def scalar(text: str) -> str:
    """One value as it stands on a sheet, between quotes where it must be."""
    listed = yaml.dump([text], Dumper=_Dumper, default_flow_style=True, allow_unicode=True, width=sys.maxsize)
    return str(listed).strip()[1:-1]


def written(tree: Any) -> str:
    """YAML text of dictionaries, lists and text, in their own order."""
    return str(yaml.dump(tree, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=100))
