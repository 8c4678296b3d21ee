"""Photographs: opened with suspicion, turned upright, drawn anew without anything that was hidden in them."""

from __future__ import annotations

import io
import struct
import zlib
from dataclasses import dataclass
from datetime import datetime

from PIL import Image, ImageOps
from werkzeug.datastructures import FileStorage

from hub.web.uploads.exif import Position, position_of, taken_at
from hub.words import Refused, say

FORMATS = ("JPEG", "PNG", "WEBP")
ENDING = "webp"
LONGEST_SIDE = 2048  # pixels: leaf hairs can be told on a screen, and a photograph stays near 200 kB
THUMBNAIL_SIDE = 400  # pixels
MOST_PIXELS = 50_000_000
QUALITY = 82
NOT_A_PICTURE = say("This is not a photograph that can be read. Please send a JPEG, PNG or WebP file.")
HEIC = say("This photograph is a HEIC file. Please set the phone to save JPEG, or send a copy as JPEG.")
DAMAGED = say("This photograph is damaged or cut short. Please choose it again, or send another copy.")
TOO_LARGE = say("This picture is too large: at most {most} million pixels.", most=MOST_PIXELS // 1_000_000)
# What damaged picture files make their decoder raise.
DECODER_FAILS = (OSError, SyntaxError, ValueError, TypeError, IndexError, EOFError, zlib.error, struct.error)

# The library's own alarm, beside ours: it looks at frames within a file as well.
Image.MAX_IMAGE_PIXELS = MOST_PIXELS


@dataclass(frozen=True)
class Picture:
    """A photograph as two WebP files that hold pixels alone, and what its camera wrote beside them."""

    full: bytes
    thumbnail: bytes
    width: int
    height: int
    position: Position | None
    taken_at: datetime | None
    ending: str = ENDING


def picture(upload: FileStorage) -> Picture:
    """Read a photograph. Raises Refused for anything else, for bombs and for damaged files."""
    data = upload.stream.read()
    try:
        return read(opened(data))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise Refused(TOO_LARGE) from None
    except DECODER_FAILS:
        raise Refused(DAMAGED) from None


def opened(data: bytes) -> Image.Image:
    """The picture with only its head read. Formats are named, so no other decoder ever runs."""
    if data[4:8] == b"ftyp" and data[8:12] in (b"heic", b"heix", b"hevc", b"mif1"):
        raise Refused(HEIC)
    try:
        image = Image.open(io.BytesIO(data), formats=FORMATS)
    except Image.UnidentifiedImageError:
        raise Refused(NOT_A_PICTURE) from None
    if image.width * image.height > MOST_PIXELS:
        raise Refused(TOO_LARGE)
    return image


def read(image: Image.Image) -> Picture:
    exif = image.getexif()
    position, taken = position_of(exif), taken_at(exif)
    image.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))  # big JPEGs are decoded at a fraction of their size
    upright = on_white(ImageOps.exif_transpose(image))
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    small = upright.copy()
    small.thumbnail((THUMBNAIL_SIDE, THUMBNAIL_SIDE))
    return Picture(drawn(upright), drawn(small), upright.width, upright.height, position, taken)


def on_white(image: Image.Image) -> Image.Image:
    """Plain red, green and blue; what was see-through becomes white paper."""
    if not image.has_transparency_data:
        return image.convert("RGB")
    paper = Image.new("RGB", image.size, "white")
    clear = image.convert("RGBA")
    paper.paste(clear, mask=clear)
    return paper


def drawn(image: Image.Image) -> bytes:
    """The pixels as a fresh WebP file; only they are handed over."""
    fresh = Image.new("RGB", image.size)
    fresh.paste(image)
    body = io.BytesIO()
    fresh.save(body, "WEBP", quality=QUALITY)
    return body.getvalue()
