"""Whether the sheet was changed since a push began, so that places by it are no longer those of then."""

from __future__ import annotations

import json
from hashlib import sha256

from advisor.push.log.log import Entry
from advisor.site.network import Network

_PLACED = ("opening", "junction", "bend", "stopper", "reducer", "fixture", "cap", "end")
_LONG = 12  # signs of a digest; arithmetic: of a thousand versions of one sheet no two are told as one


def version_of(network: Network) -> str:
    """The sheet's version, as far as places hang on it: what stands on each line and how far down it.

    Of openings their depth counts, for it is rod. To the centimetre, as a counter reads.
    """
    drawn = {
        line: [
            (piece.kind, piece.name, round(tops[piece.id], 2), piece.hole and piece.hole.depth)
            for piece in map(network.pieces.__getitem__, ids)
            if piece.kind in _PLACED
        ]
        for line, ids in network.lines.items()
        for tops in [network.positions(line)]
    }
    return sha256(json.dumps(drawn, sort_keys=True).encode()).hexdigest()[:_LONG]


def redrawn(start: Entry, network: Network) -> bool:
    """Whether the push began by another sheet; of an older log nobody knows."""
    return start.data.get("sheet") not in (None, version_of(network))
