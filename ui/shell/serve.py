"""Start the bench: one small web server on this machine, by default for this machine only."""

import socket
import webbrowser
from collections.abc import AsyncIterator
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from pathlib import Path
from threading import Thread
from typing import Any

import streamlit
from starlette.middleware import Middleware
from starlette.routing import Route
from uvicorn.config import LOGGING_CONFIG

from optics.errors import OutOfRange
from ui.shell.front_page import MENU_SCRIPT, OwnServerOnly, show_front_page, show_menu_script
from ui.shell.network import WARNING, PassphraseFirst, checked_passphrase, machine_address
from ui.shell.warm_up import warm_up
from ui.theme import theme_settings

LOOPBACK = "127.0.0.1"
ANYWHERE = "0.0.0.0"
USUAL_PORT = 8720
APP = Path(__file__).parents[1] / "server" / "app.py"

# A page is left open for days; what was typed must outlive a closed laptop lid.
WEEK = 7 * 24 * 3600


def open_bench(
    port: int | None = None, browser: bool = True, *, script: Path = APP, passphrase: str = ""
) -> None:
    """Serve the bench on this machine until it is stopped, and show it in the browser.

    ``port`` is where to listen; without it the usual port, or the next free one.
    With ``browser`` false the address is only printed. ``script`` is the page script.
    With a ``passphrase`` other machines of the network are let in too, if they give it.
    Raises ``OutOfRange`` for a port that cannot be had, or a passphrase that is too short.
    """
    chosen = free_port() if port is None else checked_port(port)
    door = [Middleware(PassphraseFirst, checked_passphrase(passphrase))] if passphrase else []
    _quieten_server()
    address = f"http://{LOOPBACK}:{chosen}"
    if passphrase:
        print(f"{WARNING}\nOthers open http://{machine_address()}:{chosen}", flush=True)
    streamlit.App(
        script,
        lifespan=lambda _app: _announced(address, browser),
        routes=[
            Route("/", show_front_page),
            Route(MENU_SCRIPT, show_menu_script),
            Route("/{page}", show_front_page),
        ],
        middleware=[Middleware(OwnServerOnly), *door],
    ).run(config=settings(chosen, to_network=bool(passphrase)))


def settings(port: int, to_network: bool = False) -> dict[str, Any]:
    """Return every server setting the bench relies on, so that no file can loosen one.

    On the network every name of the machine will do: the pass of who was let in is bound to the
    name that was used, and so no other name can borrow it.
    """
    return theme_settings() | {
        "server.address": ANYWHERE if to_network else LOOPBACK,
        "server.port": port,
        "server.allowedHosts": ["*"] if to_network else [LOOPBACK, "localhost"],
        "server.baseUrlPath": "",
        "server.headless": True,
        "server.showEmailPrompt": False,
        "server.fileWatcherType": "none",
        "server.runOnSave": False,
        "server.maxUploadSize": 64,
        "server.enableCORS": True,
        "server.enableXsrfProtection": True,
        "server.enableStaticServing": False,
        "server.enableAgentApi": False,
        "server.disconnectedSessionTTL": WEEK,
        "browser.gatherUsageStats": False,
        # A field that is filled in from the records has a text at first as well.
        "global.disableWidgetStateDuplicationWarning": True,
        "client.toolbarMode": "minimal",
        "client.showErrorLinks": False,
        "runner.magicEnabled": False,
        # A full collection after every run holds each answer back by some 75 ms.
        "runner.postScriptGC": False,
        "logger.hideWelcomeMessage": True,
    }


def free_port() -> int:
    """Return the usual port, one of the nineteen after it, or any the system has free."""
    usual = range(USUAL_PORT, USUAL_PORT + 20)
    return next((port for port in usual if _is_free(port)), None) or _any_free_port()


def checked_port(port: int) -> int:
    """Return ``port`` if the bench can listen there; raise ``OutOfRange`` if not."""
    advice = "leave it out and a free one is found."
    if not 1024 <= port <= 65535:
        raise OutOfRange(
            f"The port must be from 1024 to 65535, got {port}; {advice}",
            quantity="port",
            value=port,
            limit=(1024, 65535),
        )
    if not _is_free(port):
        raise OutOfRange(
            f"Port {port} is in use by another program: choose another, or {advice}",
            quantity="port",
            value=port,
        )
    return port


def _is_free(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex((LOOPBACK, port)) != 0


def _any_free_port() -> int:
    with socket.socket() as probe:
        probe.bind((LOOPBACK, 0))
        return int(probe.getsockname()[1])


def _quieten_server() -> None:
    """Leave the terminal to our own line; warnings and errors still show."""
    for name in ("uvicorn", "uvicorn.error"):
        LOGGING_CONFIG["loggers"][name]["level"] = "WARNING"


def _announced(address: str, browser: bool) -> AbstractAsyncContextManager[None]:
    @asynccontextmanager
    async def announced() -> AsyncIterator[None]:
        Thread(target=warm_up, daemon=True).start()
        print(f"Shimwright is open at {address} (Ctrl+C closes it).", flush=True)
        if browser:
            webbrowser.open(address)
        yield

    return announced()
