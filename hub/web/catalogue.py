"""``hub messages``: gather every text for people, and bring the languages of ``hub/messages`` up to date.

English texts are their own ids. To begin a language, make the folder ``hub/messages/<tag>/LC_MESSAGES`` and
run the command: it writes ``messages.po`` to be translated there, and compiles what is translated.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import IO, Any

from babel.messages.catalog import Catalog, Message
from babel.messages.extract import extract_from_dir
from babel.messages.frontend import parse_mapping_cfg
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from hub.config import PACKAGE, ROOT

FOLDER = PACKAGE / "messages"
# In code ``say`` marks a sentence and ``say_n`` one that counts; templates use gettext's own names.
KEYWORDS: dict[str, Any] = {"say": None, "say_n": (1, 2), "_": None, "gettext": None, "ngettext": (1, 2)}
Options = Mapping[str, str]
Found = Iterator[tuple[int, str, str, list[str]]]


def collect() -> Catalog:
    """Every text of the checkout, with the places where it stands."""
    with (FOLDER / "babel.cfg").open() as settings:
        methods, options = parse_mapping_cfg(settings)
    catalogue = Catalog(project="Funicle", fuzzy=False)
    for name, line, text, comments, context in extract_from_dir(str(ROOT), methods, options, KEYWORDS):
        catalogue.add(text, locations=[(name, line)], auto_comments=comments, context=context)
    return catalogue


def texts_of_rules(file: IO[bytes], keywords: object, tags: object, options: Options) -> Found:
    """Babel's reader for the rulebook: the texts under the keys that the mapping names."""
    source = file.read().decode()
    lines = source.splitlines()
    for text in texts_under(tomllib.loads(source), frozenset(options.get("keys", "").split())):
        quoted = json.dumps(text, ensure_ascii=False)
        line = next((at for at, each in enumerate(lines, start=1) if quoted in each), 1)
        yield line, "_", text, []


def texts_under(branch: Any, keys: frozenset[str]) -> Iterator[str]:
    """All texts that stand under one of the keys, at any depth."""
    if isinstance(branch, list):
        for each in branch:
            yield from texts_under(each, keys)
    elif isinstance(branch, dict):
        for key, value in branch.items():
            if key in keys and isinstance(value, str):
                yield value
            else:
                yield from texts_under(value, keys)


def messages_command(arguments: list[str]) -> int:
    """Gather the texts, renew each language, and say how much of it is translated."""
    catalogue = collect()
    print(f"hub: {len(catalogue)} texts.")
    for folder in sorted(FOLDER.glob("*/LC_MESSAGES")):
        done = sum(1 for message in renew(folder, catalogue) if message.id and translated(message))
        print(f"hub: {folder.parent.name}: {done} of {len(catalogue)} are translated.")
    return 0


def renew(folder: Path, catalogue: Catalog) -> Catalog:
    """Bring one language up to date with the texts, keeping what is translated, and compile it."""
    path = folder / "messages.po"
    language = Catalog(locale=folder.parent.name)
    if path.exists():
        with path.open("rb") as file:
            language = read_po(file, locale=folder.parent.name)
    language.update(catalogue, no_fuzzy_matching=True)
    with path.open("wb") as file:
        write_po(file, language, omit_header=False, width=110)
    with (folder / "messages.mo").open("wb") as file:
        write_mo(file, language)
    return language


def translated(message: Message) -> bool:
    """Whether every form of a text has its translation."""
    forms = message.string if isinstance(message.string, tuple | list) else (message.string,)
    return all(forms)
