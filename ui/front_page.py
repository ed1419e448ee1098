"""The page the browser loads first, and the rule that it may speak to nobody else."""

import re
from base64 import b64encode
from collections.abc import Awaitable, Callable, MutableMapping
from functools import cache
from pathlib import Path
from typing import Any

import streamlit
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from ui.pages import PAGES
from ui.theme import DAY, MARK, NIGHT

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

HEADERS = (
    (b"content-security-policy", CONTENT_POLICY.encode()),
    (b"referrer-policy", b"no-referrer"),
    (b"x-content-type-options", b"nosniff"),
)

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
        f"<style>html{{background:{DAY.ground}}}"
        f"@media (prefers-color-scheme:dark){{html{{background:{NIGHT.ground}}}}}</style></head>",
    ),
)

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
Server = Callable[[Message, Receive, Send], Awaitable[None]]


class OwnServerOnly:
    """Send the content policy with every answer of the server."""

    def __init__(self, server: Server) -> None:
        self.server = server

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Pass the request on and put the headers at the start of its answer."""

        async def send_with_policy(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", ()), *HEADERS]
            await send(message)

        await self.server(scope, receive, send_with_policy)


async def show_front_page(request: Request) -> Response:
    """Answer the request for the front page, whichever page the address names.

    The opening page has the bare address alone: under its own name, or a name that no page has,
    the page server would show it too, but forget every key typed there.
    """
    asked = request.path_params.get("page")
    if asked is not None and asked not in list(PAGES.values())[1:]:
        return RedirectResponse("/")
    return HTMLResponse(front_page(), headers={"Cache-Control": "no-cache"})


@cache
def front_page() -> str:
    """Return the server's stock front page with our changes."""
    stock = Path(streamlit.__file__).with_name("static") / "index.html"
    page = stock.read_text(encoding="utf-8")
    for pattern, ours in CHANGES:
        page = re.sub(pattern, ours, page, flags=re.DOTALL)
    return page
