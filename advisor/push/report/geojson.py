"""Finds and marks as GeoJSON: longitude and latitude where the site has them, else metres of the site."""

from __future__ import annotations

import json
from collections.abc import Mapping

from advisor.errors import printable
from advisor.push.report.geo import longitude_latitude
from advisor.push.report.log_datum import Counted
from advisor.push.report.marks import Spot
from advisor.push.track.place import Place
from advisor.site.sheet import SiteSheet


def geojson_of(found: tuple[Spot, ...], site: SiteSheet, along: Mapping[int, Counted]) -> str:
    """A FeatureCollection; what has no place keeps its feature, without a geometry and with the reason.

    Lengths along a line count, as in the other exports, from where `along` has it for the entry of each.

    The standard knows longitude and latitude only (RFC 7946), so metres are told by a member of their own.
    """
    origin = site.origin
    degrees = origin is not None and origin.latitude is not None
    collection: dict[str, object] = {"type": "FeatureCollection"}
    if not degrees:
        at = printable(origin.at) if origin else "nowhere: the sheet names no origin"
        collection["coordinates_are"] = f"metres east and north of {at}, not longitude and latitude"
    collection["features"] = [_feature(spot, site, along.get(spot.entry)) for spot in found]
    return json.dumps(collection, indent=2) + "\n"


def _feature(spot: Spot, site: SiteSheet, counted: Counted | None) -> dict[str, object]:
    said = {
        "entry": spot.entry,
        "kind": spot.kind,
        "words": printable(spot.told),
        "line": spot.line,
        "lengths_along_the_line_count_from": counted and counted.counts_from,
        "down_the_line_m": counted and counted.down(None if spot.doubt.somewhere else spot.distance),
        "at_the_least_m": counted and counted.down(spot.doubt.low),
        "at_the_most_m": counted and counted.down(spot.doubt.high),
        "sure": spot.doubt.sure,
        "counter_m": spot.counter,
        "in_from_opening_m": round(spot.reading.inside, 2) if spot.reading else None,
        "depth_m": round(spot.depths[0][1], 2) if spot.depths else None,
        "no_place": spot.place if isinstance(spot.place, str) else None,
    }
    properties = {name: value for name, value in said.items() if value is not None}
    return {"type": "Feature", "geometry": _geometry(spot.place, site), "properties": properties}


def _geometry(place: Place | str, site: SiteSheet) -> dict[str, object] | None:
    if isinstance(place, str):
        return None
    origin = site.origin
    if origin is None or origin.latitude is None or origin.longitude is None:
        return {"type": "Point", "coordinates": [round(place.east, 2), round(place.north, 2)]}
    lon, lat = longitude_latitude(place.east, place.north, origin.latitude, origin.longitude)
    return {"type": "Point", "coordinates": [round(lon, 7), round(lat, 7)]}
