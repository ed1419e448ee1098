"""Requests to a server in this process, without a network."""

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any, TypeVar
from urllib.parse import quote

T = TypeVar("T")
FORM = "application/x-www-form-urlencoded"


@dataclass(frozen=True)
class Answer:
    """What a server answers."""

    status: int
    headers: dict[str, str]
    text: str


def ask(server: Any, path: str, method: str = "GET", body: str = "", **headers: str) -> Answer:
    """Send one request and collect the answer."""
    messages = talk(server, _scope("http", path, headers) | {"method": method}, body)
    start = messages[0]
    found = {name.decode(): value.decode("latin-1") for name, value in start["headers"]}
    text = b"".join(message.get("body", b"") for message in messages[1:]).decode()
    return Answer(start["status"], found, text)


def post(server: Any, path: str, **fields: str) -> Answer:
    """Send a form."""
    body = "&".join(f"{name}={quote(text)}" for name, text in fields.items())
    return ask(server, path, "POST", body, content_type=FORM)


def open_socket(server: Any, path: str, **headers: str) -> list[dict[str, Any]]:
    """Ask for a websocket; everything the server says."""
    return talk(server, _scope("websocket", path, headers), "")


def _scope(kind: str, path: str, headers: dict[str, str]) -> dict[str, Any]:
    listed = [(k.replace("_", "-").encode(), v.encode("latin-1")) for k, v in headers.items()]
    return {"type": kind, "path": path, "headers": listed, "query_string": b"", "root_path": ""}


def talk(server: Any, scope: dict[str, Any], body: str) -> list[dict[str, Any]]:
    """Run a server for one request; the messages it sends."""
    sent: list[dict[str, Any]] = []
    waiting = [
        {"type": "websocket.connect"}
        if scope["type"] == "websocket"
        else {"type": "http.request", "body": body.encode()}
    ]

    async def receive() -> dict[str, Any]:
        return waiting.pop(0) if waiting else {"type": "http.disconnect"}

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    run(server(scope, receive, send))
    return sent


def run(coroutine: Coroutine[Any, Any, T]) -> T:
    """Run a coroutine to its end, on a thread of its own.

    The browser tests leave an event loop running on the main thread, where a second is refused.
    """
    with ThreadPoolExecutor(max_workers=1) as thread:
        return thread.submit(asyncio.run, coroutine).result()
