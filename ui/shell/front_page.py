"""The page the browser loads first, and the rule that it may speak to nobody else."""

import re
from base64 import b64encode
from collections.abc import Awaitable, Callable, MutableMapping
from functools import cache
from pathlib import Path
from secrets import token_hex
from typing import Any
from urllib.parse import urlsplit

import streamlit
from starlette.requests import Request
from starlette.responses import FileResponse, HTMLResponse, RedirectResponse, Response

from ui.kept.drafts import BROWSER, is_browser_name
from ui.pages import PAGES
from ui.theme import DAY, MARK, NIGHT

# The longest that browsers keep a cookie, in s; each opening of the bench does not renew it.
_COOKIE_LIFE = 400 * 24 * 3600

# The page may talk to its own server and to nobody else, whatever a library would like.
CONTENT_POLICY = "; ".join(
    (
        "default-src 'self'",
        "script-src 'self'",
        "style-src 'self' 'unsafe-inline'",
        "img-src 'self' data: blob:",
        "font-src 'self' data:",
        "connect-src 'self' ws://127.0.0.1:* ws://localhost:* data: blob:",
        "worker-src 'self' blob:",
        "object-src 'none'",
        "base-uri 'self'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)

_HEADERS = ((b"referrer-policy", b"no-referrer"), (b"x-content-type-options", b"nosniff"))
_HOST = re.compile(r"[\w.\-]+(:\d+)?")

MENU_SCRIPT = "/menu.js"
_MENU = Path(__file__).parents[1] / "scripts" / "menu.js"

ICON = b64encode(MARK.encode()).decode()

# Our name from the first moment, our ground instead of a white flash, and none of the
# stock page's inline script (the policy forbids it) or notes to other programs.
CHANGES = (
    (r"<title>.*?</title>", "<title>Shimwright</title>"),
    (r'href="./favicon.png"', f'href="data:image/svg+xml;base64,{ICON}"'),
    (r"<script>.*?</script>", ""),
    (r"<!--.*?-->", ""),
    (r'<link rel="service-desc"[^>]*>', ""),
    (r"<noscript>.*?</noscript>", "<noscript>The bench needs JavaScript.</noscript>"),
    (
        "</head>",
        f'<script src="{MENU_SCRIPT}"></script>'
        f"<style>html{{background:{DAY.ground}}}"
        f"@media (prefers-color-scheme:dark){{html{{background:{NIGHT.ground}}}}}</style></head>",
    ),
)

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
Server = Callable[[Message, Receive, Send], Awaitable[None]]


class OwnServerOnly:
    """Send the content policy with every answer; open a socket to our own pages only."""

    def __init__(self, server: Server) -> None:
        self.server = server

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Pass the request on and put the headers at the start of its answer."""
        asked = {name: value.decode("latin-1") for name, value in scope.get("headers", ())}
        host, origin = asked.get(b"host", ""), asked.get(b"origin")
        if scope["type"] == "websocket" and origin and urlsplit(origin).netloc != host:
            # The page server would ask an address on the Internet who we are to judge this one.
            await receive()
            await send({"type": "websocket.close"})
            return

        async def send_with_policy(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", ()), *_headers(host)]
            await send(message)

        await self.server(scope, receive, send_with_policy)


def _headers(host: str) -> tuple[tuple[bytes, bytes], ...]:
    """The headers of every answer; the page may open its socket where it came from."""
    # Not every browser counts a socket to the page's own server as 'self'.
    own = f"ws://{host}" if _HOST.fullmatch(host) else ""
    policy = CONTENT_POLICY.replace("connect-src 'self'", f"connect-src 'self' {own}".rstrip())
    return ((b"content-security-policy", policy.encode()), *_HEADERS)


async def show_front_page(request: Request) -> Response:
    """Answer the request for the front page, whichever page the address names.

    The opening page has the bare address alone: under its own name, or a name that no page has,
    the page server would show it too, but forget every key typed there. A browser that comes for
    the first time is given a name of its own, so that what is typed in it is there again when it
    comes back.
    """
    asked = request.path_params.get("page")
    if asked is not None and asked not in list(PAGES.values())[1:]:
        return RedirectResponse("/")
    answer = HTMLResponse(front_page(), headers={"Cache-Control": "no-cache"})
    if not is_browser_name(request.cookies.get(BROWSER, "")):
        answer.set_cookie(
            BROWSER, token_hex(16), max_age=_COOKIE_LIFE, httponly=True, samesite="strict"
        )
    return answer


async def show_menu_script(request: Request) -> Response:
    """Answer the request for the script that puts the list of pages away on a telephone."""
    del request
    return FileResponse(_MENU, media_type="text/javascript", headers={"Cache-Control": "no-cache"})


@cache
def front_page() -> str:
    """Return the server's stock front page with our changes."""
    stock = Path(streamlit.__file__).with_name("static") / "index.html"
    page = stock.read_text(encoding="utf-8")
    for pattern, ours in CHANGES:
        page = re.sub(pattern, ours, page, flags=re.DOTALL)
    return page
