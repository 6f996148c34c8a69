"""The rates page: workbooks and mails go into a draft, which is looked at by cell and by what it does, put in force, taken back."""

import io
import json
import re
import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import openpyxl
import pytest
from fastapi.testclient import TestClient

from shipcalc.actions.sources import find_sources
from shipcalc.cli.main import run
from shipcalc.desk.app import make_desk
from shipcalc.desk.clerk import Clerk

ROOT = Path(__file__).parents[2]
DAY = date(2026, 12, 1)
QUOTE = {"vehicles": ["HV-1042"], "to": "59715"}
MAIL = ROOT / "tests" / "ratebook" / "mails"


def desk_in(folder: Path) -> TestClient:
    made = make_desk(
        lambda day: find_sources(folder=folder, as_of=day), today=lambda: DAY, now=lambda: "2026-12-01T16:20:05Z"
    )
    return TestClient(made, base_url="http://127.0.0.1:8720", raise_server_exceptions=False)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A dealer with a rate book of his own."""
    for name in ("rates", "demo"):
        shutil.copytree(ROOT / name, tmp_path / name)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return tmp_path


@pytest.fixture
def desk(folder: Path) -> Iterator[TestClient]:
    with desk_in(folder) as client:
        yield client


def changed(file: Path, sheet: str, label: str, column: int, value: object) -> bytes:
    """Return a workbook in which the row that begins so has another value in a column, counted from 1."""
    book = openpyxl.load_workbook(file)
    row = next(row for row in book[sheet].iter_rows() if str(row[0].value or "").startswith(label))
    row[column - 1].value = value
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def dearer(folder: Path) -> bytes:
    return changed(folder / "rates" / "trucking.xlsx", "Pricing", "Markup on linehaul", 2, 0.4)


def price(desk: TestClient) -> float:
    return float(desk.post("/api/quote", json=QUOTE).json()["options"][0]["total"])


def test_the_book_in_force_is_there_to_take_along(desk: TestClient, folder: Path) -> None:
    assert "/rates/book/trucking.xlsx" in desk.get("/rates").text
    assert desk.get("/rates/book/trucking.xlsx").content == (folder / "rates" / "trucking.xlsx").read_bytes()
    assert desk.get("/rates/book/..%2Fpyproject.xlsx").status_code in (404, 422)
    assert desk.get("/rates/book/passwd.xlsx").status_code == 422
    assert desk.get("/rates/else/trucking.xlsx").status_code == 422


@pytest.fixture
def small_basket(monkeypatch: pytest.MonkeyPatch) -> None:
    """Few transports, priced in this process: what a comparison says is tested in tests/compare."""
    import shipcalc.actions.comparing as comparing
    import shipcalc.compare.basket as basket

    whole = basket.built_in_basket

    async def here(clerk: Clerk, work, *told):
        return await clerk.do(lambda: work(*told))

    monkeypatch.setattr(comparing, "MOST_OF_ROWS", 4)
    monkeypatch.setattr(basket, "built_in_basket", lambda starts, day: whole(starts, day)[:6])
    monkeypatch.setattr(Clerk, "apart", here)


@pytest.mark.soak
def test_the_whole_basket_is_priced_in_a_process_of_its_own(desk: TestClient, folder: Path) -> None:
    desk.post("/rates/draft", files={"books": ("trucking.xlsx", dearer(folder))})
    effect = desk.get("/rates/draft/effect").text
    assert re.search(r"\d+ of \d{2,} recommended prices of the built-in basket change", effect)
    assert desk.get("/rates/draft/comparison.xlsx").content.startswith(b"PK")


def test_a_workbook_that_is_sent_counts_only_once_it_is_put_in_force(
    desk: TestClient, folder: Path, small_basket: None
) -> None:
    before = price(desk)
    told = desk.post("/rates/draft", files={"books": ("trucking.xlsx", dearer(folder))})
    assert told.status_code == 200
    assert "There is a draft" in told.text
    assert price(desk) == before
    effect = desk.get("/rates/draft/effect").text
    assert "Markup on linehaul" in effect
    assert "<rect" in effect
    done = desk.post("/rates/draft/in-force", json={})
    assert "counts from now on" in done.text
    assert price(desk) > before
    assert not (folder / "rates-draft").exists()
    former = re.findall(r'data-back="([0-9a-f]+)"', done.text)
    back = desk.post("/rates/back", json={"fingerprint": former[0]})
    assert "counts again" in back.text
    assert price(desk) == before


def test_the_page_and_the_terminal_know_one_history(desk: TestClient, folder: Path, capsys) -> None:
    desk.post("/rates/draft", files={"books": ("trucking.xlsx", dearer(folder))})
    page = desk.post("/rates/draft/in-force", json={}).text
    assert run(["rates", "history", "--rates", "rates", "--json"]) == 0
    for one in json.loads(capsys.readouterr().out)["editions"]:
        assert one["fingerprint"] in page


def test_a_day_to_come_waits(desk: TestClient, folder: Path) -> None:
    before = price(desk)
    desk.post("/rates/draft", files={"books": ("trucking.xlsx", dearer(folder))})
    told = desk.post("/rates/draft/in-force", json={"since": "2026-12-15"})
    assert "waits for its day" in told.text
    assert price(desk) == before
    later = desk.post("/api/quote", json={**QUOTE, "as_of": "2026-12-15"}).json()
    assert float(later["options"][0]["total"]) > before
    assert desk.post("/rates/draft/in-force", json={}).status_code == 422


def test_a_fault_is_told_by_its_cell_and_is_not_put_in_force(desk: TestClient, folder: Path) -> None:
    broken = changed(folder / "rates" / "trucking.xlsx", "Carriers", "Three Puffins Haulage", 1, None)
    told = desk.post("/rates/draft", files={"books": ("trucking.xlsx", broken)})
    assert told.status_code == 200
    assert re.search(r"Carriers!A\d+", told.text)
    assert "Put it in force" not in told.text
    assert desk.post("/rates/draft/in-force", json={}).status_code == 422
    dropped = desk.post("/rates/draft/drop", json={})
    assert "as it was" in dropped.text
    assert desk.post("/rates/draft/drop", json={}).status_code == 422


def test_a_workbook_of_another_name_or_kind_is_one_sentence(desk: TestClient, folder: Path) -> None:
    other = desk.post("/rates/draft", files={"books": ("mine.xlsx", (folder / "rates" / "trucking.xlsx").read_bytes())})
    assert other.status_code == 422
    assert "mine.xlsx" in other.json()["detail"]
    broken = desk.post("/rates/draft", files={"books": ("trucking.xlsx", b"not a workbook")})
    assert broken.status_code == 422
    assert "inside" in broken.json()["detail"]
    assert not (folder / "rates-draft").exists()


LANES = "From,To,Trailer,Price USD\n98225,CA,open,1450\n98225,OR,open,690\n98225,NV,open,1180 or so\n"


def test_a_mail_is_shown_then_taken_as_it_was_shown(desk: TestClient, folder: Path) -> None:
    sent = {"mail": ("tern.csv", LANES.encode())}
    asked = {"carrier": "Three Puffins Haulage", "answers": "{}"}
    told = desk.post("/rates/mail", files=sent, data=asked).text
    answers: dict[str, str] = {}
    while keys := re.findall(r'data-key="([^"]+)" value="([^"]+)"', told):
        answers[keys[0][0]] = keys[0][1]
        assert len(answers) <= 2
        asked["answers"] = json.dumps(answers)
        told = desk.post("/rates/mail", files=sent, data=asked).text
    assert "1,450.00 USD" in told
    assert "Not taken" in told
    assert "D4" in told
    seen = re.findall(r'data-take="([0-9a-f]+)"', told)[0]
    assert not (folder / "rates-draft").exists()
    other = desk.post("/rates/mail/take", files=sent, data={**asked, "seen": "0" * 64})
    assert other.status_code == 422
    done = desk.post("/rates/mail/take", files=sent, data={**asked, "seen": seen})
    assert "2 new" in done.text
    draft = openpyxl.load_workbook(folder / "rates-draft" / "trucking.xlsx")
    written = [[cell.value for cell in row] for row in draft["Lanes"].iter_rows()]
    assert any("98225" in map(str, row) and 1450 in row for row in written)
    assert openpyxl.load_workbook(folder / "rates" / "trucking.xlsx")["Lanes"].max_row < len(written)


@pytest.mark.parametrize("answers", ["[", "[1]", '{"a": 1}', "null"])
def test_answers_that_are_none_are_one_sentence(desk: TestClient, answers: str) -> None:
    told = desk.post("/rates/mail", files={"mail": ("x.csv", LANES.encode())}, data={"answers": answers})
    assert told.status_code == 422
    assert "answers" in told.json()["detail"]


def test_the_invented_book_is_not_changed() -> None:
    """Where a dealer has no rate book of his own, the one inside the program stays as it is."""
    import shipcalc

    inside = Path(shipcalc.__file__).parent
    with TestClient(
        make_desk(
            lambda day: find_sources(folder=Path("/nowhere"), as_of=day),
            today=lambda: DAY,
            now=lambda: "2026-12-01T16:20:05Z",
        ),
        base_url="http://127.0.0.1:8720",
        raise_server_exceptions=False,
    ) as client:
        page = client.get("/rates").text
        assert "These are invented prices" in page
        told = client.post(
            "/rates/draft", files={"books": ("trucking.xlsx", (ROOT / "rates" / "trucking.xlsx").read_bytes())}
        )
        assert told.status_code == 422
        assert "invented" in told.json()["detail"]
    assert not list(inside.rglob("*-draft"))


def test_without_bills_it_says_how_they_come(desk: TestClient, folder: Path, monkeypatch) -> None:
    monkeypatch.setenv("SHIPCALC_REGISTER", str(folder / "register.sqlite"))
    assert "No bill is kept" in desk.get("/rates").text
