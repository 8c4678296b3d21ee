"""Photographs for the tests: plain, placed by their camera, or no photographs at all."""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from datetime import datetime

from PIL import Image
from PIL.ExifTags import GPS, IFD, Base

from hub.web.uploads.exif import Position


@dataclass(frozen=True)
class DrawnAnew:
    """What reading an upload gives."""

    full: bytes = b"full"
    thumbnail: bytes = b"thumbnail"
    width: int = 40
    height: int = 30
    position: Position | None = None
    taken_at: datetime | None = None
    ending: str = field(default="webp")


def picture_of(**noted: object) -> DrawnAnew:
    return DrawnAnew(**noted)  # type: ignore[arg-type]


def jpeg(colour: str = "green", *, placed: bool = False) -> bytes:
    """A small photograph; ``placed`` writes 47° 48′ N, 28° 12′ W and a moment into it."""
    exif = Image.Exif()
    if placed:
        exif.get_ifd(IFD.GPSInfo).update(
            {
                GPS.GPSLatitude: (47.0, 48.0, 0.0),
                GPS.GPSLatitudeRef: "N",
                GPS.GPSLongitude: (28.0, 12.0, 0.0),
                GPS.GPSLongitudeRef: "W",
            }
        )
        exif.get_ifd(IFD.Exif)[Base.DateTimeOriginal] = "2031:07:12 10:00:00"
    body = io.BytesIO()
    Image.new("RGB", (40, 30), colour).save(body, "JPEG", exif=exif)
    return body.getvalue()
