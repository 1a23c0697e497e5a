"""A plain tree as YAML text that reads back as it was: no word of it is taken for anything but text."""

from __future__ import annotations

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


def written(tree: Any) -> str:
    """YAML text of dictionaries, lists and text, in their own order."""
    return str(yaml.dump(tree, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=100))
