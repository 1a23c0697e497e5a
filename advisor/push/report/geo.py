"""Metres east and north of a point to latitude and longitude."""

from __future__ import annotations

from math import cos, degrees, radians, sin, sqrt

# The ellipsoid of WGS 84: half the long axis in m, and the square of its eccentricity.
_HALF_AXIS = 6_378_137.0
_FLATTENING = 1 / 298.257223563
_SQUARE = _FLATTENING * (2 - _FLATTENING)


def longitude_latitude(east: float, north: float, latitude: float, longitude: float) -> tuple[float, float]:
    """Longitude and latitude in degrees of a point `east` and `north` m from the given one.

    On the plane that touches the ellipsoid there: within 1 km it is off by less than 0.2 m below 65 degrees.
    Source: the definition of WGS 84; compared with a general geodesy library (tests/push/test_places.py).
    """
    bulge = 1 - _SQUARE * sin(radians(latitude)) ** 2
    along_meridian = _HALF_AXIS * (1 - _SQUARE) / bulge**1.5
    across = _HALF_AXIS / sqrt(bulge) * cos(radians(latitude))
    turned = longitude + degrees(east / across)
    return (turned + 180) % 360 - 180, latitude + degrees(north / along_meridian)
