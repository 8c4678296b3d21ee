"""Painted pictures for the demo: plants that nobody ever photographed, with a camera's notes beside them."""

from __future__ import annotations

import io
import math
from datetime import date, datetime
from random import Random
from typing import Any

from PIL import Image, ImageDraw
from werkzeug.datastructures import FileStorage

from hub.web.uploads import Picture, picture

SIZE = (960, 720)  # pixels to paint on
STORED = (640, 480)
SKY, HILL, STALK, LEAF = (214, 222, 214), (176, 188, 158), (92, 110, 70), (110, 134, 84)
PETALS = {"plant": (150, 140, 184), "diagnostic part": (196, 168, 96), "fruit or seed": (132, 96, 60)}
PAPER, INK = (244, 240, 228), (60, 56, 48)
GPS, EXIF, DATE_TAKEN = 0x8825, 0x8769, 0x9003


def photograph(entry: dict[str, Any], seed: str) -> Picture:
    """One photograph, as an upload with a position and a time in it would be read."""
    image = painted(entry["kind"], Random(seed)).resize(STORED)  # noqa: S311  the same picture each time, not a secret
    data = io.BytesIO()
    image.save(data, "JPEG", quality=85, exif=camera_notes(entry))
    data.seek(0)
    return picture(FileStorage(data, filename=f"{seed}.jpg"))


def painted(kind: str, chance: Random) -> Image.Image:
    """A hillside with plants, or one part of a plant large."""
    image = Image.new("RGB", SIZE, SKY)
    draw = ImageDraw.Draw(image)
    hill(draw, chance)
    if kind == "habitat":
        for _ in range(26):
            plant(draw, chance, chance.randint(40, 920), chance.randint(480, 700), chance.randint(24, 60))
    elif kind == "plant":
        plant(draw, chance, 480, 690, 420, PETALS["plant"])
    else:
        close_up(draw, chance, PETALS.get(kind, PETALS["fruit or seed"]))
    return image


def hill(draw: ImageDraw.ImageDraw, chance: Random) -> None:
    phase, height = chance.random() * 6, chance.randint(30, 70)
    ridge = [(x, 380 + height * math.sin(phase + x / 190)) for x in range(0, 961, 20)]
    draw.polygon([*ridge, (960, 720), (0, 720)], fill=HILL)


def plant(
    draw: ImageDraw.ImageDraw,
    chance: Random,
    x: int,
    foot: int,
    height: int,
    petal: tuple[int, int, int] = (196, 168, 96),
) -> None:
    """A stalk, pairs of leaves and a head."""
    top = (x + chance.randint(-height // 6, height // 6), foot - height)
    draw.line([(x, foot), top], fill=STALK, width=max(2, height // 40))
    for step in range(1, 5):
        y, reach = foot - height * step // 6, height // (4 + step)
        for side in (-1, 1):
            draw.polygon([(x, y), (x + side * reach, y - reach // 3), (x, y - reach // 4)], fill=LEAF)
    flower(draw, top, height // 8, petal, chance.randint(5, 9))


def flower(
    draw: ImageDraw.ImageDraw, at: tuple[int, int], size: int, petal: tuple[int, int, int], petals: int
) -> None:
    for number in range(petals):
        angle = 2 * math.pi * number / petals
        x, y = at[0] + size * math.cos(angle), at[1] + size * math.sin(angle)
        draw.ellipse([x - size / 2, y - size / 2, x + size / 2, y + size / 2], fill=petal)
    draw.ellipse([at[0] - size / 2, at[1] - size / 2, at[0] + size / 2, at[1] + size / 2], fill=INK)


def close_up(draw: ImageDraw.ImageDraw, chance: Random, petal: tuple[int, int, int]) -> None:
    """A few heads on a sheet of paper with a scale of centimetres."""
    draw.rectangle([120, 80, 840, 640], fill=PAPER)
    for number in range(6):
        x, y = 230 + 240 * (number % 3), 220 + 200 * (number // 3)
        flower(draw, (x + chance.randint(-20, 20), y), chance.randint(26, 44), petal, chance.randint(5, 8))
    for mark in range(11):
        draw.line([(160 + mark * 40, 610), (160 + mark * 40, 590 if mark % 5 else 575)], fill=INK, width=3)


def signed_letter(owner: str, day: date) -> bytes:
    """A letter of permission as somebody's scanner saw it, with a scribble for a signature."""
    image = Image.new("RGB", (700, 990), PAPER)
    draw = ImageDraw.Draw(image)
    draw.text(
        (70, 80),
        f"{owner}\n{day.isoformat()}\n\nYou may collect seed on our land\non the terms we wrote down.",
        fill=INK,
    )
    curve = [(70 + x, 700 + 24 * math.sin(x / 9) * math.cos(x / 41)) for x in range(0, 240, 3)]
    draw.line(curve, fill=INK, width=3)
    data = io.BytesIO()
    image.resize((350, 495)).save(data, "WEBP", quality=70)
    return data.getvalue()


def camera_notes(entry: dict[str, Any]) -> Image.Exif:
    """Where and when, as a phone writes it into a picture."""
    notes = Image.Exif()
    taken: datetime = entry["taken_at"]
    notes[EXIF] = {DATE_TAKEN: taken.strftime("%Y:%m:%d %H:%M:%S")}
    if "latitude" in entry:
        notes[GPS] = {
            1: "N" if entry["latitude"] >= 0 else "S",
            2: sixties(abs(entry["latitude"])),
            3: "E" if entry["longitude"] >= 0 else "W",
            4: sixties(abs(entry["longitude"])),
        }
    return notes


def sixties(degrees: float) -> tuple[float, float, float]:
    """Degrees, minutes and seconds."""
    minutes = (degrees - int(degrees)) * 60
    return float(int(degrees)), float(int(minutes)), round((minutes - int(minutes)) * 60, 3)
