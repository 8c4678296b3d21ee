"""Where and when a photograph was taken, as its camera wrote it down (EXIF tags of GPS and time)."""

from __future__ import annotations

import math
import struct
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from typing import Any, TypeVar

from PIL.ExifTags import GPS, IFD, Base
from PIL.Image import Exif

Value = TypeVar("Value")
# What damaged tags make the reading of them raise.
DAMAGED = (ValueError, TypeError, KeyError, IndexError, ArithmeticError, AttributeError, SyntaxError, OSError)


@dataclass(frozen=True)
class Position:
    """Decimal degrees in WGS 84, south and west negative, and by how many metres it may be off, if said."""

    latitude: float
    longitude: float
    uncertainty_m: float | None = None


def position_of(exif: Exif) -> Position | None:
    """The camera's position, or None when it gave none that makes sense."""
    return quietly(lambda: positioned(exif.get_ifd(IFD.GPSInfo)))


def taken_at(exif: Exif) -> datetime | None:
    """When the picture was taken: with its zone when the camera said it, else as its clock showed."""
    return quietly(lambda: timed(exif.get_ifd(IFD.Exif)))


def quietly(read: Callable[[], Value | None]) -> Value | None:
    """A camera's notes are a bonus: damaged ones are no reason to refuse the picture."""
    try:
        return read()
    except (*DAMAGED, struct.error):
        return None


def positioned(tags: dict[int, Any]) -> Position | None:
    if GPS.GPSLatitude not in tags or GPS.GPSLongitude not in tags:
        return None
    latitude = degrees(tags[GPS.GPSLatitude], tags.get(GPS.GPSLatitudeRef), "S")
    longitude = degrees(tags[GPS.GPSLongitude], tags.get(GPS.GPSLongitudeRef), "W")
    if not (abs(latitude) <= 90 and abs(longitude) <= 180):
        return None
    error = float(tags.get(GPS.GPSHPositioningError, math.nan))
    return Position(latitude, longitude, error if math.isfinite(error) else None)


def degrees(parts: Any, side: Any, negative: str) -> float:
    """Degrees, minutes and seconds as one number; NaN, which no comparison accepts, for what is not one."""
    whole, minutes, seconds = (float(part) for part in parts)
    value = whole + minutes / 60 + seconds / 3600
    letter = side.decode("ascii") if isinstance(side, bytes) else str(side or "")
    return -value if letter.strip("\0 ").upper() == negative else value


def timed(tags: dict[int, Any]) -> datetime | None:
    text = tags.get(Base.DateTimeOriginal)
    if not text:
        return None
    local = datetime.strptime(str(text).strip("\0 "), "%Y:%m:%d %H:%M:%S")  # noqa: DTZ007  the zone follows, if any
    offset = str(tags.get(Base.OffsetTimeOriginal, "")).strip("\0 ")
    return local.replace(tzinfo=zone_of(offset)) if offset else local


def zone_of(offset: str) -> timezone:
    """‘+02:00’ as a zone."""
    hours, minutes = offset[1:].split(":")
    shift = timedelta(hours=int(hours), minutes=int(minutes))
    return timezone(-shift if offset[0] == "-" else shift)
