"""The desk's interface and page: the same Quote as the terminal's, refusals as RFC 9457 has them, and nobody else's page may ask."""

import json
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from fastapi.testclient import TestClient

from shipcalc.actions.sources import Sources, find_sources
from shipcalc.cli.main import run
from shipcalc.desk.app import make_desk
from shipcalc.register.opening import url_of_file

DAY = date(2026, 12, 1)
AT = "2026-12-01T16:20:05Z"
ROOT = Path(__file__).parents[2]
HERE = "http://127.0.0.1:8720"
BREMEN = {"vehicles": ["HV-1027"], "to": "Bremen, Germany"}


def sources_of(day: date) -> Sources:
    return find_sources(folder=ROOT, as_of=day)


@pytest.fixture(scope="module")
def desk() -> Iterator[TestClient]:
    with TestClient(
        make_desk(sources_of, today=lambda: DAY, now=lambda: AT), base_url=HERE, raise_server_exceptions=False
    ) as client:
        yield client


ORDERS = (
    ({"vehicles": ["HV-1042"], "to": "Bozeman, MT"}, ("--vehicle", "HV-1042", "--to", "Bozeman, MT")),
    (
        {**BREMEN, "currency": "EUR", "trailer": "enclosed"},
        ("--vehicle", "HV-1027", "--to", "Bremen, Germany", "--currency", "EUR", "--trailer", "enclosed"),
    ),
    (
        {
            "vehicles": ["HV-1042", "HV-1027"],
            "to": "98250",
            "lift-gate": True,
            "ready": "dec 15",
            "insure_for": "90000",
        },
        (
            "--vehicle",
            "HV-1042",
            "--vehicle",
            "HV-1027",
            "--to",
            "98250",
            "--lift-gate",
            "--ready",
            "dec 15",
            "--insure-for",
            "90000",
        ),
    ),
    (
        {"vehicles": "HV-1042", "to": "Toronto, Canada", "from": "Savannah, GA", "collect": True},
        ("--vehicle", "HV-1042", "--to", "Toronto, Canada", "--from", "Savannah, GA", "--collect"),
    ),
)


@pytest.mark.parametrize(("asked", "typed"), ORDERS)
@pytest.mark.parametrize("whom", ["office", "buyer"])
def test_the_desk_and_the_terminal_give_the_same_quote(
    desk: TestClient, capsys, monkeypatch, asked, typed, whom
) -> None:
    monkeypatch.chdir(ROOT)
    told = desk.post("/api/quote", json=asked, params={"for": whom})
    assert told.status_code == 200
    capsys.readouterr()
    assert run(["quote", *typed, "--as-of", DAY.isoformat(), "--json", "--for", whom]) == 0
    assert told.text.strip() == capsys.readouterr().out.strip()


def test_the_buyer_is_told_no_cost_and_no_cell(desk: TestClient) -> None:
    told = desk.post("/api/quote", json=BREMEN, params={"for": "buyer"}).json()
    office = desk.post("/api/quote", json=BREMEN).json()
    assert office["options"][0]["total_cost"]
    assert "›" in json.dumps(office, ensure_ascii=False)
    assert "›" not in json.dumps(told, ensure_ascii=False)
    assert all(option["total_cost"] is None for option in told["options"])
    assert all(charge["cost"] is None for option in told["options"] for charge in option["charges"])


@pytest.mark.parametrize(
    ("asked", "status", "words"),
    [
        ({"vehicles": ["HV-1042"], "to": "Portland"}, 422, "which one is meant"),
        ({"vehicles": ["HV-9999"], "to": "Bozeman, MT"}, 422, "HV-9999"),
        ({"vehicles": ["HV-1042"], "to": "Tehran, Iran"}, 409, "Tehran"),
        ({"vehicles": ["HV-1042"]}, 422, "to: field required"),
        ({"vehicles": ["HV-1042"], "to": "59715", "tailer": "open"}, 422, "tailer"),
        ({"vehicles": ["HV-1042"], "to": "59715", "ready": "3/4"}, 422, "ready"),
        ({"vehicles": ["HV-1042"], "to": "59715", "ready": "soonish"}, 422, "is not a date"),
        ({"vehicles": ["HV-1042"], "to": "x" * 501}, 422, "500"),
    ],
)
def test_a_refusal_is_a_problem_with_its_sentence(desk: TestClient, asked, status: int, words: str) -> None:
    """RFC 9457, 3.1: type, title, status and detail; the status in the body is that of the answer."""
    told = desk.post("/api/quote", json=asked)
    assert told.status_code == status
    assert told.headers["content-type"] == "application/problem+json"
    problem = told.json()
    assert set(problem) >= {"type", "title", "status", "detail"}
    assert problem["status"] == status
    assert words in problem["detail"]
    assert "‹" not in problem["detail"]


def test_a_mistake_of_the_program_is_no_traceback(desk: TestClient, monkeypatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("secret")

    monkeypatch.setattr("shipcalc.desk.clerk.made_quote", broken)
    told = desk.post("/api/quote", json={**BREMEN, "to": "Hamburg, Germany"})
    assert told.status_code == 500
    assert told.headers["content-type"] == "application/problem+json"
    assert "secret" not in told.text
    assert "Zero" not in told.text


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8720", "127.0.0.1.evil.example", "", "[::2]", "["])
def test_another_name_is_not_this_desk(desk: TestClient, host: str) -> None:
    """So that no page of another site reaches the desk by a name of its own that leads to this machine."""
    told = desk.get("/api/health", headers={"Host": host})
    assert told.status_code == 421


@pytest.mark.parametrize("origin", ["https://evil.example", "null", "http://127.0.0.1:9999"])
def test_another_page_may_not_ask(desk: TestClient, origin: str) -> None:
    assert desk.post("/api/quote", json=BREMEN, headers={"Origin": origin}).status_code == 403
    own = {"Origin": HERE, "X-Desk-Token": desk.get("/session").json()["token"]}
    assert desk.post("/api/quote", json=BREMEN, headers=own).status_code == 200


def test_nothing_from_elsewhere_is_loaded_and_no_script_stands_in_the_page(desk: TestClient) -> None:
    told = desk.get("/")
    policy = told.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert told.headers["x-content-type-options"] == "nosniff"
    named = set(re.findall(r"(?:src|href)=\"([^\"]+)\"", told.text))
    assert {one for one in named if not one.startswith(("/", "#"))} == {"data:,"}
    assert {"/static/desk.css", "/static/call.css", "/static/call.js"} <= named
    assert not re.search(r"<script(?![^>]*src=)", told.text)
    assert not re.search(r"\son\w+=|style=", told.text)
    modules = ("asking", "call", "combobox", "keeping", "order", "whatif")
    for file in ("/static/desk.css", "/static/call.css", *(f"/static/{one}.js" for one in modules)):
        assert desk.get(file).status_code == 200
    assert desk.get("/static/../app.py").status_code == 404


def test_too_much_is_refused_before_it_is_read(desk: TestClient) -> None:
    assert desk.post("/api/quote", content=b"x" * 70_000).status_code == 413


def test_what_somebody_types_is_text_on_the_page(desk: TestClient) -> None:
    nasty = '1961 <script>alert(1)</script> "roadster", 153 in x 60 in x 49 in, 2030 lb, $38,000'
    told = desk.post("/answer", json={"vehicles": [nasty], "to": "59715"})
    assert "<script" not in told.text
    asked = desk.post("/answer", json={"vehicles": ["HV-1042"], "to": "<img src=x onerror=alert(1)>"})
    assert asked.headers["content-type"] == "application/problem+json"


def test_the_page_says_what_the_quote_says(desk: TestClient) -> None:
    """Each choice as it is shown: its total, and every line of it."""
    quote = desk.post("/api/quote", json=BREMEN, params={"for": "buyer"}).json()
    for number, option in enumerate(quote["options"], 1):
        shown = desk.post("/answer", json=BREMEN, params={"choice": str(number)}).text
        assert f"{float(option['total']):,.2f}" in shown
        for charge in option["charges"]:
            assert f"{float(charge['amount']):,.2f}" in shown or float(charge["amount"]) == 0
    told = desk.post("/answer", json=BREMEN).text
    assert quote["options"][quote["recommended"]]["before_price"][0] in told
    assert "Please know before anything else" in told


def test_a_kept_quote_has_a_number_and_can_be_found(desk: TestClient, tmp_path: Path, monkeypatch, capsys) -> None:
    monkeypatch.setenv("SHIPCALC_REGISTER", url_of_file(tmp_path / "register.sqlite"))
    told = desk.post("/api/quotes", json={**BREMEN, "buyer": "Perpetua Lindqvist"})
    assert told.status_code == 201
    assert told.json()["number"] == "Q-2026-0001"
    monkeypatch.chdir(ROOT)
    assert run(["quotes", "list", "--json", "--as-of", DAY.isoformat()]) == 0
    assert json.loads(capsys.readouterr().out)["quotes"][0]["buyer"] == "Perpetua Lindqvist"


def test_the_pdf_is_the_offers(desk: TestClient) -> None:
    told = desk.get(f"/answer/{key_of(desk, BREMEN)}/quote.pdf")
    assert told.headers["content-type"] == "application/pdf"
    assert told.content.startswith(b"%PDF-")
    assert desk.get("/answer/forgotten/quote.pdf").status_code == 422


def key_of(desk: TestClient, asked: dict[str, object]) -> str:
    found = re.search(r'data-answer="([^"]+)"', desk.post("/answer", json=asked).text)
    assert found is not None
    return found[1]


@pytest.mark.parametrize("what", ["way", "price", "days"])
def test_a_picture_of_an_answer_is_a_drawing_light_and_dark(desk: TestClient, what: str) -> None:
    key = key_of(desk, BREMEN)
    light, dark = (desk.get(f"/answer/{key}/{what}.svg", params={"dark": dark}) for dark in (False, True))
    for told in (light, dark):
        assert told.headers["content-type"] == "image/svg+xml"
        assert ET.fromstring(told.text).tag == "{http://www.w3.org/2000/svg}svg"
    assert light.text != dark.text
    assert re.sub("#[0-9A-F]{6}", "", light.text) == re.sub("#[0-9A-F]{6}", "", dark.text)


def test_a_vehicles_photograph_is_shown_and_nothing_beside_it(tmp_path: Path) -> None:
    """The picture lies beside the stock list, and only what the list names is given."""
    import shutil

    import openpyxl
    from PIL import Image

    for name in ("rates", "demo"):
        shutil.copytree(ROOT / name, tmp_path / name)
    book = openpyxl.load_workbook(tmp_path / "demo" / "stock.xlsx")
    sheet = book["Stock"]
    header = next(row for row in sheet.iter_rows() if any(cell.value == "Stock No." for cell in row))
    photo = len(header) + 1
    sheet.cell(header[0].row, photo).value = "Photo"
    row = next(row for row in sheet.iter_rows() if any(cell.value == "HV-1042" for cell in row))
    sheet.cell(row[0].row, photo).value = "minnow.png"
    book.save(tmp_path / "demo" / "stock.xlsx")
    Image.new("RGB", (900, 600), "#8899aa").save(tmp_path / "demo" / "minnow.png")
    own = make_desk(lambda day: find_sources(folder=tmp_path, as_of=day), today=lambda: DAY, now=lambda: AT)
    with TestClient(own, base_url=HERE) as client:
        assert client.get("/offered/vehicles", params={"text": "HV-1042"}).json()[0]["photo"] == "HV-1042"
        told = client.get("/photo/HV-1042")
        assert told.headers["content-type"] == "image/jpeg"
        assert client.get("/photo/HV-1027").status_code == 422


def test_namesakes_are_offered_by_texts_that_need_no_further_question(desk: TestClient) -> None:
    for text in ("Portland", "bozman", "Paris", "Tuscany", "59715"):
        offered = desk.get("/offered/places", params={"text": text}).json()
        assert offered
        for one in offered:
            assert desk.get("/api/place", params={"text": one["text"]}).json()["found"]["name"] in one["name"]


def test_the_message_is_in_the_language_of_the_offer(desk: TestClient) -> None:
    key = re.findall(r"/answer/([\w-]+)/", desk.post("/answer", json=BREMEN).text)[0]
    english, german = (
        desk.get(f"/answer/{key}/message", params={"language": code}).json()["text"] for code in ("", "de")
    )
    assert english.startswith("Good day,")
    assert german.startswith("Guten Tag")
    assert desk.get(f"/answer/{key}/message", params={"language": "xx"}).status_code == 422


def test_places_and_stock_are_found_while_they_are_typed(desk: TestClient) -> None:
    assert desk.get("/api/place", params={"text": "59715"}).json()["found"]["name"] == "Bozeman"
    assert "ME" in {one["subdivision"] for one in desk.get("/api/place", params={"text": "Portland"}).json()["others"]}
    found = desk.get("/api/stock", params={"text": "minow"}).json()
    assert found["nearly"]
    assert {one["model"] for one in found["vehicles"]} == {"Minnow"}
    assert desk.get("/api/stock", params={"text": "no such thing"}).status_code == 409


def test_asked_twice_with_one_key_it_is_kept_once(desk: TestClient, tmp_path: Path, monkeypatch) -> None:
    """The Idempotency-Key HTTP header field (IETF draft-ietf-httpapi-idempotency-key-header): the same answer, or 4xx for another body."""
    monkeypatch.setenv("SHIPCALC_REGISTER", url_of_file(tmp_path / "register.sqlite"))
    key = {"Idempotency-Key": "8e03978e-40d5-43e8-bc93-6894a57f9324"}
    first, again = (desk.post("/api/quotes", json=BREMEN, headers=key) for _ in range(2))
    assert (first.status_code, again.status_code) == (201, 201)
    assert first.content == again.content
    other = desk.post("/api/quotes", json={**BREMEN, "to": "59715"}, headers=key)
    assert other.status_code == 422
    assert "another order" in other.json()["detail"]
    assert desk.post("/api/quotes", json=BREMEN).json()["number"] == "Q-2026-0002"


@pytest.mark.parametrize(
    "path", ["/api/place?text=59715", "/api/stock", "/api/quotes/1", "/api/lanes?to=states&vehicle=HV-1042"]
)
def test_what_is_read_has_a_tag_and_is_sent_once(desk: TestClient, tmp_path: Path, monkeypatch, path: str) -> None:
    """RFC 9110, 13.1.2 and 15.4.5: with its tag in If-None-Match 304 without content, and the tag again."""
    monkeypatch.setenv("SHIPCALC_REGISTER", url_of_file(tmp_path / "register.sqlite"))
    desk.post("/api/quotes", json=BREMEN)
    told = desk.get(path)
    assert told.status_code == 200
    tag = told.headers["etag"]
    for asked in (tag, f"W/{tag}", f'"x", {tag}', "*"):
        again = desk.get(path, headers={"If-None-Match": asked})
        assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", tag)
    assert desk.get(path, headers={"If-None-Match": '"other"'}).content == told.content


def test_lanes_are_those_of_the_command(desk: TestClient) -> None:
    rows = desk.get("/api/lanes", params={"to": "states", "vehicle": "HV-1042"}).json()["rows"]
    assert {row["trailer"] for row in rows} == {"open", "enclosed"}
    montana = next(row for row in rows if row["to"] == "MT" and row["trailer"] == "open")
    told = desk.post("/api/quote", json={"vehicles": ["HV-1042"], "to": montana["place"]}).json()
    assert float(montana["price"]) in {float(one["total"]) for one in told["options"]}
    assert desk.get("/api/lanes", params={"to": "zips", "vehicle": "HV-1042"}).status_code == 422


def test_the_interface_describes_itself(desk: TestClient) -> None:
    """OpenAPI 3.1: the paths, and each property of an order by the name that is sent."""
    told = desk.get("/api/openapi.json").json()
    assert told["openapi"].startswith("3.1")
    assert set(told["paths"]) == {
        "/api/health",
        "/api/quote",
        "/api/quotes",
        "/api/quotes/{number}",
        "/api/place",
        "/api/stock",
        "/api/lanes",
    }
    assert {"vehicles", "to", "from", "ready", "as_of", "trailer", "term", "currency"} <= set(
        told["components"]["schemas"]["AskedQuote"]["properties"]
    )


def test_new_prices_count_at_once(tmp_path: Path, monkeypatch) -> None:
    """A rate book that is written anew is read anew: no desk goes on with the prices of the morning."""
    import shutil

    import openpyxl

    for name in ("rates", "demo"):
        shutil.copytree(ROOT / name, tmp_path / name)
    monkeypatch.chdir(tmp_path)
    own = make_desk(lambda day: find_sources(folder=tmp_path, as_of=day), today=lambda: DAY, now=lambda: AT)
    with TestClient(own, base_url=HERE) as client:
        before = client.post("/api/quote", json=ORDERS[0][0]).json()
        file = tmp_path / "rates" / "trucking.xlsx"
        book = openpyxl.load_workbook(file)
        sheet = book["Pricing"]
        row = next(row for row in sheet.iter_rows() if str(row[0].value or "").startswith("Markup on linehaul"))
        row[1].value = 0.4
        book.save(file)
        after = client.post("/api/quote", json=ORDERS[0][0]).json()
    assert after["rate_book"]["fingerprint"] != before["rate_book"]["fingerprint"]
    assert float(after["options"][0]["total"]) > float(before["options"][0]["total"])


def test_a_remembered_answer_is_that_of_the_books_that_are_there(desk: TestClient, monkeypatch) -> None:
    """The same order is worked out once; another day, or other books, anew (see also new prices above)."""
    import shipcalc.desk.clerk as room

    worked: list[date] = []
    real = room.made_quote

    def counted(order, sources, *, as_of, books):
        worked.append(as_of)
        return real(order, sources, as_of=as_of, books=books)

    monkeypatch.setattr(room, "made_quote", counted)
    asked = {**BREMEN, "lift_gate": True}
    first, again = (desk.post("/api/quote", json=asked) for _ in range(2))
    assert (first.status_code, first.content) == (200, again.content)
    assert worked == [DAY]
    desk.post("/api/quote", json={**asked, "as_of": "2026-12-02"})
    assert worked == [DAY, date(2026, 12, 2)]
