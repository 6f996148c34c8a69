"""The office's pages without a browser: what they say is what the register says, what they do the terminal could have done."""

import html
import io
import json
import re
import zipfile
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import openpyxl
import pytest
from fastapi.testclient import TestClient

from shipcalc.actions.quoting import Order, made_quote, open_books
from shipcalc.actions.sources import Sources, find_sources, invented_sources
from shipcalc.cli.main import run
from shipcalc.desk.app import make_desk
from shipcalc.register.opening import open_register, url_of_file
from tests.register.many import fill

DAY = date(2026, 12, 1)
AT = "2026-12-01T16:20:05Z"
ROOT = Path(__file__).parents[2]
HERE = "http://127.0.0.1:8720"
CALGARY, YOKOHAMA = "Q-2026-0013", "Q-2026-0005"
PDF = b"%PDF-1.7\n% an invented scan\n"


def sources_of(day: date) -> Sources:
    return find_sources(folder=ROOT, as_of=day)


@pytest.fixture(scope="module")
def client() -> Iterator[TestClient]:
    with TestClient(make_desk(sources_of, today=lambda: DAY, now=lambda: AT), base_url=HERE) as client:
        yield client


@pytest.fixture
def office(client: TestClient, filled: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> TestClient:
    """A desk at a copy of it, and a terminal at the same."""
    file = tmp_path / "register.sqlite"
    file.write_bytes(filled.read_bytes())
    monkeypatch.setenv("SHIPCALC_REGISTER", url_of_file(file))
    monkeypatch.chdir(ROOT)
    return client


def terminal(capsys: pytest.CaptureFixture[str], *words: str) -> dict:
    capsys.readouterr()
    assert run([*words, "--json", "--as-of", DAY.isoformat()]) == 0
    return json.loads(capsys.readouterr().out)


def text_of(page: str) -> str:
    return html.unescape(re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", page)))


def task_of(shown: dict, *, state: str = "open") -> dict:
    return next(one for one in shown["tasks"] if one["state"] == state)


def test_the_day_is_that_of_the_terminal(office: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    day = terminal(capsys, "today")
    told = text_of(office.get("/office?more=late,waiting,week,today,papers,shipments").text)
    for name, words in (("late", "late"), ("due", "due in a week"), ("waiting", "with others")):
        assert f"{len(day[name])} {words}" in told
        assert all(entry["task"] in told for entry in day[name])
    assert all(one["shipment"] in told for one in day["shipments"])
    assert all(one["number"] in told for one in day["ending"])


def test_one_person_sees_what_is_theirs(office: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    day = terminal(capsys, "today", "--person", "Nadia")
    told = office.get("/office/day?person=Nadia&more=late,week,today").text
    assert text_of(told).count("office: Nadia") >= len(day["late"])
    assert "yard: Per" not in text_of(told)


@pytest.mark.parametrize(
    ("asked", "number"),
    [
        ("text=Macrae", CALGARY),
        ("text=Q-2026-0013", CALGARY),
        ("text=13", CALGARY),
        ("text=HV-1054", CALGARY),
        ("text=SF-20844", YOKOHAMA),  # a booking
        ("stage=cut-off", YOKOHAMA),
    ],
)
def test_a_shipment_is_found_by_what_somebody_knows_of_it(office: TestClient, asked: str, number: str) -> None:
    told = office.get(f"/office/day?{asked}").text
    table = told[told.index('class="shipments"') :].partition("</table>")[0]
    assert f"/office/{number}" in table
    assert "/office/Q-2026-0006" not in table


def test_a_shipment_of_which_all_is_done_is_found_and_one_that_ended_is_told(
    office: TestClient, capsys: pytest.CaptureFixture[str]
) -> None:
    for task in terminal(capsys, "shipments", "show", "Q-2026-0001")["tasks"]:
        if task["state"] == "open":
            assert office.post("/office/Q-2026-0001/tick", json={"line": task["id"]}).status_code == 200
    assert "Q-2026-0001" not in office.get("/office/day?more=shipments").text
    assert "all is done" in text_of(office.get("/office/day?text=Ferrante").text)
    stepped_back = office.post(f"/office/quotes/{CALGARY}/decline", json={"why": "bought another", "who": "Nell"})
    assert stepped_back.status_code == 200
    assert "nobody has accepted it" in office.get(f"/office/{CALGARY}/parts").json()["detail"]


def test_a_shipment_says_all_that_the_terminal_says(office: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    shown = terminal(capsys, "shipments", "show", YOKOHAMA)
    told = text_of(office.get(f"/office/{YOKOHAMA}").text)
    for task in shown["tasks"]:
        assert task["title"] in told
        assert task["note"] in told
    for value in shown["references"].values():
        assert value in told
    assert all(sentence in told for sentence in shown["said"])
    assert office.get("/office/5").text == office.get(f"/office/{YOKOHAMA}").text


def test_what_is_done_on_the_page_is_done(office: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    task = task_of(terminal(capsys, "shipments", "show", CALGARY))
    line = {"line": task["id"], "who": "Nell"}
    told = office.post(f"/office/{CALGARY}/tick", json={**line, "seen": task["version"], "on": "2026-11-30"})
    assert told.status_code == 200
    now = next(one for one in terminal(capsys, "shipments", "show", CALGARY)["tasks"] if one["id"] == task["id"])
    assert (now["state"], now["done_on"], now["done_by"]) == ("done", "2026-11-30", "Nell")
    for path, body in (
        ("tick", {"state": "open"}),
        ("assign", {"to": "Per"}),
        ("note", {"text": "calls back on Friday"}),
        ("due", {"due": "2026-12-09"}),
    ):
        assert office.post(f"/office/{CALGARY}/{path}", json={**line, **body}).status_code == 200
    now = next(one for one in terminal(capsys, "shipments", "show", CALGARY)["tasks"] if one["id"] == task["id"])
    assert (now["state"], now["assigned"], now["due"]) == ("open", "Per", "2026-12-09")
    assert "calls back on Friday" in now["remark"]
    history = text_of(office.get(f"/office/{CALGARY}").text).partition("History")[2]
    assert history.count("Nell") >= 5


def test_of_two_who_change_one_line_the_second_is_told(office: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    """The register's own rule: a change is taken over the version that was looked at, or not at all."""
    task = task_of(terminal(capsys, "shipments", "show", CALGARY))
    seen = {"line": task["id"], "seen": task["version"]}
    assert office.post(f"/office/{CALGARY}/tick", json={**seen, "who": "Nell"}).status_code == 200
    for path, body in (
        ("tick", {}),
        ("note", {"text": "x"}),
        ("assign", {"to": "Per"}),
        ("due", {"due": "2026-12-09"}),
    ):
        refused = office.post(f"/office/{CALGARY}/{path}", json={**seen, **body, "who": "Per"})
        assert refused.status_code == 422
        assert "was changed at another desk meanwhile" in refused.json()["detail"]
    now = next(one for one in terminal(capsys, "shipments", "show", CALGARY)["tasks"] if one["id"] == task["id"])
    assert now["done_by"] == "Nell"
    assert run(["shipments", "tick", CALGARY, task["id"], "--seen", str(task["version"])]) == 2
    assert capsys.readouterr().err.strip().endswith(refused.json()["detail"].partition(": ")[2])


def test_moved_days_are_looked_at_first_and_taken_as_they_were_seen(
    office: TestClient, capsys: pytest.CaptureFixture[str]
) -> None:
    before = terminal(capsys, "shipments", "show", CALGARY)
    wanted = {"stage": "pickup", "days": 2}
    looked = office.post(f"/office/{CALGARY}/move", json={**wanted, "look": True}).text
    changed = json.loads(html.unescape(re.search(r'data-changed="([^"]*)"', looked)[1]))
    assert "Pickup: 2026-12-04 to 2026-12-05, was 2026-12-02 to 2026-12-03" in changed
    assert terminal(capsys, "shipments", "show", CALGARY) == before
    assert (
        terminal(capsys, "shipments", "move", CALGARY, "--stage", "pickup", "--days", "2", "--look")["changed"]
        == changed
    )
    assert terminal(capsys, "shipments", "show", CALGARY) == before
    terminal(capsys, "shipments", "move", CALGARY, "--stage", "pickup", "--days", "1")
    refused = office.post(f"/office/{CALGARY}/move", json={**wanted, "seen": changed})
    assert refused.status_code == 422
    assert "somebody changed them meanwhile" in refused.json()["detail"]
    fresh = office.post(f"/office/{CALGARY}/move", json={**wanted, "look": True}).text
    again = json.loads(html.unescape(re.search(r'data-changed="([^"]*)"', fresh)[1]))
    assert office.post(f"/office/{CALGARY}/move", json={**wanted, "seen": again}).status_code == 200
    assert terminal(capsys, "shipments", "show", CALGARY)["moments"]["pickup"][0] == "2026-12-05"


def test_news_is_looked_at_and_kept_with_its_letter(office: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    news = {"pickup": "2026-12-01"}
    told = terminal(capsys, "shipments", "news", CALGARY, "--picked-up", "2026-12-01", "--look")
    looked = text_of(office.post(f"/office/{CALGARY}/news", json={**news, "look": True}).text)
    assert all(line in looked for line in (*told["changed"], *told["said"]))
    assert all(line.strip() in looked for line in told["letter"].splitlines())
    assert "pickup" not in terminal(capsys, "shipments", "show", CALGARY)["recorded"]
    assert office.post(f"/office/{CALGARY}/news", json={**news, "who": "Nell"}).status_code == 200
    assert terminal(capsys, "shipments", "show", CALGARY)["recorded"]["pickup"] == "2026-12-01"
    still_to_come = office.post(f"/office/{CALGARY}/news", json={"delivery": "2026-12-24"})
    assert still_to_come.status_code == 422
    assert "is still to come" in still_to_come.json()["detail"]
    assert office.get(f"/office/{CALGARY}/booking").status_code == 409, "it was picked up"


def test_references_contacts_and_bills(office: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    named = {"references": {"booking": "TH-4471", "container": "CSQU3054383"}}  # the example of ISO 6346
    assert office.post(f"/office/{YOKOHAMA}/references", json=named).status_code == 200
    shown = terminal(capsys, "shipments", "show", YOKOHAMA)
    assert (shown["references"]["booking"], "CSQU 305438" in shown["references"]["container"]) == ("TH-4471", True)
    wrong = office.post(f"/office/{YOKOHAMA}/references", json={"references": {"container": "CSQU3054384"}})
    assert wrong.status_code == 422
    forwarder = {
        "role": "forwarder",
        "name": "Saltmarsh Forwarding",
        "telephone": "555 0100",
        "mail": "desk@saltmarsh.example",
    }
    assert office.post(f"/office/{YOKOHAMA}/contacts", json=forwarder).status_code == 200
    assert office.post(f"/office/{YOKOHAMA}/contacts", json=forwarder).status_code == 409
    page = text_of(office.get(f"/office/{YOKOHAMA}").text)
    assert "desk@saltmarsh.example" in page
    bill = {"carrier": "Tern Haulage", "kind": "linehaul", "amount": "1,234.50", "day": "2026-11-30", "who": "Nell"}
    assert office.post(f"/office/{YOKOHAMA}/bills", json=bill).status_code == 200
    capsys.readouterr()
    assert run(["costs", "list", YOKOHAMA, "--json"]) == 0
    kept = json.loads(capsys.readouterr().out)["bills"]
    assert [one["amount"] for one in kept] == ["1234.50"]
    page = text_of(office.get(f"/office/{YOKOHAMA}").text)
    assert "$1,234.50, linehaul" in page
    assert "bill kept, Nell" in page
    number = re.search(r'name="bill" value="(\d+)"', office.get(f"/office/{YOKOHAMA}").text)
    assert number
    assert office.post(f"/office/{YOKOHAMA}/bills/remove", json={"bill": number[1]}).status_code == 200
    assert office.post(f"/office/{YOKOHAMA}/bills/remove", json={"bill": number[1]}).status_code == 422


def test_a_yes_begins_a_shipment_and_a_no_has_its_reason(
    office: TestClient, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert run(["quotes", "list", "--json", "--as-of", DAY.isoformat()]) == 0
    ending = [one["number"] for one in json.loads(capsys.readouterr().out)["quotes"] if one["state"] == "open"]
    yes, no, later = ending[:3]
    asked = office.get(f"/office/quotes/{yes}").text
    assert asked.count("<option") >= 1
    told = office.post(f"/office/quotes/{yes}/accept", json={"choice": 1, "on": "2026-12-01", "by": "the buyer"})
    assert f"/office/{yes}" in told.text
    assert office.get(f"/office/{yes}").status_code == 200
    again = office.post(f"/office/quotes/{yes}/accept", json={"choice": 1})
    assert again.status_code == 409
    assert "was accepted already" in again.json()["detail"]
    assert office.post(f"/office/quotes/{no}/decline", json={"why": "bought another"}).status_code == 200
    assert office.post(f"/office/quotes/{later}/extend", json={"until": "2027-01-15"}).status_code == 200
    capsys.readouterr()
    run(["quotes", "list", "--json", "--as-of", DAY.isoformat()])
    states = {one["number"]: one["state"] for one in json.loads(capsys.readouterr().out)["quotes"]}
    assert (states[yes], states[no], states[later]) == ("accepted", "declined", "open")


def test_a_quote_is_priced_anew_as_the_terminal_would(office: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    told = text_of(office.post("/office/quotes/Q-2026-0011/revise", json={"who": "Nell"}).text)
    shown = terminal(capsys, "quotes", "show", "Q-2026-0011")
    assert f"${float(shown['options'][shown['recommended']]['total']):,.2f}" in told
    assert shown["as_of"] == DAY.isoformat()
    assert office.post(f"/office/quotes/{CALGARY}/revise", json={}).status_code == 409, "it was accepted"


def test_over_a_border_by_truck_the_letter_speaks_of_no_port(office: TestClient) -> None:
    told = office.post(f"/office/{CALGARY}/news", json={"pickup": "2026-12-01", "look": True}).text
    assert "at the border between" in text_of(told)
    assert "at the port" not in told


def test_papers_checklist_and_day_are_handed_out(office: TestClient) -> None:
    papers = office.get(f"/office/{CALGARY}/papers.zip")
    names = zipfile.ZipFile(io.BytesIO(papers.content)).namelist()
    assert "commercial-invoice.pdf" in names
    one = office.get(f"/office/{CALGARY}/papers/commercial-invoice")
    assert one.content.startswith(b"%PDF-")
    assert one.headers["content-disposition"].endswith(f'{CALGARY}-commercial-invoice.pdf"')
    assert office.get(f"/office/{CALGARY}/papers/no-such").status_code == 422
    page = office.get(f"/office/{CALGARY}").text
    assert 'href="#reference-notify"' in page, "what is missing leads to its field"
    assert 'id="reference-notify"' in page
    assert "shipcalc shipments set" not in text_of(page)
    book = openpyxl.load_workbook(io.BytesIO(office.get(f"/office/{CALGARY}/checklist.xlsx").content))
    assert "Checklist" in book.sheetnames
    assert b"BEGIN:VCALENDAR" in office.get(f"/office/{CALGARY}/checklist.ics").content
    assert office.get("/office/day.xlsx").content.startswith(b"PK")
    assert b"BEGIN:VCALENDAR" in office.get("/office/day.ics").content


def ticked_workbook(office: TestClient, title: str, state: str = "done") -> bytes:
    """The checklist as it is handed out, one line of it ticked in it."""
    book = openpyxl.load_workbook(io.BytesIO(office.get(f"/office/{CALGARY}/checklist.xlsx").content))
    sheet = book["Checklist"]
    rows = [[cell.value for cell in row] for row in sheet.iter_rows()]
    header = next(place for place, row in enumerate(rows) if "Done on" in row and "Who" in row)
    at = next(place for place, row in enumerate(rows) if title in row)
    column = next(place for place, value in enumerate(rows[header]) if str(value).startswith(("State", "Done"))) + 1
    sheet.cell(at + 1, column).value = state
    told = io.BytesIO()
    book.save(told)
    return told.getvalue()


def test_a_ticked_workbook_is_looked_at_then_taken(office: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    task = task_of(terminal(capsys, "shipments", "show", CALGARY))
    copy = ticked_workbook(office, task["title"])
    sent = {"file": ("../../ticked.xlsx", copy)}
    looked = office.post(f"/office/{CALGARY}/copies", files=sent, data={"look": "true"})
    assert looked.status_code == 200, looked.text
    assert task["title"] in text_of(looked.text)
    assert "This would change" in looked.text
    assert task_of(terminal(capsys, "shipments", "show", CALGARY)) == task
    assert office.post(f"/office/{CALGARY}/copies", files=sent, data={"who": "Nell"}).status_code == 200
    now = next(one for one in terminal(capsys, "shipments", "show", CALGARY)["tasks"] if one["id"] == task["id"])
    assert now["state"] == "done"
    assert "was read already" in text_of(office.post(f"/office/{CALGARY}/copies", files=sent).text)


def test_a_workbook_with_a_cell_in_doubt_is_refused_with_the_cell(
    office: TestClient, capsys: pytest.CaptureFixture[str]
) -> None:
    task = task_of(terminal(capsys, "shipments", "show", CALGARY))
    copy = ticked_workbook(office, task["title"], "perhaps")
    told = office.post(f"/office/{CALGARY}/copies", files={"file": ("ticked.xlsx", copy)}, data={"look": "true"})
    assert told.status_code == 422
    assert re.search(r"ticked\.xlsx › Checklist!\w+", told.json()["cells"][0])


def test_a_scan_stands_in_the_shipments_folder_and_comes_back(
    office: TestClient, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    task = task_of(terminal(capsys, "shipments", "show", CALGARY))
    sent = {"file": ("..\\..\\Rechnung für Macrae.pdf", PDF)}
    told = office.post(f"/office/{CALGARY}/files", files=sent, data={"line": task["id"], "who": "Nell"})
    assert told.status_code == 200, told.text
    (kept,) = terminal(capsys, "shipments", "files", CALGARY)["files"]
    assert kept["task"] == task["id"]
    assert kept["copied"]
    assert Path(kept["path"]).parent == tmp_path / "files" / CALGARY
    assert Path(kept["path"]).read_bytes() == PDF
    back = office.get(f"/office/{CALGARY}/files/{kept['sha256']}")
    assert back.content == PDF
    assert back.headers["content-disposition"].startswith("attachment")
    assert office.get(f"/office/{YOKOHAMA}/files/{kept['sha256']}").status_code == 409, "of another shipment"
    assert "file added, Nell" in text_of(office.get(f"/office/{CALGARY}").text)


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("scan.pdf", b"MZ\x90\x00 a program", "is no .pdf inside"),
        ("scan.exe", PDF, "is of no kind that can be taken"),
        ("scan.pdf", b"", "is empty"),
        ("scan.html", b"<script>alert(1)</script>", "is of no kind that can be taken"),
    ],
)
def test_what_is_no_scan_is_refused(office: TestClient, name: str, content: bytes, words: str) -> None:
    told = office.post(f"/office/{CALGARY}/files", files={"file": (name, content)})
    assert told.status_code == 422
    assert words in told.json()["detail"]


def test_a_file_that_was_only_named_is_not_handed_out(
    office: TestClient, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """The register may name any file of this machine: the desk gives away what lies in the shipment's folder alone."""
    secret = tmp_path / "secret.pdf"
    secret.write_bytes(PDF)
    terminal(capsys, "shipments", "files", CALGARY, str(secret))
    (kept,) = terminal(capsys, "shipments", "files", CALGARY)["files"]
    assert office.get(f"/office/{CALGARY}/files/{kept['sha256']}").status_code == 409


def test_what_nobody_can_mean_is_refused_on_the_page_and_in_the_terminal(
    office: TestClient, capsys: pytest.CaptureFixture[str]
) -> None:
    for path, told in (
        ("move", {"stage": "pickup", "days": 99_999_999}),
        ("move", {"stage": "pickup", "to": "9999-12-31"}),
        ("news", {"pickup": "0001-01-01"}),
        ("due", {"line": "60", "due": "0001-01-01"}),
    ):
        refused = office.post(f"/office/{CALGARY}/{path}", json=told)
        assert refused.status_code == 422
        assert "cannot be meant" in refused.json()["detail"]
    assert run(["shipments", "move", CALGARY, "--stage", "pickup", "--days", "99999999"]) == 2
    assert "99,999,999 days cannot be meant" in capsys.readouterr().err
    assert run(["papers", "Q-2026-0099"]) == 2
    assert "Q-2026-0099" in capsys.readouterr().err
    assert office.get("/office/Q-2026-0099/papers.zip").status_code == 422


def test_what_cannot_be_shown_is_a_page_with_the_sentence(office: TestClient) -> None:
    for number in ("Q-2026-0099", "Q-2026-0011", "no-number"):
        told = office.get(f"/office/{number}")
        assert told.status_code == 422
        assert 'href="/office"' in told.text
    assert "nobody has accepted it" in office.get("/office/Q-2026-0011").text


def test_an_empty_register_says_how_a_shipment_comes_to_be(client: TestClient, tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setenv("SHIPCALC_REGISTER", url_of_file(tmp_path / "empty.sqlite"))
    told = text_of(client.get("/office").text)
    assert "Nothing is under way yet" in told
    assert "A shipment begins when a buyer says yes to a kept quote" in told


def test_six_hundred_shipments_are_one_short_page(client: TestClient, tmp_path: Path, monkeypatch) -> None:
    url = url_of_file(tmp_path / "full.sqlite")
    monkeypatch.setenv("SHIPCALC_REGISTER", url)
    sources = invented_sources()
    made = made_quote(
        Order(vehicles=("HV-1027",), to="Bremen, Germany", buyer="K. Brandt"),
        sources,
        as_of=DAY,
        books=open_books(sources),
    )
    register = open_register(url)
    fill(register, made.quote, count=700, accepted=620, under_way=600, day=DAY)
    register.close()
    told = client.get("/office")
    assert "600 under way" in text_of(told.text)
    assert len(told.content) < 120_000
    assert "8 of 600 are shown" in text_of(told.text)
    assert len(client.get("/office?more=shipments,late").content) < 600_000


def test_what_people_type_is_text(office: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    task = task_of(terminal(capsys, "shipments", "show", CALGARY))
    nasty = '"><script>alert(1)</script>'
    assert office.post(f"/office/{CALGARY}/note", json={"line": task["id"], "text": nasty}).status_code == 200
    assert office.post(f"/office/{CALGARY}/references", json={"references": {"vessel": nasty}}).status_code == 200
    for page in (f"/office/{CALGARY}", "/office", "/office?text=%3Cscript%3Ealert(1)&person=%22%3E%3Cscript%3E"):
        told = office.get(page).text
        assert "<script>alert" not in told
        assert '"><script' not in told
        assert not re.search(r"\son\w+=|\sstyle=", told)


def test_pages_and_streams_are_asked_for_by_office_and_manager_alone() -> None:
    """`/office` and all below it is the office's: `who.NEEDED` says so by how an address begins."""
    from shipcalc.desk.who import role_needed

    assert role_needed("/office") == role_needed(f"/office/{CALGARY}/tick") == "office"
