"""Street addresses against a stub geocoder on loopback: what is asked, what is kept, and what is said when it fails."""

import json
import socket
import threading
import time
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.places.gazetteer.address import ATTRIBUTION, USER_AGENT, look_up_address
from shipcalc.sheets.keeping import find_kept_file, keep_file

ADDRESS = "1200 Nowhere Avenue, Bellingham"
ANSWER = {
    "lat": "48.7510",
    "lon": "-122.4800",
    "display_name": "1200, Nowhere Avenue, Bellingham, Washington, 98225, United States",
    "address": {"country_code": "us", "ISO3166-2-lvl4": "US-WA", "postcode": "98225"},
}


class Stub(ThreadingHTTPServer):
    """A geocoder that answers with what it is told, and keeps what it was asked."""

    daemon_threads = True

    def __init__(self) -> None:
        super().__init__(("127.0.0.1", 0), Answering)
        self.body: bytes = json.dumps([ANSWER]).encode()
        self.status = 200
        self.wait_s = 0.0
        self.asked: list[tuple[str, str]] = []

    @property
    def endpoint(self) -> str:
        return f"http://127.0.0.1:{self.server_address[1]}"

    def handle_error(self, *args: object) -> None:
        """A client that has gone away without waiting is what one test is about."""


class Answering(BaseHTTPRequestHandler):
    """One question."""

    server: Stub

    def do_GET(self) -> None:
        self.server.asked.append((self.path, self.headers["User-Agent"]))
        time.sleep(self.server.wait_s)
        self.send_response(self.server.status)
        self.send_header("Content-Type", "application/json")
        self.end_headers()
        self.wfile.write(self.server.body)

    def log_message(self, *args: object) -> None:
        return


@pytest.fixture
def stub() -> Iterator[Stub]:
    with Stub() as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01}, daemon=True)
        thread.start()
        yield server
        server.shutdown()
        thread.join()


def test_an_address_becomes_a_place_with_country_state_and_zip(stub: Stub, tmp_path: Path) -> None:
    finding = look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path)
    place = finding.place
    assert place is not None
    assert (place.kind, place.country, place.subdivision, place.postal_code) == ("address", "US", "WA", "98225")
    assert (place.latitude, place.longitude) == (48.751, -122.48)
    assert ATTRIBUTION in finding.note
    path, agent = stub.asked[0]
    assert parse_qs(urlsplit(path).query)["q"] == [ADDRESS]
    assert agent == USER_AGENT
    assert agent.startswith("shipcalc/")


def test_an_address_is_asked_for_once_and_then_read_from_the_cache(stub: Stub, tmp_path: Path) -> None:
    first = look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path)
    assert look_up_address(ADDRESS.upper(), endpoint=stub.endpoint, cache_folder=tmp_path).place == first.place
    assert len(stub.asked) == 1


@pytest.mark.parametrize("spoiled", ["", "[1]", "{", '{"x": 1}'])
def test_a_spoiled_cache_is_an_empty_one(stub: Stub, tmp_path: Path, spoiled: str) -> None:
    (tmp_path / "addresses.json").write_text(spoiled)
    assert look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path).place is not None


def test_a_spoiled_entry_of_the_cache_is_asked_for_again(stub: Stub, tmp_path: Path) -> None:
    look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path)
    cache = tmp_path / "addresses.json"
    keep_file(cache, (find_kept_file(cache) or b"").replace(b'"latitude"', b'"altitude"'), most=1)
    assert look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path).place is not None
    assert len(stub.asked) == 2


def test_an_address_in_puerto_rico_is_in_pr(stub: Stub, tmp_path: Path) -> None:
    stub.body = json.dumps([{**ANSWER, "address": {"country_code": "us", "ISO3166-2-lvl4": "US-PR"}}]).encode()
    place = look_up_address("Calle Ninguna 1, San Juan", endpoint=stub.endpoint, cache_folder=tmp_path).place
    assert place is not None
    assert (place.country, place.subdivision) == ("PR", "")


def test_an_address_that_nobody_knows_is_wrong_input(stub: Stub, tmp_path: Path) -> None:
    stub.body = b"[]"
    with pytest.raises(WrongInput, match="no such address is known — give the ZIP"):
        look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path)


@pytest.mark.parametrize(
    ("status", "body", "sentence"),
    [
        (503, b"", "did not answer in time"),
        (500, b"", "reports an error"),
        (403, b"", "refuses this program"),
        (429, b"", "wants a pause"),
        (200, b"<html>not what was asked for</html>", "could not be read"),
        (200, b'[{"display_name": "nowhere", "address": {"country_code": "us"}}]', "could not be read"),
        (200, b'[{"lat": "1", "lon": "1", "display_name": "at sea"}]', "in which country"),
    ],
)
def test_a_geocoder_that_fails_gets_a_sentence_and_nothing_is_kept(
    stub: Stub, tmp_path: Path, status: int, body: bytes, sentence: str
) -> None:
    stub.status, stub.body = status, body
    with pytest.raises(NoAnswer, match=sentence):
        look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_geocoder_that_is_too_slow_is_not_waited_for(stub: Stub, tmp_path: Path) -> None:
    stub.wait_s = 0.5
    with pytest.raises(NoAnswer, match="did not answer in time"):
        look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path, timeout_s=0.1)


def test_without_a_connection_the_remedy_is_a_zip(tmp_path: Path) -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        endpoint = f"http://127.0.0.1:{free.getsockname()[1]}"
        with pytest.raises(NoAnswer, match=r"no connection to the geocoder.* — give the ZIP"):
            look_up_address(ADDRESS, endpoint=endpoint, cache_folder=tmp_path)


def test_an_endpoint_that_is_none_is_wrong_input(tmp_path: Path) -> None:
    with pytest.raises(WrongInput, match="is not an address of a geocoder"):
        look_up_address(ADDRESS, endpoint="ftp:nowhere", cache_folder=tmp_path)


def test_a_cache_folder_that_cannot_be_written_does_not_cost_the_answer(stub: Stub, tmp_path: Path) -> None:
    (tmp_path / "a file").write_text("")
    place = look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path / "a file" / "cache").place
    assert place is not None
