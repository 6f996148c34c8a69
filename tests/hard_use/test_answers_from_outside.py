"""What other programs answer, and where ours lies. Found on 28 November 2026: odd answers of a geocoder, a share of Windows."""

import json
import sqlite3
from pathlib import Path, PurePosixPath, PureWindowsPath

import pytest

from shipcalc.errors import ShipcalcError
from shipcalc.places.gazetteer.address import LONGEST_TOLD, look_up_address
from shipcalc.places.gazetteer.pages import FILE, sqlite_uri
from tests.places.test_street_addresses import ADDRESS, ANSWER, Stub, stub

__all__ = ["stub"]


@pytest.mark.parametrize(
    "body",
    [
        b"null", b"{}", b"[null]", b"[1]", b'["a"]', b"[[]]", b'{"error": "busy"}', b"<html>", b"\xff\xfe", b"[" * 100_000,
        *(json.dumps([{**ANSWER, **odd}]).encode() for odd in (
            {"lat": "nan"}, {"lat": "inf"}, {"lat": "91"}, {"lon": "-181"}, {"lat": None}, {"lat": []}, {"lat": {}}, {"lat": "here"},
            {"address": None}, {"address": []}, {"address": {"country_code": 1}}, {"address": {"country_code": "<b>"}},
            {"address": {"country_code": ["us"]}}, {"display_name": None, "lat": "1e999"},
        )),
        *(json.dumps([{key: value for key, value in ANSWER.items() if key != left}]).encode() for left in ("lat", "lon", "address")),
    ],
    ids=lambda body: body[:60].decode(errors="replace"),
)  # fmt: skip
@pytest.mark.fault("an odd answer of a geocoder", tried="no JSON, no list, no numbers, points that are not on the earth, countries that are none", outcome="a sentence; nothing of it is kept")  # fmt: skip
def test_an_odd_answer_of_a_geocoder_is_a_sentence(stub: Stub, tmp_path: Path, body: bytes) -> None:
    stub.body = body
    with pytest.raises(ShipcalcError):
        look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_what_a_geocoder_calls_a_place_is_one_line_of_a_length_that_fits(stub: Stub, tmp_path: Path) -> None:
    stub.body = json.dumps([{**ANSWER, "display_name": "\x1b[2JNowhere\nAvenue" + "x" * 5_000}]).encode()
    place = look_up_address(ADDRESS, endpoint=stub.endpoint, cache_folder=tmp_path).place
    assert place is not None
    assert place.name.isprintable()
    assert (place.name[:19], len(place.name)) == ("[2JNowhere Avenuexx", LONGEST_TOLD)


@pytest.mark.parametrize(
    ("file", "uri"),
    [
        (PurePosixPath("/opt/ship calc/g.sqlite"), "file:///opt/ship%20calc/g.sqlite"),
        (PureWindowsPath("C:\\Program Files\\g#1.sqlite"), "file:///C:/Program%20Files/g%231.sqlite"),
        (PureWindowsPath("\\\\server\\share\\g.sqlite"), "file:////server/share/g.sqlite"),
        (PurePosixPath("/a?b%20c/g.sqlite"), "file:///a%3Fb%2520c/g.sqlite"),
    ],
)
@pytest.mark.fault("the program on a network share", tried="the address by which its list of places is opened, for a server, a drive, odd letters", outcome="SQLite's own form of it (sqlite.org/uri.html)")  # fmt: skip
def test_the_list_of_places_is_opened_wherever_the_program_lies(
    file: PurePosixPath | PureWindowsPath, uri: str
) -> None:
    assert sqlite_uri(file) == uri


def test_sqlite_opens_such_an_address_and_refuses_a_server_as_authority(tmp_path: Path) -> None:
    """The reference is SQLite itself: with the server as authority it opens nothing, as a part of the path it looks for it."""
    odd = tmp_path / "a ?#%20b"
    odd.mkdir()
    (odd / "g.sqlite").write_bytes(FILE.read_bytes())
    with sqlite3.connect(f"{sqlite_uri(odd / 'g.sqlite')}?mode=ro&immutable=1", uri=True) as opened:
        assert opened.execute("select count(*) from cities").fetchone()[0] > 100
    opened.close()
    with pytest.raises(sqlite3.OperationalError, match="invalid uri authority"):
        sqlite3.connect("file://server/share/g.sqlite?mode=ro", uri=True)
    with pytest.raises(sqlite3.OperationalError, match="unable to open"):
        sqlite3.connect("file:////server/share/g.sqlite?mode=ro", uri=True)
