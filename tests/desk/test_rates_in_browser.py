"""The rates page in a browser: a broken workbook is told by its cell, a sound one is put in force; and a dealer's own site asks."""

import io
import shutil
import threading
from collections.abc import Iterator
from datetime import date
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import openpyxl
import pytest
import uvicorn
from playwright.sync_api import expect

from shipcalc.actions.sources import Sources, find_sources
from shipcalc.desk.people import add_site
from shipcalc.desk.public import make_public
from tests.desk.conftest import AT, DAY, ROOT, OpenDesk
from tests.desk.test_accessible import findings


class OwnDesk(OpenDesk):
    """A desk of a dealer with a rate book of his own, in a folder of the test."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        super().__init__(folder / "register.sqlite")

    def _sources(self, day: date) -> Sources:
        return find_sources(folder=self.folder, as_of=day)


@pytest.fixture
def open_desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[OwnDesk]:
    for name in ("rates", "demo"):
        shutil.copytree(ROOT / name, tmp_path / name)
    monkeypatch.setenv("SHIPCALC_REGISTER", str(tmp_path / "register.sqlite"))
    desk = OwnDesk(tmp_path)
    desk.start()
    yield desk
    desk.stop()


def with_cell(file: Path, sheet: str, label: str, column: int, value: object) -> dict[str, object]:
    """Return a workbook, as a file that is chosen, in which the row that begins so has another value in a column."""
    book = openpyxl.load_workbook(file)
    row = next(row for row in book[sheet].iter_rows() if str(row[0].value or "").startswith(label))
    row[column - 1].value = value
    out = io.BytesIO()
    book.save(out)
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
    return {"name": file.name, "mimeType": kind, "buffer": out.getvalue()}


def test_a_broken_workbook_shows_its_cell_and_a_sound_one_is_adopted(open_page, open_desk: OwnDesk) -> None:
    page = open_page("/rates")
    trucking = open_desk.folder / "rates" / "trucking.xlsx"
    page.get_by_label("Workbooks from Excel").set_input_files(
        with_cell(trucking, "Carriers", "Three Puffins Haulage", 1, None)  # type: ignore[arg-type]
    )
    page.get_by_role("button", name="Send into the draft").click()
    expect(page.get_by_text("cannot make a quote")).to_be_visible()
    expect(page.locator("#now .faults th").filter(has_text="Carriers!A").first).to_be_visible()
    expect(page.get_by_role("button", name="Put it in force")).to_have_count(0)
    assert findings(page) == []

    page.get_by_label("Workbooks from Excel").set_input_files(
        with_cell(trucking, "Pricing", "Markup on linehaul", 2, 0.4)  # type: ignore[arg-type]
    )
    page.get_by_role("button", name="Send into the draft").click()
    page.get_by_role("button", name="Put it in force").click()
    expect(page.get_by_text("It counts from now on.")).to_be_visible()
    expect(page.get_by_role("button", name="Drop the draft")).to_have_count(0)
    assert openpyxl.load_workbook(trucking)["Pricing"]["B5"].parent.title == "Pricing"
    assert findings(page) == []


@pytest.fixture
def site(tmp_path: Path) -> Iterator[str]:
    """Return where a dealer's page is shown: the example of the demo, its script from a desk for sites."""
    (tmp_path / "shipcalc.toml").write_text('[dealer]\nname = "Heron & Vale Motors"\n')
    shown = tmp_path / "site"
    shown.mkdir()
    pages = ThreadingHTTPServer(("127.0.0.1", 0), partial(SimpleHTTPRequestHandler, directory=str(shown)))
    origin = f"http://127.0.0.1:{pages.server_address[1]}"
    key = add_site(tmp_path / "people.json", "our site", origin)
    outside = make_public(
        lambda day: find_sources(folder=tmp_path, as_of=day), today=lambda: DAY, now=lambda: AT, clock=lambda: 0.0
    )
    server = uvicorn.Server(uvicorn.Config(outside, port=0, log_level="error", access_log=False, lifespan="off"))
    threads = [threading.Thread(target=serve, daemon=True) for serve in (server.run, pages.serve_forever)]
    for thread in threads:
        thread.start()
    while not server.started:
        threads[0].join(0.02)
    port = server.servers[0].sockets[0].getsockname()[1]
    text = (ROOT / "demo" / "delivered-to.html").read_text()
    assert "127.0.0.1:8730" in text
    assert "YOUR-KEY" in text
    (shown / "index.html").write_text(text.replace("127.0.0.1:8730", f"127.0.0.1:{port}").replace("YOUR-KEY", key))
    yield origin
    server.should_exit = server.force_exit = True
    pages.shutdown()
    pages.server_close()
    for thread in threads:
        thread.join(15)


def test_a_dealers_own_page_says_what_delivery_costs(open_page, open_desk: OwnDesk, site: str) -> None:
    page = open_page("/")
    page.goto(site)
    page.get_by_label("Delivered to").fill("59715")
    page.get_by_role("button", name="What does it cost?").click()
    expect(page.get_by_text("to Bozeman, MT, there by")).to_be_visible()
    expect(page.get_by_text("$")).to_be_visible()
    page.get_by_label("Delivered to").fill("Portland")
    page.get_by_label("Delivered to").press("Enter")
    expect(page.get_by_text("Portland", exact=False).last).to_be_visible()
    assert findings(page) == []
