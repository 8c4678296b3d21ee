"""A program with a key: asks, reads answers, and holds every one of them to the document."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from typing import Any
from urllib.parse import urlsplit
from uuid import uuid4

from flask import Flask
from jsonschema import Draft202012Validator
from werkzeug.test import TestResponse

from hub.accounts.tokens import make_token
from hub.api.document import document
from tests.cast import Cast

Reply = Any
HEX = frozenset("0123456789abcdef")


@dataclass
class Program:
    """One program. Without a name it has no key."""

    app: Flask
    cast: Cast
    name: str | None = None

    def __post_init__(self) -> None:
        self.client = self.app.test_client(use_cookies=False)
        self.headers: dict[str, str] = {}
        if self.name:
            with self.cast.work(self.name) as work:
                key = make_token(work, seat_id=self.cast.seats[self.name].id, name="tests", days=30)
            self.headers["Authorization"] = f"Bearer {key}"

    def get(self, path: str, status: int = 200, headers: dict[str, str] | None = None, **query: Any) -> Reply:
        """Read something; the body as JSON, or None."""
        return body_of(self.send("GET", path, status, headers=headers, query_string=query or None))

    def post(self, path: str, sent: Any = None, status: int = 200, key: str = "") -> Reply:
        """Make or move something under a key of its own, or the one given."""
        headers = {"Idempotency-Key": key or uuid4().hex}
        return body_of(self.send("POST", path, status, headers=headers, json=sent))

    def change(self, method: str, path: str, sent: Any = None, status: int = 200, of: str = "") -> Reply:
        """Change something that was read just before at its own path, or at ``of``."""
        tag = self.send("GET", of or path, 200).headers["ETag"]
        return body_of(self.send(method, path, status, headers={"If-Match": tag}, json=sent))

    def send(
        self, method: str, path: str, status: int | None = None, headers: Any = None, **more: Any
    ) -> TestResponse:
        """One request, its answer held to the document."""
        if more.get("json", 0) is None:
            del more["json"]
        whole = path if path.startswith("/api") or "://" in path else f"/api/v1{path}"
        answer = self.client.open(whole, method=method, headers=self.headers | (headers or {}), **more)
        text = answer.get_data(as_text=True) if "json" in (answer.mimetype or "") else answer.mimetype
        assert status in (None, answer.status_code), f"{method} {path}: {answer.status}\n{text}"
        held_to_document(method, urlsplit(whole).path, answer)
        return answer


def body_of(answer: TestResponse) -> Reply:
    """JSON, bytes of a file, or nothing."""
    if answer.status_code in (204, 304) or not answer.data:
        return None
    return json.loads(answer.data) if "json" in answer.mimetype else answer.data


def held_to_document(method: str, path: str, answer: TestResponse) -> None:
    """The status, the type, the headers and the body are those that the document promises."""
    operation = operation_at(method, path)
    if operation is None:
        assert answer.status_code in (404, 405), f"{method} {path} is not in the document"
        return
    described = operation["responses"].get(str(answer.status_code))
    assert described, f"{method} {path}: {answer.status} is not in the document"
    described = resolved(described)
    for name, header in described.get("headers", {}).items():
        assert name in answer.headers, f"{method} {path}: no {name}"
        Draft202012Validator(resolved(header)["schema"]).validate(typed(answer.headers[name], header))
    content = described.get("content", {})
    if content and method != "HEAD":
        assert answer.mimetype in content, f"{method} {path}: {answer.mimetype}"
        if "json" in answer.mimetype:
            validator(json.dumps(content[answer.mimetype]["schema"])).validate(json.loads(answer.data))
    elif not content:
        assert not answer.data


def typed(text: str, header: Any) -> Any:
    return int(text) if header["schema"]["type"] == "integer" else text


@cache
def validator(schema: str) -> Draft202012Validator:
    """A schema of the document with all that it refers to."""
    whole = {**json.loads(schema), "components": document()["components"]}
    return Draft202012Validator(whole)


def resolved(part: dict[str, Any]) -> dict[str, Any]:
    """What a reference stands for."""
    if "$ref" not in part:
        return part
    found: Any = document()
    for step in part["$ref"].removeprefix("#/").split("/"):
        found = found[step]
    return dict(found)


def operation_at(method: str, path: str) -> dict[str, Any] | None:
    """The operation that serves a path, if the document has one."""
    paths = document()["paths"]
    fitting = [pattern for pattern in paths if fits(pattern, path)]
    if not fitting:
        return None
    best = min(fitting, key=lambda pattern: pattern.count("{"))  # what is written out goes before an argument
    found = paths[best].get("get" if method == "HEAD" else method.lower())
    return dict(found) if found else None


def fits(pattern: str, path: str) -> bool:
    parts, steps = pattern.split("/"), path.split("/")
    return len(parts) == len(steps) and all(
        part == step or part.startswith("{") for part, step in zip(parts, steps, strict=True)
    )
