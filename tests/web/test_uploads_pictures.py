"""The zoo of photographs: a phone’s are kept without their secrets, an attacker’s are refused."""

from __future__ import annotations

import io
import math
import struct
import zlib
from contextlib import suppress
from datetime import datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from PIL.ExifTags import GPS, IFD, Base
from werkzeug.datastructures import FileStorage

from hub.web.uploads import picture
from hub.words import Refused


def sent(data):
    return FileStorage(io.BytesIO(data), filename="../photo.svg", content_type="text/html")


def photograph(kind="JPEG", size=(60, 40), mode="RGB", exif=None, **options):
    body = io.BytesIO()
    Image.new(mode, size, options.pop("colour", None)).save(
        body, kind, exif=Image.Exif() if exif is None else exif, **options
    )
    return body.getvalue()


def exif_of(**tags):
    """Camera notes: ``gps`` and ``taken`` as mappings of their tags, others by name."""
    exif = Image.Exif()
    for name, value in tags.items():
        if name == "gps":
            exif.get_ifd(IFD.GPSInfo).update(value)
        elif name == "taken":
            exif.get_ifd(IFD.Exif).update(value)
        else:
            exif[Base[name]] = value
    return exif


def position_tags(latitude, south_or_north, longitude, west_or_east):
    return {
        GPS.GPSLatitudeRef: south_or_north,
        GPS.GPSLatitude: latitude,
        GPS.GPSLongitudeRef: west_or_east,
        GPS.GPSLongitude: longitude,
    }


def refusal_of(data):
    with pytest.raises(Refused) as refused:
        picture(sent(data))
    return str(refused.value)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_each_kind_becomes_two_webp_files(kind):
    found = picture(sent(photograph(kind, (3000, 1500))))
    for body, size in ((found.full, (2048, 1024)), (found.thumbnail, (400, 200))):
        with Image.open(io.BytesIO(body)) as image:
            assert image.format == "WEBP"
            assert image.size == size
    assert (found.width, found.height) == (2048, 1024)


@pytest.mark.parametrize(
    ("sides", "expected"),
    [
        (("N", "E"), (43.53, 172.62)),
        (("S", "E"), (-43.53, 172.62)),
        (("N", "W"), (43.53, -172.62)),
        (("S", "W"), (-43.53, -172.62)),
    ],
)
def test_the_position_is_read_in_every_quarter_of_the_world(sides, expected):
    """Degrees, minutes, seconds by hand: 43° 31′ 48″ is 43.53°, 172° 37′ 12″ is 172.62°."""
    gps = position_tags((43, 31, 48.0), sides[0], (172, 37, 12.0), sides[1])
    found = picture(sent(photograph(exif=exif_of(gps=gps)))).position
    assert (found.latitude, found.longitude) == pytest.approx(expected)


def test_time_and_uncertainty_are_read_and_nothing_stays_in_the_file():
    gps = position_tags((1, 2, 3.0), "N", (4, 5, 6.0), "E") | {GPS.GPSHPositioningError: 12.5}
    taken = {Base.DateTimeOriginal: "2026:06:12 14:30:00", Base.OffsetTimeOriginal: "+02:00"}
    body = photograph(exif=exif_of(gps=gps, taken=taken, Artist="Ada", ImageDescription="at the gate"))
    assert b"Ada" in body
    found = picture(sent(body))
    assert found.taken_at == datetime.fromisoformat("2026-06-12T14:30:00+02:00")
    assert found.taken_at.utcoffset() == timedelta(hours=2)
    assert found.position.uncertainty_m == 12.5
    for kept in (found.full, found.thumbnail):
        with Image.open(io.BytesIO(kept)) as image:
            assert not image.getexif()
            assert not {"exif", "xmp", "icc_profile"} & set(image.info)
        assert b"Ada" not in kept


def test_a_picture_on_its_side_is_turned_upright():
    found = picture(sent(photograph(size=(60, 40), exif=exif_of(Orientation=6))))
    assert (found.width, found.height) == (40, 60)


def test_see_through_becomes_white_paper():
    found = picture(sent(photograph("PNG", mode="RGBA", colour=(0, 0, 0, 0))))
    with Image.open(io.BytesIO(found.full)) as image:
        assert image.getpixel((5, 5)) == (255, 255, 255)


@pytest.mark.parametrize(
    "gps",
    [
        position_tags((91, 0, 0.0), "N", (4, 0, 0.0), "E"),
        position_tags((1, 2), "N", (4, 0, 0.0), "E"),
        {GPS.GPSLatitude: (1, 2, 3.0)},
        position_tags((1, 2, math.inf), "N", (4, 0, 0.0), "E"),
    ],
)
def test_damaged_notes_are_no_reason_to_refuse_a_picture(gps):
    taken = {Base.DateTimeOriginal: "0000:00:00 00:00:00"}
    found = picture(sent(photograph(exif=exif_of(gps=gps, taken=taken))))
    assert found.position is None
    assert found.taken_at is None


def bomb(width, height):
    """A PNG of a few hundred bytes that claims to be huge."""

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(bytes(999)))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("size", [(30_000, 30_000), (9000, 9000), (2_000_000_000, 1), (1, 60_000_000)])
def test_a_bomb_is_refused_by_its_size(size):
    assert "too large" in refusal_of(bomb(*size))


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>",
        b"GIF89a" + bytes(50),
        b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 10 10\n",
        b"%PDF-1.7\n",
        b"II*\0" + bytes(50),
        b"\0" * 5000,
    ],
)
def test_anything_else_is_no_picture(data):
    assert "JPEG, PNG or WebP" in refusal_of(data)


def test_heic_gets_a_sentence_of_its_own():
    assert "HEIC" in refusal_of(b"\0\0\0\x18ftypheic" + bytes(50))


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_picture_cut_short_is_refused(kind):
    body = photograph(kind, (400, 400), colour=(9, 90, 9))
    assert refusal_of(body[: len(body) * 2 // 3])


def test_what_hides_behind_or_inside_a_picture_is_gone():
    payload = b"<script>alert(1)</script>PK\x03\x04"
    found = picture(sent(photograph(exif=exif_of(ImageDescription=payload.decode("latin-1"))) + payload))
    assert b"script" not in found.full + found.thumbnail


changed_bytes = st.lists(st.tuples(st.integers(0, 900), st.integers(0, 255)), max_size=9)


@pytest.mark.filterwarnings("ignore::UserWarning")
@settings(max_examples=150, deadline=None)
@given(kind=st.sampled_from(["JPEG", "PNG", "WEBP"]), changes=changed_bytes)
def test_damage_is_survived_or_refused(kind, changes):
    notes = exif_of(gps=position_tags((1, 2, 3.0), "N", (4, 5, 6.0), "E"))
    body = bytearray(photograph(kind, (50, 50), exif=notes))
    for at, value in changes:
        body[at % len(body)] = value
    with suppress(Refused):
        assert picture(sent(bytes(body))).full.startswith(b"RIFF")
