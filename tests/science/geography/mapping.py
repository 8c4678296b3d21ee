"""Places and outlines for the tests of the geography, laid out in km around a place."""

import shapely
from pyproj import Proj

from hub.science.distance import Position


def at(latitude, longitude):
    """A position, latitude first as people say it."""
    return Position(latitude=latitude, longitude=longitude)


class Ground:
    """An equal-area map of the tests' own, which turns km east and north of a place into degrees."""

    def __init__(self, latitude, longitude):
        self.project = Proj(f"+proj=laea +lat_0={latitude} +lon_0={longitude} +ellps=WGS84 +units=km")

    def place(self, east, north):
        """The position so many km away."""
        longitude, latitude = self.project(east, north, inverse=True)
        return at(latitude, longitude)

    def box(self, west, south, east, north):
        """A rectangle as GeoJSON, with a corner every 5 km so that its edges are straight on the map."""
        ring = shapely.segmentize(shapely.box(west, south, east, north), 5).exterior.coords
        corners = [self.project(*corner, inverse=True) for corner in ring]
        corners[-1] = corners[0]
        return {"type": "Polygon", "coordinates": [[list(corner) for corner in corners]]}


def degrees_box(west, south, east, north):
    """A rectangle of degrees as GeoJSON."""
    ring = [[west, south], [east, south], [east, north], [west, north], [west, south]]
    return {"type": "Polygon", "coordinates": [ring]}
