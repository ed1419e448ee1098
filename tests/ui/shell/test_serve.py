"""Where the bench listens and what it promises, without starting it."""

import socket
from collections.abc import Iterator

import pytest
from starlette.applications import Starlette
from starlette.routing import Route
from streamlit import config

from optics.errors import OutOfRange
from tests.ui.asgi import ask, open_socket
from ui.kept.drafts import BROWSER, is_browser_name
from ui.shell import serve
from ui.shell.front_page import CONTENT_POLICY, OwnServerOnly, front_page, show_front_page


@pytest.fixture
def taken_port() -> Iterator[int]:
    """A port on which something already listens."""
    with socket.socket() as other:
        other.bind((serve.LOOPBACK, 0))
        other.listen()
        yield other.getsockname()[1]


def test_every_setting_is_known_to_the_server() -> None:
    """No setting is misspelt or has been dropped by the server's makers."""
    assert set(serve.settings(8720)) <= set(config._config_options_template)


def test_taken_usual_port_gives_way_to_the_next(
    taken_port: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A second bench, or another program, on the usual port does not stop this one."""
    monkeypatch.setattr(serve, "USUAL_PORT", taken_port)
    assert serve.free_port() != taken_port


def test_taken_port_is_refused_with_advice(taken_port: int) -> None:
    """A port asked for by number is not silently exchanged for another."""
    with pytest.raises(OutOfRange, match=rf"^Port {taken_port} is in use .* leave it out"):
        serve.checked_port(taken_port)


@pytest.mark.parametrize("port", [0, 80, 1023, 65536, -1])
def test_impossible_port_is_refused(port: int) -> None:
    """A number that is no port for a user's program is refused, with the limits."""
    with pytest.raises(OutOfRange, match="from 1024 to 65535") as refusal:
        serve.checked_port(port)
    assert refusal.value.limit == (1024, 65535)


def test_front_page_has_nothing_the_policy_forbids() -> None:
    """The front page has no inline script and names no other server."""
    page = front_page()
    assert "<script>" not in page
    assert "http://" not in page
    assert "https://" not in page
    assert "'unsafe-eval'" not in CONTENT_POLICY


FRONT = OwnServerOnly(Starlette(routes=[Route("/", show_front_page)]))


def test_only_the_network_switch_opens_the_bench_to_others() -> None:
    """Without a passphrase the bench listens on loopback and answers to its own names alone."""
    usual, open_to_others = serve.settings(8720), serve.settings(8720, to_network=True)
    assert usual["server.address"] == serve.LOOPBACK
    assert usual["server.allowedHosts"] == [serve.LOOPBACK, "localhost"]
    changed = {name for name in usual if usual[name] != open_to_others[name]}
    assert changed == {"server.address", "server.allowedHosts"}


def test_a_browser_is_named_once() -> None:
    """A browser that comes without a name is given one, and keeps the one it has."""
    cookie = ask(FRONT, "/", host="127.0.0.1:8720").headers["set-cookie"]
    name = cookie.split(";")[0].removeprefix(f"{BROWSER}=")
    assert is_browser_name(name)
    assert "httponly" in cookie.lower()
    assert "samesite=strict" in cookie.lower()
    assert "set-cookie" not in ask(FRONT, "/", cookie=f"{BROWSER}={name}").headers
    assert "set-cookie" in ask(FRONT, "/", cookie=f"{BROWSER}=../../etc").headers


def test_a_page_of_another_server_gets_no_socket() -> None:
    """A websocket asked for by a foreign page is closed before the page server hears of it."""
    said = open_socket(FRONT, "/_stcore/stream", host="127.0.0.1:1", origin="http://else.example")
    assert [message["type"] for message in said] == ["websocket.close"]


@pytest.mark.parametrize("host", ["192.168.1.20:8720", "bench.example"])
def test_a_page_may_open_a_socket_to_where_it_came_from(host: str) -> None:
    """The policy names the server that was asked, and no odd text can get into it."""
    policy = ask(FRONT, "/", host=host).headers["content-security-policy"]
    assert f"connect-src 'self' ws://{host} " in policy
    odd = ask(FRONT, "/", host=f"{host} https://else.example").headers["content-security-policy"]
    assert odd == CONTENT_POLICY
