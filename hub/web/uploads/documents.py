"""Signed permissions: a PDF that does nothing when it is opened, or a photograph of the paper.

The check reads a PDF's bytes, also inside compressed objects and behind escaped names. It is one fence of
two: whatever gets past it is handed out again only as a download that runs nothing.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from dataclasses import dataclass

from werkzeug.datastructures import FileStorage

from hub.web.uploads.pictures import Picture, picture
from hub.words import Refused, say

LARGEST = 10 * 1024 * 1024  # bytes
INFLATED = 4 * 1024 * 1024  # bytes read of each compressed part
STEP = 64 * 1024  # bytes
INFLATED_TOGETHER = 96 * 1024 * 1024  # bytes
NOT_A_DOCUMENT = say("Please send a PDF, or a photograph of the paper as JPEG, PNG or WebP.")
TOO_LARGE = say("This file is too large: at most {most} MB.", most=LARGEST // 1024 // 1024)
CUT_SHORT = say("This PDF is damaged or cut short. Please choose it again, or send another copy.")
LOCKED = say("This PDF is locked with a password. Please send a copy that is not.")
ALIVE = say("This PDF holds a program, a form or another file. Please print it to a plain PDF and send that.")
TANGLED = say("This PDF cannot be checked as it is packed. Please print it to a plain PDF and send that.")

# Names by which ISO 32000 lets a PDF act, or carry something along.
ACTIONS = ("JavaScript", "Launch", "SubmitForm", "ImportData")
CARGO = ("EmbeddedFile", "EmbeddedFiles", "RichMedia", "XFA")
BETWEEN_NAMES = rb"(?=[\s/<>\[\]()%{}]|$)"


def name_pattern(*names: str) -> re.Pattern[bytes]:
    """Matches any of the names, with any of its letters written as ``#4A``."""
    spelled = ("".join(f"(?:{letter}|#(?i:{ord(letter):02x}))" for letter in name) for name in names)
    return re.compile(b"/(?:" + "|".join(spelled).encode() + b")" + BETWEEN_NAMES)


ACTS = name_pattern(*ACTIONS, *CARGO)
ENCRYPTED = name_pattern("Encrypt")
OBJECTS_INSIDE = name_pattern("ObjStm")
OTHER_PACKING = re.compile(rb"/(?!FlateDecode\b)\w*(?:Decode|Crypt|Predictor)\b")
PART = re.compile(rb"(?<!end)stream\r?\n")


@dataclass(frozen=True)
class Document:
    """A PDF as it came, or the picture of a page drawn anew."""

    body: bytes
    ending: str
    picture: Picture | None = None


def document(upload: FileStorage) -> Document:
    """Read a signed paper. Raises Refused for what is neither a plain PDF nor a photograph."""
    data = upload.stream.read(LARGEST + 1)
    if len(data) > LARGEST:
        raise Refused(TOO_LARGE)
    if data.startswith(b"%PDF-"):
        return Document(plain_pdf(data), "pdf")
    upload.stream.seek(0)
    try:
        photograph = picture(upload)
    except Refused as refusal:
        raise Refused(NOT_A_DOCUMENT) from refusal
    return Document(photograph.full, photograph.ending, photograph)


def plain_pdf(data: bytes) -> bytes:
    """The same bytes, when nothing in them acts, hides or carries anything."""
    if b"%%EOF" not in data[-2048:]:
        raise Refused(CUT_SHORT)
    if ENCRYPTED.search(data):
        raise Refused(LOCKED)
    if ACTS.search(data) or any(ACTS.search(part) for part in inflated_parts(data)):
        raise Refused(ALIVE)
    return data


def inflated_parts(data: bytes) -> Iterator[bytes]:
    """The beginning of each compressed part, whatever it says it is, and all of those that hold objects."""
    together = 0
    for found in PART.finditer(data):
        head = data[max(0, data.rfind(b"obj", 0, found.start())) : found.start()]
        part, rest = inflate(data, found.end())
        together += len(part)
        unreadable = not part or rest or OTHER_PACKING.search(head)
        if together > INFLATED_TOGETHER or (OBJECTS_INSIDE.search(head) and unreadable):
            raise Refused(TANGLED)
        yield part


def inflate(data: bytes, start: int) -> tuple[bytes, bool]:
    """The first ``INFLATED`` bytes of what deflated data holds, and whether there is more."""
    machine, found = zlib.decompressobj(), b""
    try:
        for at in range(start, min(len(data), start + INFLATED), STEP):
            found += machine.decompress(data[at : at + STEP], INFLATED - len(found))
            if machine.eof or len(found) == INFLATED:
                break
    except zlib.error:
        return found, True
    return found, not machine.eof
