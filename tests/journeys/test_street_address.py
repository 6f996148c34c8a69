"""A street address is looked up when the user says so, at a stub geocoder on loopback, and never otherwise."""

import json
import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

ADDRESS = "7 Nowhere Lane, Bozeman"
ANSWER = [
    {
        "lat": "45.6600",
        "lon": "-111.0500",
        "display_name": "7, Nowhere Lane, Bozeman, Montana, 59715, United States",
        "address": {"country_code": "us", "ISO3166-2-lvl4": "US-MT", "postcode": "59715"},
    }
]


@pytest.fixture
def geocoder(here: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[list[str]]:
    """Set a geocoder in `shipcalc.toml`; what it was asked is in the list."""
    asked: list[str] = []

    class Answering(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            asked.append(self.path)
            self.send_response(200)
            self.send_header("Content-Type", "application/json")
            self.end_headers()
            self.wfile.write(json.dumps(ANSWER).encode())

        def log_message(self, *args: object) -> None:
            return

    monkeypatch.setenv("XDG_CACHE_HOME", str(here / "cache"))
    with ThreadingHTTPServer(("127.0.0.1", 0), Answering) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01}, daemon=True)
        thread.start()
        (here / "shipcalc.toml").write_text(
            f'geocoder = "http://127.0.0.1:{server.server_address[1]}"\n[yards]\nBellingham = "Bellingham, WA"\n'
        )
        yield asked
        server.shutdown()
        thread.join()


def test_a_quote_to_a_street_address(say, geocoder: list[str]) -> None:
    told = say(
        "quote",
        "--vehicle",
        "HV-1042",
        "--to",
        ADDRESS,
        "--online",
        "--from",
        "98225",
        "--as-of",
        "2026-12-01",
        "--json",
    )
    assert told.status == 0, told.err
    quote = json.loads(told.out)
    assert (quote["to"]["kind"], quote["to"]["postal_code"]) == ("address", "59715")
    assert any("© OpenStreetMap contributors" in sentence for sentence in quote["assumptions"])
    assert len(geocoder) == 1


def test_a_place_by_its_street_address(say, geocoder: list[str]) -> None:
    assert json.loads(say("place", ADDRESS, "--online", "--json").out)["found"]["subdivision"] == "MT"


def test_nothing_is_asked_for_unless_the_user_says_so(say, geocoder: list[str]) -> None:
    say("place", ADDRESS)
    say("quote", "--vehicle", "HV-1042", "--to", ADDRESS, "--as-of", "2026-12-01")
    assert geocoder == []


def test_without_a_connection_it_is_a_sentence(say, here: Path) -> None:
    (here / "shipcalc.toml").write_text('geocoder = "http://127.0.0.1:9"\n')
    told = say("place", ADDRESS, "--online")
    assert told.status == 1
    assert "could not be looked up" in told.err
    assert "give the ZIP" in told.err
