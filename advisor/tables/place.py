"""Where the rules lie: beside the source tree, or inside the installed package."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def rules_dir() -> Path:
    """The checkout's `rules/` when running from one, else the copy packed with the program."""
    beside = _PACKAGE.parent / "rules"
    # Some other project's rules/ may lie beside an installed package: ours has its sources in it.
    return beside if (beside / "sources.yaml").is_file() else _PACKAGE / "_rules"
