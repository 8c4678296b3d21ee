"""``hub compute``: a calculator without hub, database or page."""

from __future__ import annotations

import argparse
import json
import sys
from typing import Any

from marshmallow import ValidationError

from hub.calculators.answers import as_json
from hub.calculators.catalogue import CALCULATORS
from hub.web.faults import faults
from hub.web.json_schema import json_schema_of
from hub.words import Refused


def compute_command(arguments: list[str]) -> int:
    """Print one answer as JSON. Answers 1 for inputs, and 2 for a command, that cannot be used."""
    asked = parser().parse_args(arguments)
    if asked.list:
        print("\n".join(listing()))
        return 0
    found = CALCULATORS.get(asked.name or "")
    if found is None:
        return refused(f"there is no calculator “{asked.name or ''}”. “hub compute --list” names them.", 2)
    if asked.schema:
        return printed(json_schema_of(found.schema(), found.name))
    try:
        return printed(as_json(found.answer(found.read(json.loads(asked.json)))))
    except ValidationError as wrong:
        return refused("; ".join(faults("inputs", wrong.normalized_messages())), 1)
    except Refused as refusal:
        return refused(str(refusal.words), 1)
    except (ValueError, RecursionError) as wrong:
        return refused(f"the inputs are not JSON ({wrong}).", 1)


def parser() -> argparse.ArgumentParser:
    options = argparse.ArgumentParser(prog="hub compute", description=__doc__)
    options.add_argument("name", nargs="?", help="of a calculator, such as mothers-needed")
    options.add_argument("--json", default="{}", metavar="INPUTS", help="the inputs as one JSON object")
    options.add_argument("--schema", action="store_true", help="print the JSON Schema of the inputs")
    options.add_argument("--list", action="store_true", help="print each calculator’s name and question")
    return options


def listing() -> list[str]:
    width = max(map(len, CALCULATORS))
    return [f"{name:<{width}}  {each.asks}" for name, each in CALCULATORS.items()]


def printed(answer: dict[str, Any]) -> int:
    print(json.dumps(answer, indent=2, ensure_ascii=False))
    return 0


def refused(sentence: str, code: int) -> int:
    print(f"hub compute: {sentence}", file=sys.stderr)
    return code
