"""Where the bench listens and what it promises, without starting it."""

import socket
from collections.abc import Iterator

import pytest
from streamlit import config

from optics.errors import OutOfRange
from ui import serve
from ui.front_page import CONTENT_POLICY, front_page


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
