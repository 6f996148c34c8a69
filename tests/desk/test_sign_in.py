"""A desk that others reach: who has not signed in gets nothing, roles hold, and no other site can act for who has."""

import json
import stat
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from argon2 import extract_parameters
from argon2.profiles import RFC_9106_LOW_MEMORY
from fastapi.testclient import TestClient

from shipcalc.actions.sources import find_sources
from shipcalc.desk.app import make_desk
from shipcalc.desk.people import add_person, people_file, read_people, remove_person
from shipcalc.desk.safety import COOKIE, Door
from shipcalc.desk.sessions import IDLE_SECONDS, Allowance
from shipcalc.desk.sign_in import IN_SECONDS, TRIES
from shipcalc.errors import WrongInput
from shipcalc.register.opening import url_of_file
from shipcalc.settings import Settings
from tests.desk.conftest import Clock

DAY = date(2026, 12, 1)
ROOT = Path(__file__).parents[2]
NAME = "desk.heron.example"
URL = f"https://{NAME}"
WORD = "mossy otter umbrella"
ASKED = {"vehicles": ["HV-1042"], "to": "59715"}
PAGES = {"accept": "text/html"}


@pytest.fixture(scope="module")
def three(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The list of three people: a hash takes its time, as it should."""
    file = tmp_path_factory.mktemp("people") / "people.json"
    for name, role in (("Ida Quarles", "sales"), ("Oona Brandt", "office"), ("Max Thule", "manager")):
        add_person(file, name, role, WORD)
    return file.read_bytes()


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, three: bytes) -> Path:
    """Three people, and a register of their own."""
    (tmp_path / "shipcalc.toml").write_text('[dealer]\nname = "Heron & Vale Motors"\n')
    monkeypatch.setenv("SHIPCALC_REGISTER", url_of_file(tmp_path / "register.sqlite"))
    (tmp_path / "people.json").write_bytes(three)
    return tmp_path


@pytest.fixture
def desk(folder: Path, clock: Clock) -> Iterator[TestClient]:
    made = make_desk(
        lambda day: find_sources(folder=folder, stock=ROOT / "demo" / "stock.xlsx", rates=ROOT / "rates", as_of=day),
        today=lambda: DAY,
        now=lambda: "2026-12-01T16:20:05Z",
        door=Door(names=(NAME,), sign_in=True),
        clock=clock,
    )
    with TestClient(made, base_url=URL, raise_server_exceptions=False, follow_redirects=False) as client:
        yield client


def signed_in(desk: TestClient, name: str = "Ida Quarles", word: str = WORD) -> dict[str, str]:
    """Return the headers that a page of the desk sends."""
    assert desk.post("/sign-in", json={"name": name, "password": word}).status_code == 200
    return {"Origin": URL, "X-Desk-Token": desk.get("/session").json()["token"]}


def paths_of(desk: TestClient) -> set[tuple[str, str]]:
    from fastapi.routing import APIRoute

    def routes(found):
        for one in found:
            inner = getattr(one, "original_router", None) or getattr(one, "router", None)
            if inner is not None and not isinstance(one, APIRoute):
                yield from routes(inner.routes)
            else:
                yield one

    return {
        (method, one.path.replace("{number}", "Q-2026-0001"))
        for one in routes(desk.app.routes)  # type: ignore[attr-defined]
        if isinstance(one, APIRoute)
        for method in one.methods
    }


OPEN = {"/sign-in", "/session", "/api/health"}


def test_nothing_is_told_to_whom_is_not_signed_in(desk: TestClient) -> None:
    """Every path that there is, asked by a program."""
    asked = {(method, path) for method, path in paths_of(desk) if path not in OPEN}
    assert len(asked) >= 8
    for method, path in sorted(asked):
        told = desk.request(method, path, json=ASKED if method == "POST" else None)
        assert told.status_code in (401, 403), (method, path)
        assert told.headers["content-type"] == "application/problem+json"
    assert desk.get("/api/openapi.json").status_code == 401
    assert desk.get("/static/call.js").status_code == 401


def test_a_browser_is_led_to_the_sign_in_and_back(desk: TestClient) -> None:
    told = desk.get("/", headers=PAGES)
    assert (told.status_code, told.headers["location"]) == (303, "/sign-in?to=%2F")
    page = desk.get("/sign-in", headers=PAGES)
    assert page.status_code == 200
    assert 'type="password"' in page.text
    assert "Ida" not in page.text
    signed_in(desk)
    assert "Ida Quarles" in desk.get("/", headers=PAGES).text


def test_the_cookie_is_for_this_desk_and_no_script(desk: TestClient) -> None:
    """RFC 6265bis, 4.1.3.2: the prefix __Host- wants Secure, Path=/ and no Domain."""
    told = desk.post("/sign-in", json={"name": "ida quarles", "password": WORD})
    cookie = told.headers["set-cookie"]
    assert cookie.startswith(f"{COOKIE}=")
    assert COOKIE.startswith("__Host-")
    parts = {part.strip().casefold() for part in cookie.split(";")[1:]}
    assert {"secure", "httponly", "samesite=strict", "path=/"} <= parts
    assert not any(part.startswith("domain") for part in parts)
    assert told.headers["strict-transport-security"].startswith("max-age=")


@pytest.mark.parametrize(
    "more",
    [
        {},
        {"Origin": URL},
        {"Origin": "https://evil.example"},
        {"Origin": "null"},
        {"Origin": URL, "X-Desk-Token": "x" * 43},
        {"Origin": URL, "Sec-Fetch-Site": "cross-site"},
    ],
)
def test_no_other_site_acts_for_who_is_signed_in(desk: TestClient, more: dict[str, str]) -> None:
    """The browser adds the cookie to what another site makes it send; the token it cannot know."""
    own = signed_in(desk)
    if "Sec-Fetch-Site" in more:
        more = own | more
    for path in ("/api/quote", "/api/quotes", "/answer", "/sign-out"):
        assert desk.post(path, json=ASKED, headers=more).status_code == 403, path
    assert desk.post("/api/quote", json=ASKED, headers=own).status_code == 200


def test_roles_hold(desk: TestClient) -> None:
    for name, office, rates in (("Ida Quarles", False, False), ("Oona Brandt", True, False), ("Max Thule", True, True)):
        signed_in(desk, name)
        for path, may in (("/office", office), ("/rates", rates), ("/office/Q-2026-0001", office)):
            assert (desk.get(path).status_code != 403) == may, (name, path)


def test_who_is_taken_from_the_list_is_out_at_once(desk: TestClient, folder: Path) -> None:
    own = signed_in(desk)
    assert desk.post("/api/quote", json=ASKED, headers=own).status_code == 200
    remove_person(folder / "people.json", "Ida Quarles")
    assert desk.post("/api/quote", json=ASKED, headers=own).status_code == 401


def test_a_session_ends_when_nobody_was_there_for_half_a_day(desk: TestClient, clock: Clock) -> None:
    signed_in(desk)
    clock.seconds += IDLE_SECONDS - 1
    assert desk.get("/api/stock").status_code == 200
    clock.seconds += IDLE_SECONDS + 1
    assert desk.get("/api/stock").status_code == 401


def test_signing_out_ends_it(desk: TestClient) -> None:
    own = signed_in(desk)
    secret = desk.cookies[COOKIE]
    assert desk.post("/sign-out", json={}, headers=own).status_code == 204
    desk.cookies.set(COOKIE, secret, domain=NAME)
    assert desk.get("/api/stock").status_code == 401


def test_guessing_is_slowed(desk: TestClient, clock: Clock) -> None:
    for _ in range(TRIES):
        assert desk.post("/sign-in", json={"name": "Max Thule", "password": "no"}).status_code == 401
    told = desk.post("/sign-in", json={"name": "Max Thule", "password": WORD})
    assert told.status_code == 429
    assert int(told.headers["retry-after"]) > 0
    clock.seconds += IN_SECONDS
    signed_in(desk, "Max Thule")


def test_a_wrong_name_and_a_wrong_password_are_told_alike(desk: TestClient) -> None:
    wrong = desk.post("/sign-in", json={"name": "Ida Quarles", "password": "no"})
    nobody = desk.post("/sign-in", json={"name": "Nobody", "password": "no"})
    assert (wrong.status_code, wrong.json()) == (nobody.status_code, nobody.json())


def test_who_acts_is_kept_with_what_was_done(desk: TestClient, folder: Path) -> None:
    import sqlite3

    own = signed_in(desk)
    assert desk.post("/api/quotes", json=ASKED, headers=own).status_code == 201
    with sqlite3.connect(folder / "register.sqlite") as register:
        assert register.execute("select who from events where what = 'kept'").fetchall() == [("Ida Quarles",)]


def test_passwords_are_kept_as_rfc_9106_has_it_and_for_the_owner_alone(folder: Path) -> None:
    """RFC 9106, 4: the second recommended option is Argon2id, 3 passes, 4 lanes, 64 MiB, 128-bit salt, 256-bit tag."""
    file = folder / "people.json"
    add_person(file, "Pia Lund", "sales", WORD)
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert WORD not in file.read_text()
    told = extract_parameters(json.loads(file.read_text())["persons"][0]["password_hash"])
    assert told == RFC_9106_LOW_MEMORY
    assert (told.type.name, told.time_cost, told.parallelism, told.memory_cost) == ("ID", 3, 4, 65_536)
    assert (told.salt_len, told.hash_len) == (16, 32)


@pytest.mark.parametrize(
    "word", ["short", "fourteen chars", "Ida Quarles 2026!", "aaaaaaaaaaaaaaaaaaaaaaaa", "x" * 300]
)
def test_a_weak_password_is_refused(folder: Path, word: str) -> None:
    """NIST SP 800-63B-4, 3.1.1.2: at least 15 characters where it is the only factor; no name of the user in it."""
    before = (folder / "people.json").read_bytes()
    with pytest.raises(WrongInput, match="password"):
        add_person(folder / "people.json", "Ida Quarles", "sales", word)
    assert (folder / "people.json").read_bytes() == before


def test_a_damaged_list_lets_nobody_in_and_says_so(folder: Path) -> None:
    (folder / "people.json").write_text('{"persons": [{"name": "x"')
    with pytest.raises(WrongInput, match="no list of people"):
        read_people(people_file(Settings(file=folder / "shipcalc.toml")))


def test_an_allowance_comes_back_evenly() -> None:
    clock = Clock()
    allowance = Allowance(4, 60, clock)
    assert [allowance.take("a") for _ in range(4)] == [0, 0, 0, 0]
    assert allowance.take("a") == pytest.approx(15)
    assert allowance.take("b") == 0
    clock.seconds += 15
    assert allowance.take("a") == 0
    assert allowance.take("a") == pytest.approx(15)


def test_at_the_office_somebody_acts_in_the_name_they_signed_in_with(desk: TestClient) -> None:
    headers = signed_in(desk, "Oona Brandt")
    number = desk.post("/api/quotes", json=ASKED, headers=headers).json()["number"]
    assert desk.post(f"/office/quotes/{number}/accept", json={"by": "the buyer"}, headers=headers).status_code == 200
    ticked = desk.post(f"/office/{number}/tick", json={"line": "1", "who": "Max Thule"}, headers=headers)
    assert ticked.status_code == 200
    page = desk.get(f"/office/{number}", headers=PAGES).text
    assert "ticked, Oona Brandt" in page
    assert "Max Thule" not in page
    signed_in(desk, "Ida Quarles")
    assert desk.get("/office", headers=PAGES).status_code == 403, "of sales, and not of the office"
    assert desk.get(f"/office/{number}/papers.zip").status_code == 403
