"""``hub sheet``: the protocol sheet of one case, without any database."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime
from pathlib import Path

from marshmallow import ValidationError

from hub.protocols.case import Case
from hub.protocols.engine import issue
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.schemas import case_json_schema, read_case
from hub.protocols.sheet import Sheet
from hub.web.faults import faults
from hub.words import Refused

Render = Callable[[Sheet], bytes]


class BadCase(Exception):
    """A file that cannot be used, with one sentence for each thing that is wrong."""


def sheet_command(arguments: list[str]) -> int:
    """``hub sheet`` as people type it."""
    return main(arguments, render=on_paper)


def on_paper(sheet: Sheet) -> bytes:
    """The sheet as PDF. The renderer is loaded only when one is asked for: it takes a second."""
    from hub.protocols.printing import drawn_without_a_hub
    from hub.web.pdf import OFF, PdfsAreOff

    try:
        return drawn_without_a_hub(sheet)
    except PdfsAreOff as off:
        raise Refused(OFF) from off


def main(arguments: list[str], *, render: Render | None = None) -> int:
    """Run the command; ``render`` draws a sheet as PDF for ``--out``."""
    asked = _parser(can_draw=render is not None).parse_args(arguments)
    if asked.schema:
        print(json.dumps(case_json_schema(), indent=2, ensure_ascii=False))
        return 0
    try:
        sheet = issue(read_file(asked.case), standard_rulebook(), on=asked.on)
        if render is not None and asked.out is not None:
            write(asked.out, render(sheet))
    except (BadCase, Refused) as wrong:
        print(wrong, file=sys.stderr)
        return 2
    if asked.json:
        print(json.dumps(sheet.as_json(), indent=2, ensure_ascii=False))
    elif render is None or asked.out is None:
        print("\n".join(as_text(sheet)))
    return 0


def _parser(*, can_draw: bool) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="hub sheet", description=__doc__)
    what = parser.add_mutually_exclusive_group(required=True)
    what.add_argument("--case", type=Path, help="the case, as JSON")
    what.add_argument("--schema", action="store_true", help="print the JSON Schema of a case")
    parser.add_argument("--json", action="store_true", help="print the sheet as JSON")
    today = datetime.now(UTC).date()
    parser.add_argument("--on", type=date.fromisoformat, default=today, help="day of the sheet, YYYY-MM-DD")
    if can_draw:
        parser.add_argument("--out", type=Path, help="write the sheet to this PDF file")
    else:
        parser.set_defaults(out=None)
    return parser


def read_file(path: Path) -> Case:
    """The case in a file. Raises ``BadCase`` saying where it is wrong."""
    try:
        data = json.loads(path.read_text("utf-8"))
    except OSError as wrong:
        raise BadCase(f"{path}: cannot be read ({wrong.strerror}).") from wrong
    except (ValueError, RecursionError) as wrong:
        raise BadCase(f"{path}: is not JSON ({wrong}).") from wrong
    try:
        return read_case(data)
    except ValidationError as wrong:
        raise BadCase("\n".join(faults("case", wrong.messages))) from wrong


def write(path: Path, body: bytes) -> None:
    """Put the PDF where it was asked for. Raises ``BadCase`` where nothing can be written."""
    try:
        path.write_bytes(body)
    except OSError as wrong:
        raise BadCase(f"{path}: cannot be written ({wrong.strerror}).") from wrong


def as_text(sheet: Sheet) -> Iterator[str]:
    """The sheet as plain text, a sentence a line."""
    yield f"{sheet.case['taxon']['name']}, {sheet.on:%Y-%m-%d}: {sheet.status.value.replace('_', ' ')}"
    yield from (f"  {line.text}" for line in sheet.reasons)
    yield "essentials"
    yield from (f"  {line.text}" for _, line in sheet.headline.lines())
    yield from (
        f"  {row.ripe_fruits} ripe fruits: take at most {row.take_fruits}"
        for row in sheet.headline.fruit_table
    )
    for section, lines in sheet.sections.items():
        yield section.value
        yield from (f"  {line.text} ({', '.join(line.rules)})" for line in lines)
    if sheet.asks:
        yield "to ask"
        yield from (f"  {ask.question}" for ask in sheet.asks)
