"""The door to other machines: shut for whoever does not know the passphrase."""

import asyncio
import json
import time
from typing import Any

import pytest
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse
from starlette.routing import Route, WebSocketRoute
from starlette.websockets import WebSocket

from optics.errors import OutOfRange
from tests.ui.asgi import ask, open_socket, post, run
from ui.shell import network
from ui.shell.network import DOOR, PASS, PassphraseFirst, checked_passphrase

RIGHT = "three quiet lamps"
STREAM = "/_stcore/stream"


async def inside(_request: Any) -> PlainTextResponse:
    """Answer what only those inside may read."""
    return PlainTextResponse("customer records")


async def stream(socket: WebSocket) -> None:
    """Answer on a websocket."""
    await socket.accept()
    await socket.send_text("customer records")
    await socket.close()


def bench(wait: float = 0.0) -> PassphraseFirst:
    """A server with one page and one websocket behind the door."""
    routes = [Route("/{any:path}", inside), WebSocketRoute(STREAM, stream)]
    return PassphraseFirst(Starlette(routes=routes), RIGHT, wait)


def let_in(server: PassphraseFirst) -> str:
    """Give the passphrase; the pass."""
    cookie = post(server, DOOR, passphrase=RIGHT).headers["set-cookie"]
    return cookie.split(";")[0].removeprefix(f"{PASS}=")


@pytest.mark.parametrize("path", ["/", "/record", "/_stcore/health", "/static/a.js", DOOR])
@pytest.mark.parametrize("method", ["GET", "PUT", "DELETE", "OPTIONS"])
def test_no_page_is_shown_without_the_passphrase(path: str, method: str) -> None:
    """Every address answers with the door, and nothing of what lies behind it."""
    answer = ask(bench(), path, method)
    assert answer.status == 401
    assert "customer" not in answer.text
    assert "passphrase" in answer.text


def test_no_websocket_is_opened_without_the_passphrase() -> None:
    """A websocket without the pass is closed before the server hears of it."""
    (said,) = open_socket(bench(), STREAM)
    assert said["type"] == "websocket.close"


def test_the_passphrase_opens_pages_and_websocket() -> None:
    """Who types the passphrase is led in, and stays in, by page and by websocket."""
    server = bench()
    answer = post(server, DOOR, passphrase=RIGHT)
    assert (answer.status, answer.headers["location"]) == (303, "/")
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    mine = f"other=1; {PASS}={let_in(server)}"
    assert ask(server, "/record", cookie=mine).text == "customer records"
    accepted, said, _ = open_socket(server, STREAM, cookie=mine)
    assert accepted["type"] == "websocket.accept"
    assert said["text"] == "customer records"


@pytest.mark.parametrize("typed", ["", "three quiet lamp", RIGHT.upper(), RIGHT + " ", "é" * 9000])
def test_another_passphrase_is_refused(typed: str) -> None:
    """Whatever is not the passphrase to the letter leads back to the door, with no pass."""
    answer = post(bench(), DOOR, passphrase=typed)
    assert answer.status == 403
    assert "set-cookie" not in answer.headers
    assert "That is not the passphrase." in answer.text


def test_a_passphrase_in_another_form_is_not_read() -> None:
    """Only the door's own form is read, so that no script sends a guess as something else."""
    body = json.dumps({"passphrase": RIGHT})
    assert ask(bench(), DOOR, "POST", body, content_type="application/json").status == 403


def test_a_pass_that_was_made_up_or_is_of_another_run_is_refused() -> None:
    """A pass with a changed sign, or unsigned, or from before a restart lets nobody in."""
    server = bench()
    good = let_in(server)
    name, signature = good.split(".")
    for forged in (name, f"{name}.", f"{name[:-1]}x.{signature}", f".{signature}", "", "é", ";;="):
        assert ask(server, "/", cookie=f"{PASS}={forged}").status == 401, forged
    assert ask(server, "/", cookie=f"{PASS}={good}").status == 200
    assert ask(bench(), "/", cookie=f"{PASS}={good}").status == 401


def test_guesses_wait_their_turn() -> None:
    """Three wrong guesses at once take three waits, so that asking in parallel gains nothing."""
    server, wait = bench(wait=0.05), 0.05

    async def guess_three_times() -> list[bool]:
        return list(await asyncio.gather(*(server._is_right("wrong") for _ in range(3))))

    started = time.monotonic()
    assert run(guess_three_times()) == [False] * 3
    assert time.monotonic() - started >= 3 * wait


def test_a_short_passphrase_is_refused() -> None:
    """A passphrase that is soon guessed is refused with the least length."""
    with pytest.raises(OutOfRange, match="at least 10 letters long: got 9"):
        checked_passphrase("nine char")
    assert checked_passphrase(RIGHT) == RIGHT


def test_the_warning_says_what_others_can_do() -> None:
    """Before the door opens it is said that nothing is encrypted and what others may do."""
    for said in ("Nothing on the way is encrypted", "sees every", "change and delete", "Ctrl+C"):
        assert said in network.WARNING
