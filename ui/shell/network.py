"""Other benches on the shop's network: only by an explicit switch, only with the passphrase."""

import asyncio
import hmac
import re
import socket
from html import escape
from http.cookies import CookieError, SimpleCookie
from secrets import token_hex
from typing import Any
from urllib.parse import parse_qs

from starlette.responses import HTMLResponse, RedirectResponse, Response

from optics.errors import OutOfRange
from ui.shell.front_page import Receive, Send, Server
from ui.theme import DAY, NIGHT

VARIABLE = "SHIMWRIGHT_PASSPHRASE"
SHORTEST = 10
PASS = "shimwright_pass"
DOOR = "/passphrase"
# A wrong passphrase is answered after so many seconds, one at a time for all who ask.
WAIT = 2.0
_LARGEST_FORM = 4096
_FORM = b"application/x-www-form-urlencoded"
_REFUSED_SOCKET = 1008  # RFC 6455: the policy is not met.

WARNING = """\
Other machines on this network can now open the bench, if they know the passphrase.
 - Nothing on the way is encrypted: whoever can listen on the network can read the records and
   the passphrase. Use it on a network of your own only, never on one that guests use.
 - Whoever is let in sees every customer's record, and can change and delete what is there.
 - Close it with Ctrl+C when the day is over; a restart asks everybody for the passphrase again."""


def checked_passphrase(text: str) -> str:
    """The passphrase, if it is long enough; OutOfRange where it is not."""
    if len(text) < SHORTEST:
        raise OutOfRange(
            f"The passphrase must be at least {SHORTEST} letters long: got {len(text)}; take "
            "three or four words that nobody would guess.",
            quantity="passphrase",
            value=len(text),
            limit=SHORTEST,
        )
    return text


def machine_address() -> str:
    """This machine's address on its network, as others would type it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            # Nothing is sent: only the way out to an address of documentation is looked up.
            probe.connect(("192.0.2.1", 9))
            return str(probe.getsockname()[0])
        except OSError:
            return socket.gethostname()


class PassphraseFirst:
    """Let nobody through to the server, by page or by websocket, before the passphrase.

    The pass is signed with a secret of this run of the server, so that none outlives it.
    """

    def __init__(self, server: Server, passphrase: str, wait: float = WAIT) -> None:
        self._server = server
        self._passphrase = passphrase.encode()
        self._secret = token_hex(32).encode()
        self._wait = wait
        self._guess = asyncio.Lock()

    async def __call__(self, scope: Any, receive: Receive, send: Send) -> None:
        """Pass on who has been let in; show everybody else the door."""
        if scope["type"] not in ("http", "websocket") or self._is_let_in(scope):
            await self._server(scope, receive, send)
        elif scope["type"] == "websocket":
            await receive()
            await send({"type": "websocket.close", "code": _REFUSED_SOCKET})
        else:
            answer = await self._at_the_door(scope, receive)
            await answer(scope, receive, send)

    async def _at_the_door(self, scope: Any, receive: Receive) -> Response:
        if scope["path"] != DOOR or scope["method"] != "POST":
            return _door()
        typed = await _typed(scope, receive)
        if await self._is_right(typed):
            answer = RedirectResponse("/", 303)
            name = token_hex(16)
            answer.set_cookie(
                PASS, f"{name}.{self._signed(name)}", httponly=True, samesite="strict"
            )
            return answer
        return _door("That is not the passphrase.")

    async def _is_right(self, typed: str) -> bool:
        """Whether it is the passphrase; wrong ones take their time, one after the other."""
        async with self._guess:
            if hmac.compare_digest(typed.encode(), self._passphrase):
                return True
            await asyncio.sleep(self._wait)
            return False

    def _is_let_in(self, scope: Any) -> bool:
        name, _, signature = _cookie(scope, PASS).partition(".")
        return hmac.compare_digest(signature.encode(), self._signed(name).encode())

    def _signed(self, name: str) -> str:
        return hmac.new(self._secret, name.encode(), "sha256").hexdigest()


def _cookie(scope: Any, name: str) -> str:
    jar = SimpleCookie()
    for header, value in scope["headers"]:
        if header == b"cookie":
            try:
                jar.load(value.decode("latin-1"))
            except CookieError:
                return ""
    return jar[name].value if name in jar else ""


async def _typed(scope: Any, receive: Receive) -> str:
    """What was typed at the door; empty for a form that is none, or far too long."""
    headers = dict(scope["headers"])
    if headers.get(b"content-type") != _FORM:
        return ""
    body = b""
    while len(body) <= _LARGEST_FORM:
        message = await receive()
        body += message.get("body", b"")
        if not message.get("more_body", False):
            break
    fields = parse_qs(body[:_LARGEST_FORM].decode("utf-8", "replace"))
    return fields.get("passphrase", [""])[0]


def _door(said: str = "") -> HTMLResponse:
    """The page that asks; it shows nothing of the bench but its name."""
    return HTMLResponse(
        _DOOR.replace("SAID", escape(said)), 403 if said else 401, {"Cache-Control": "no-store"}
    )


_DOOR = re.sub(
    r"\n *",
    "",
    f"""
    <!doctype html><html lang="en"><head><meta charset="utf-8"><title>Shimwright</title>
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <style>
    body{{background:{DAY.ground};color:{DAY.text};font:16px sans-serif;
    max-width:24rem;margin:12vh auto;padding:0 1rem}}
    input,button{{font:inherit;padding:.6rem;min-height:44px;box-sizing:border-box;width:100%;
    margin:.3rem 0}}
    button{{background:{DAY.accent};color:{DAY.on_accent};border:0}}
    @media (prefers-color-scheme:dark){{body{{background:{NIGHT.ground};color:{NIGHT.text}}}
    button{{background:{NIGHT.accent};color:{NIGHT.on_accent}}}}}
    </style></head><body><main><h1>Shimwright</h1>
    <form method="post" action="{DOOR}">
    <label for="passphrase">The passphrase of this bench</label>
    <input id="passphrase" name="passphrase" type="password" autocomplete="current-password"
     autofocus required>
    <button>Open the bench</button></form>
    <p role="status">SAID</p></main></body></html>
    """,
)
