"""What a dealer's own site may ask: with a key, from its own pages, so often, and the buyer's view alone."""

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from shipcalc.actions.sources import find_sources
from shipcalc.desk.people import add_site
from shipcalc.desk.public import BY_VISITOR, SECONDS, make_public
from shipcalc.desk.safety import Door
from tests.desk.conftest import Clock

ROOT = Path(__file__).parents[2]
SITE = "https://www.heron.example"
AT = {"vehicle": "HV-1042", "to": "59715"}


@pytest.fixture
def key(tmp_path: Path) -> str:
    return add_site(tmp_path / "people.json", "our site", SITE + "/")


@pytest.fixture
def outside(tmp_path: Path, key: str, clock: Clock) -> Iterator[TestClient]:
    (tmp_path / "shipcalc.toml").write_text('[dealer]\nname = "Heron & Vale Motors"\n')
    made = make_public(
        lambda day: find_sources(folder=tmp_path, stock=ROOT / "demo" / "stock.xlsx", rates=ROOT / "rates", as_of=day),
        today=lambda: date(2026, 12, 1),
        now=lambda: "2026-12-01T16:20:05Z",
        door=Door(names=("prices.heron.example",)),
        clock=clock,
    )
    with TestClient(made, base_url="https://prices.heron.example", raise_server_exceptions=False) as client:
        client.headers.update({"X-Site-Key": key, "Origin": SITE})
        yield client


def test_it_says_what_the_quote_says(outside: TestClient, tmp_path: Path, monkeypatch, capsys) -> None:
    import json

    from shipcalc.cli.main import run

    told = outside.get("/delivered", params=AT)
    assert told.status_code == 200
    monkeypatch.chdir(ROOT)
    asked = ["--vehicle", "HV-1042", "--to", "59715", "--as-of", "2026-12-01", "--json", "--for", "buyer"]
    assert run(["quote", *asked]) == 0
    quote = json.loads(capsys.readouterr().out)
    chosen = quote["options"][quote["recommended"]]
    assert f"{float(chosen['total']):,.2f}" in told.json()["price"]
    assert told.json()["to"] == "Bozeman, MT"
    assert told.json()["how"] == chosen["title"]


def test_nothing_of_cost_margin_or_cells_is_told(outside: TestClient) -> None:
    for to in ("59715", "Bremen, Germany", "98250"):
        told = outside.get("/delivered", params={**AT, "to": to}).text
        assert not re.search(r"xlsx|margin|cost|‹|![A-Z]+\d", told), told


def test_there_is_nothing_else_there(outside: TestClient) -> None:
    for path in ("/", "/office", "/rates", "/answer", "/api/quote", "/api/stock", "/session", "/static/call.js"):
        assert outside.get(path).status_code == 404
        assert outside.post(path, json={}).status_code in (404, 405)
    assert set(outside.get("/openapi.json").json()["paths"]) == {"/health", "/delivered-to.js", "/delivered"}


@pytest.mark.parametrize(
    "headers",
    [{"X-Site-Key": ""}, {"X-Site-Key": "x" * 43}, {"Origin": "https://evil.example"}, {"Origin": "null"}],
)
def test_without_the_key_from_the_sites_own_pages_nothing_is_told(outside: TestClient, headers) -> None:
    told = outside.get("/delivered", params=AT, headers=headers)
    assert told.status_code == 403
    assert "access-control-allow-origin" not in told.headers


def test_a_browser_may_read_it_on_the_sites_pages_alone(outside: TestClient) -> None:
    """The Fetch standard's CORS protocol: the preflight and the answer name the one origin."""
    asked = {"Access-Control-Request-Method": "GET", "Access-Control-Request-Headers": "x-site-key"}
    before = outside.options("/delivered", headers=asked)
    assert before.headers["access-control-allow-origin"] == SITE
    assert before.headers["access-control-allow-headers"].casefold() == "x-site-key"
    assert outside.get("/delivered", params=AT).headers["access-control-allow-origin"] == SITE
    foreign = outside.options("/delivered", headers={**asked, "Origin": "https://evil.example"})
    assert (foreign.status_code, "access-control-allow-origin" in foreign.headers) == (403, False)


def test_so_many_questions_a_minute(outside: TestClient, clock: Clock) -> None:
    told = [outside.get("/delivered", params=AT).status_code for _ in range(BY_VISITOR + 1)]
    assert told == [200] * BY_VISITOR + [429]
    clock.seconds += SECONDS
    assert outside.get("/delivered", params=AT).status_code == 200


def test_what_cannot_be_understood_is_said_and_what_the_books_lack_is_not(outside: TestClient, monkeypatch) -> None:
    told = outside.get("/delivered", params={**AT, "to": "Portland"})
    assert told.status_code == 422
    assert "Portland" in told.json()["detail"]
    barred = outside.get("/delivered", params={**AT, "to": "Tehran, Iran"})
    assert (barred.status_code, barred.json()["detail"][:6]) == (409, "We can")
    assert "Iran" not in barred.text


@pytest.mark.parametrize("params", [{"vehicle": "<b>", "to": "59715"}, {"vehicle": "HV-1042"}, {**AT, "to": "x" * 121}])
def test_what_is_no_question_is_refused(outside: TestClient, params) -> None:
    assert outside.get("/delivered", params=params).status_code == 422


def test_the_snippet_writes_text_and_no_markup(outside: TestClient) -> None:
    told = outside.get("/delivered-to.js")
    assert told.headers["content-type"].startswith("text/javascript")
    assert told.headers["cross-origin-resource-policy"] == "cross-origin"
    assert "innerHTML" not in told.text
    assert "eval" not in told.text
