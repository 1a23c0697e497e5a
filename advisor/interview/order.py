"""In which order it is listed what may be told of a drain: as it is drawn, line by line as the water runs."""

from __future__ import annotations

from advisor.site.network import Network


def drawn_order(network: Network) -> dict[str, int]:
    """Where each thing that may be asked about comes, by its id."""
    found: dict[str, int] = {}
    for name, ids in network.lines.items():
        found[f"branch {name}"] = len(found)
        for key in ids:
            found.setdefault(f"wall {network.pieces[key].wall.id}", len(found))
            found[key] = len(found)
    return found
