"""Finds and marks: depths, places and advice, against figures worked out by hand and a geodesy library."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from math import hypot

import pytest
from geographiclib.geodesic import Geodesic

from advisor.errors import BadInput
from advisor.push.log.log import Entry
from advisor.push.report.advice import read_advice
from advisor.push.report.geo import longitude_latitude
from advisor.push.report.geojson import geojson_of
from advisor.push.report.marks import Spot, measured_depths, spots, taped_of
from advisor.push.track.depth import expected_depth
from advisor.push.track.place import Place, place_of
from advisor.quantity import Units
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from tests.cases.jobs import tables

NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)
HOUSE = """
site: two lines
region: north america
map: measured
origin: {at: yard cleanout}
lines:
  - line: house drain
    kind: drain
    size: 4 in
    slope: 2 %
    heading: 90 deg
    pieces:
      - opening: yard cleanout
        kind: floor cleanout
        depth: 0.5 m
      - pipe: 10 m
      - joined by: laundry line
        fitting: wye
      - pipe: 5 m
      - bend: 1/8 bend
        heading: 135 deg
      - pipe: 4 m
      - drop: 1 m
      - bend: 1/4 bend
      - pipe: 6 m
      - end: public sewer
  - line: laundry line
    size: 2 in
    slope: 1 %
    heading: 180 deg
    pieces:
      - fixture: washing machine
      - pipe: 3 m
"""


def house(text: str = HOUSE):
    sheet = site_of_text(text, "site", tables())
    return network_of(sheet, tables()), sheet.model


def entry(kind: str, counter: float | None = None, **data: str | float | bool | None) -> Entry:
    return Entry(1, NOON, NOON, kind, counter, data)


def one(
    text: str = HOUSE, opening: str = "yard cleanout", kind: str = "find", **data: str | float | bool | None
) -> Spot:
    network, site = house(text)
    made = (entry("start", opening=opening), entry(kind, 4.0, **data))
    return spots(made, network, site, read_advice(rules_dir(), tables()), tables())[0]


# -- places, by hand --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "distance", "east", "north"),
    [
        ("house drain", 0, 0, 0),
        ("house drain", 7, 7, 0),  # due east
        ("house drain", 15, 15, 0),
        ("house drain", 17, 15 + 2 * 0.70710678, -2 * 0.70710678),  # 2 m to the south-east
        ("house drain", 19, 15 + 4 * 0.70710678, -4 * 0.70710678),
        ("laundry line", 3, 10, 0),  # where it joins
        ("laundry line", 1, 10, 2),  # it runs south, so its upper part lies north
    ],
)
def test_places(line, distance, east, north):
    place = place_of(*house(), line, distance)
    assert isinstance(place, Place)
    assert (place.east, place.north) == pytest.approx((east, north), abs=1e-6)


@pytest.mark.parametrize(
    ("old", "new", "distance", "told"),
    [
        ("", "", 22, "heading"),  # behind the bend at the foot of the drop nobody said where it runs
        ("        heading: 135 deg\n", "", 17, "the heading of"),
        ("    heading: 90 deg\n", "", 7, "the heading of"),
        ("map: measured", "map: sketch", 7, "from a sketch, not measured"),
        ("origin: {at: yard cleanout}\n", "", 7, "names no origin"),
        ("pipe: 10 m", "pipe: about 10 m", 12, "length of"),
        ("pipe: 10 m", "pipe: assumed 10 m", 12, "length of"),
        ("pipe: 10 m", "pipe: 9 to 11 m", 12, "length of"),
        ("pipe: 10 m", "pipe: unknown", 12, "length of"),
        ("", "", 99, "shorter"),
    ],
)
def test_no_place_without_measured_lengths_and_headings(old, new, distance, told):
    place = place_of(*house(HOUSE.replace(old, new, 1) if old else HOUSE), "house drain", distance)
    assert isinstance(place, str)
    assert told in place


@pytest.mark.parametrize("latitude", [0.0, -33.2, 51.5, 64.0])
@pytest.mark.parametrize(("east", "north"), [(25.0, -40.0), (-300.0, 500.0), (900.0, 0.0)])
def test_longitude_and_latitude_against_geographiclib(latitude, east, north):
    """geographiclib gives the shortest way over the ellipsoid, by another method."""
    lon, lat = longitude_latitude(east, north, latitude, 179.9999)
    assert -180 <= lon <= 180
    way = Geodesic.WGS84.Inverse(latitude, 179.9999, lat, lon)
    there = Geodesic.WGS84.Direct(latitude, 179.9999, way["azi1"], hypot(east, north))
    off = Geodesic.WGS84.Inverse(lat, lon, there["lat2"], there["lon2"])["s12"]
    assert off < 0.2
    assert way["s12"] == pytest.approx(hypot(east, north), abs=0.2)


def test_geojson_in_metres_and_in_degrees():
    network, site = house()
    made = spots(
        (entry("find", 7.0, what="roots", line="house drain", distance=7.0),),
        network,
        site,
        advice(),
        tables(),
    )
    local = json.loads(geojson_of(made, site, {}))
    assert local["features"][0]["geometry"] == {"type": "Point", "coordinates": [7.0, 0.0]}
    assert "metres east and north of yard cleanout" in local["coordinates_are"]
    text = HOUSE.replace(
        "{at: yard cleanout}", "{at: yard cleanout, latitude: 10.0 deg, longitude: -20.0 deg}"
    )
    network, site = house(text)
    world = json.loads(geojson_of(made, site, {}))
    assert "coordinates_are" not in world
    lon, lat = world["features"][0]["geometry"]["coordinates"]
    assert Geodesic.WGS84.Inverse(10, -20, lat, lon)["s12"] == pytest.approx(7.0, abs=0.01)
    nowhere = json.loads(
        geojson_of(spots((entry("find", what="roots"),), network, site, advice(), tables()), site, {})
    )
    assert nowhere["features"][0]["geometry"] is None
    assert "not tied" in nowhere["features"][0]["properties"]["no_place"]


def advice():
    return read_advice(rules_dir(), tables())


# -- depths -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "distance", "depth", "assumed"),
    [
        ("house drain", 10, 0.5 + 0.02 * 10, ()),
        ("house drain", 19.5, 0.5 + 0.02 * 19 + 0.5, ()),  # half a metre down the drop
        ("house drain", 26, 0.5 + 0.02 * 25 + 1.0, ()),
        ("laundry line", 0, 0.5 + 0.02 * 10 - 0.01 * 3, ()),  # up the other line
    ],
)
def test_expected_depth(line, distance, depth, assumed):
    network, _ = house()
    found = expected_depth(network, "yard cleanout", line, distance)
    assert found is not None
    assert (found.value, found.assumed) == (pytest.approx(depth), assumed)


@pytest.mark.parametrize(
    ("depth", "fall", "told"),
    [
        ("assumed 0.7 m", "2 %", ", assumed the depth of yard cleanout, 700 mm"),
        (
            "assumed 0.7 m",
            "assumed 2 %",
            ", assumed above all the depth of yard cleanout, 700 mm; then slope",
        ),
        (
            "assumed 0.7 m",
            "assumed 40 %",
            ", assumed above all slope; then the depth of yard cleanout, 700 mm",
        ),
        ("0.7 m", "assumed 2 %", ", assumed slope"),
        ("0.7 m", "2 %", ""),
    ],
)
def test_a_depth_that_nobody_measured_is_named_and_what_decides_comes_first(depth, fall, told):
    """2 % of 8 m is 160 mm, 40 % is 3.2 m: of that and the depth of the opening the greater decides."""
    text = HOUSE.replace("depth: 0.5 m", f"depth: {depth}").replace("slope: 2 %", f"slope: {fall}", 1)
    found = expected_depth(house(text)[0], "yard cleanout", "house drain", 8.0)
    assert found is not None
    assert found.assumed_words(Units.METRIC) == told
    assert ("assumed" in told) is ("assumed" in depth or "assumed" in fall)


def test_what_was_not_measured_makes_the_depth_assumed():
    network, _ = house(HOUSE.replace("    slope: 2 %\n", "", 1).replace("pipe: 10 m", "pipe: about 10 m"))
    found = expected_depth(network, "yard cleanout", "house drain", 12)
    assert found is not None
    assert set(found.assumed) == {"lengths", "slope"}
    network, _ = house(HOUSE.replace("        depth: 0.5 m\n", ""))
    assert expected_depth(network, "yard cleanout", "house drain", 12) is None


def test_measured_depths_by_hand():
    """By hand: 8 to 1 over a raise of 1 m is 1 m; nulls 1.414 m apart are 1 m; less 0.1 m of receiver."""
    told = entry("mark", name="x", near=8.0, far=1.0, raised=1.0, spacing=2**0.5, receiver=0.1, depth=0.95)
    assert dict(measured_depths(told)) == {
        "read off": pytest.approx(0.95),
        "two heights": pytest.approx(0.9),
        "two nulls": pytest.approx(0.9),
    }
    assert measured_depths(entry("mark", name="x", near=1.0, far=2.0, raised=1.0)) == ()
    assert measured_depths(entry("mark", name="x", near=1.0, far=0.0, raised=0.0, spacing=0.0)) == ()


def test_two_depths_that_disagree_are_told():
    assert one(kind="mark", name="x", depth=1.0, spacing=2**0.5).same_depth is True
    assert one(kind="mark", name="x", depth=1.4, spacing=2**0.5).same_depth is False
    assert one(kind="mark", name="x", depth=1.4).same_depth is None


# -- tapes, remarks, advice -------------------------------------------------------------------


def test_two_tapes_by_hand():
    """By hand: 3 m and 4 m from points 5 m apart is the right-angled triangle: 1.8 m along and 2.4 m off."""
    met = taped_of(3.0, 4.0, 5.0)
    assert not isinstance(met, str)
    assert (met.along, met.off) == pytest.approx((1.8, 2.4))
    assert isinstance(taped_of(1.0, 2.0, 5.0), str)


# -- the sheet --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("at: yard cleanout", "at: yard clenout", "did you mean 'yard cleanout'"),
        (
            "{at: yard cleanout}",
            "{at: yard cleanout, latitude: 10 deg}",
            "latitude and longitude, or neither",
        ),
        ("{at: yard cleanout}", "{at: yard cleanout, latitude: 95 deg, longitude: 1 deg}", "within 89"),
        ("{at: yard cleanout}", "{at: yard cleanout, latitude: 10, longitude: 1 deg}", "decimal degrees"),
        ("heading: 90 deg", "heading: 80 to 90 deg", "one angle from true north"),
        ("heading: 90 deg", "heading: 400 deg", "too large to be true"),
        ("heading: 90 deg", "heading: east", "angle"),
    ],
)
def test_bad_headings_and_origins(old, new, told):
    with pytest.raises(BadInput, match=told):
        house(HOUSE.replace(old, new, 1))


def test_a_heading_changes_nothing_of_the_network():
    plain = HOUSE.replace("    heading: 90 deg\n", "").replace("        heading: 135 deg\n", "")
    one_network, other = house()[0], house(plain)[0]
    assert one_network.links == other.links
    assert one_network.positions("house drain") == other.positions("house drain")
