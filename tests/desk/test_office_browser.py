"""The office's pages in a real browser: done by hand, by keyboard, by two people at once, and with the connection lost."""

import io
import re
import shutil
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from playwright.sync_api import Locator, Page, expect

from shipcalc.actions import kept_quotes, shipments
from shipcalc.actions.kept_quotes import Desk
from shipcalc.register.opening import url_of_file
from shipcalc.settings import Settings
from tests.desk.conftest import AT, DAY
from tests.desk.test_accessible import SCREENS, findings

CALGARY = "Q-2026-0013"
WAITS = "Q-2026-0012"
SCAN = {"name": "title.pdf", "mimeType": "application/pdf", "buffer": b"%PDF-1.7\n% an invented scan\n"}


@pytest.fixture
def office(open_desk, filled: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    """Who sits at another desk at the same register."""
    shutil.copyfile(filled, open_desk.register)
    monkeypatch.setenv("SHIPCALC_REGISTER", url_of_file(open_desk.register))
    return Desk(Settings(), DAY, AT, "Per")


@pytest.fixture
def opened(office: Desk, open_page):
    """Return what opens a page of somebody whose name the browser knows."""

    def opened(path: str = f"/office/{CALGARY}", who: str = "Nell", **more: Any) -> Page:
        page = open_page("/static/office.css", **more)
        page.evaluate(f"localStorage.setItem('who', '{who}')")
        page.goto(path)
        return ready(page)

    return opened


def ready(page: Page) -> Page:
    """Return the page once its script runs: what is pressed sooner does nothing."""
    expect(page.locator("#live[data-ready], main > .problem")).to_be_attached()
    return page


def task(page: Page, place: int = 0) -> Locator:
    return page.locator('[data-list="open"] > .task').nth(place)


def still_open(number: str, office: Desk) -> int:
    return sum(line.item.is_open for line in shipments.show(number, office).shipment.lines)


def test_a_yes_begins_a_shipment_and_the_name_is_asked_once(office: Desk, open_page) -> None:
    page = ready(open_page("/office"))
    quote = page.locator(f'[data-part="quote-{WAITS}"]')
    quote.get_by_text("The buyer has decided").click()
    quote.get_by_role("button", name="Accept").click()
    page.get_by_label("Name", exact=True).fill("Nell")
    page.get_by_role("button", name="That is me").click()
    page.get_by_role("link", name=f"To the shipment {WAITS}").click()
    expect(page.get_by_role("heading", name=WAITS)).to_be_visible()
    task(ready(page)).get_by_role("button", name="Done").click()
    expect(page.locator('[data-part="head"] .counts')).to_contain_text("1 done")
    done = [line.item for line in shipments.show(WAITS, office).shipment.lines if line.item.state == "done"]
    assert [item.done_by for item in done] == ["Nell"]


def test_a_task_is_ticked_by_keyboard_alone_and_the_focus_stays_in_the_list(opened, office: Desk) -> None:
    page = opened()
    before = still_open(CALGARY, office)
    first, second = (task(page, place).get_attribute("data-part") for place in (0, 1))
    task(page).get_by_role("button", name="Done").focus()
    page.keyboard.press("Enter")
    expect(page.locator(f'[data-list="closed"] [data-part="{first}"]')).to_be_attached()
    assert still_open(CALGARY, office) == before - 1
    focused = page.evaluate("document.activeElement.closest('[data-part]').dataset.part")
    assert focused == second
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(task(page).get_by_label("Note")).to_be_visible()
    page.get_by_role("button", name="Open it again").press("Enter")
    expect(page.locator("#note")).to_contain_text("It is open again")
    assert still_open(CALGARY, office) == before


def test_two_pages_see_each_others_changes_and_nothing_typed_is_lost(opened, office: Desk) -> None:
    one, two = opened(who="Nell"), opened(who="Joaquin")
    part = task(two).get_attribute("data-part")
    task(two).locator("summary").click()
    note = task(two).get_by_label("Note")
    note.fill("half a senten")
    task(one, 1).get_by_role("button", name="Done").click()
    expect(two.locator('[data-part="history"]')).to_contain_text("ticked, Nell")
    expect(note).to_have_value("half a senten")
    task(one).get_by_role("button", name="Done").click()
    mine = two.locator(f'.task[data-part="{part}"]').first
    expect(mine.locator(".changed")).to_contain_text("This was changed meanwhile. What you are typing stays.")
    expect(note).to_have_value("half a senten")
    mine.get_by_role("button", name="Write it").click()
    expect(mine.get_by_role("alert")).to_contain_text("was changed at another desk meanwhile")
    mine.get_by_role("button", name="Show the change").click()
    expect(two.locator(f'[data-part="{part}"]')).to_contain_text("Nell")


def test_a_terminals_change_is_seen(opened, office: Desk) -> None:
    page = opened("/office")
    quote = page.locator(f'[data-part="quote-{WAITS}"]')
    expect(quote).to_be_visible()
    kept_quotes.decline(WAITS, office, on=None, by="the buyer", why="bought another")
    expect(quote).to_have_count(0)


def test_what_happens_before_a_page_listens_is_not_missed(opened, office: Desk) -> None:
    page = opened("/office")
    with page.expect_request("**/events*") as asked:
        page.route(
            "**/events*", lambda route: (kept_quotes.decline(WAITS, office, on=None, by="", why=""), route.continue_())
        )
        page.reload()
    assert "after=" in asked.value.url
    expect(page.locator(f'[data-part="quote-{WAITS}"]')).to_have_count(0)


def test_news_is_looked_at_kept_and_told_to_the_buyer(opened, office: Desk) -> None:
    page = opened()
    page.get_by_text("Something came true").click()
    page.get_by_label("Picked up").fill(DAY.isoformat())
    page.get_by_role("button", name="What does it change?").click()
    news = page.locator('[data-part="news"]')
    expect(news.locator(".outcome")).to_contain_text("Pickup: 2026-12-01, was 2026-12-02")
    assert "pickup" not in shipments.show(CALGARY, office).shipment.recorded
    page.get_by_role("button", name="Keep this news").click()
    expect(page.locator(".way .came")).to_contain_text("Pickup")
    expect(page.locator("#told .letter")).to_contain_text("Gordon Macrae")
    assert shipments.show(CALGARY, office).shipment.recorded["pickup"] == DAY


def test_days_are_moved_as_they_were_seen(opened, office: Desk) -> None:
    page = opened()
    page.get_by_text("Another day for what is to come").click()
    page.get_by_label("What moves").select_option("pickup")
    page.get_by_label("Or by so many days").fill("2")
    page.get_by_role("button", name="What moves with it?").click()
    days = page.locator('[data-part="days"]')
    expect(days.locator(".outcome")).to_contain_text("Delivery: 2026-12-06 to 2026-12-11")
    page.get_by_label("Or by so many days").fill("3")
    expect(days.locator(".outcome")).to_be_empty()
    page.get_by_role("button", name="What moves with it?").click()
    page.get_by_role("button", name="Move these days").click()
    expect(page.locator(".way .next")).to_contain_text("5–6 Dec")


def test_a_ticked_workbook_is_uploaded_looked_at_and_taken(opened, office: Desk, tmp_path: Path) -> None:
    page = opened()
    with page.expect_download() as told:
        page.get_by_role("link", name="The workbook").click()
    book = openpyxl.load_workbook(io.BytesIO(Path(told.value.path()).read_bytes()))
    sheet = book["Checklist"]
    rows = [[cell.value for cell in row] for row in sheet.iter_rows()]
    header = next(row for row in rows if "Done on" in row and "Who" in row)
    line = next(line.item for line in shipments.show(CALGARY, office).shipment.lines if line.item.is_open)
    at = next(place for place, row in enumerate(rows) if line.title in row)
    column = next(place for place, value in enumerate(header) if str(value).startswith(("State", "Done"))) + 1
    for value, words in (("perhaps", re.compile("Checklist!")), ("done", re.compile("This would change"))):
        sheet.cell(at + 1, column).value = value
        content = io.BytesIO()
        book.save(content)
        file = {"name": "ticked.xlsx", "mimeType": "application/octet-stream", "buffer": content.getvalue()}
        page.get_by_label("A ticked workbook").set_input_files(file)
        page.get_by_role("button", name="What was ticked?").click()
        expect(page.locator('[data-part="checklist"] .outcome')).to_contain_text(words)
    page.get_by_role("button", name="Take what was ticked").click()
    expect(page.locator(f'[data-list="closed"] [data-part="task-{line.id}"]')).to_be_attached()


def test_a_scan_is_dropped_on_a_task_or_chosen(opened, office: Desk) -> None:
    page = opened()
    for place, name in ((0, "dropped.pdf"), (1, "title.pdf")):
        if place:
            task(page, place).locator("summary").click()
            task(page, place).get_by_label("Scan").set_input_files(SCAN)
            task(page, place).get_by_role("button", name="Keep it").click()
        else:
            made = "() => { const one = new DataTransfer(); one.items.add(new File(['%PDF-1.7'], 'dropped.pdf')); return one; }"
            task(page).dispatch_event("drop", {"dataTransfer": page.evaluate_handle(made)})
        expect(task(page, place).locator(".files")).to_contain_text(name)
    kept = shipments.show(CALGARY, office).papers
    assert [one.path.name for one in kept] == ["dropped.pdf", "title.pdf"]
    assert all(one.task for one in kept)
    with page.expect_download() as told:
        task(page, 1).locator(".files a").click()
    assert Path(told.value.path()).read_bytes() == SCAN["buffer"]


def test_a_lost_connection_is_said_and_caught_up_with(opened, office: Desk, open_desk) -> None:
    page = opened()
    part = task(page).get_attribute("data-part")
    open_desk.stop()
    expect(page.locator("#line")).to_contain_text("The connection to the desk is lost")
    task(page, 1).get_by_role("button", name="Done").click()
    expect(task(page, 1).get_by_role("alert")).to_contain_text("does not answer")
    line = shipments.show(CALGARY, office).shipment.lines
    named = next(one for one in line if f"task-{one.item.id}" == part)
    shipments.tick(CALGARY, named.item.id, office, state="done", on=DAY, by="Per")
    open_desk.start()
    expect(page.locator("#line")).to_contain_text("The connection is back")
    expect(page.locator(f'[data-list="closed"] [data-part="{part}"]')).to_be_attached()


@pytest.mark.parametrize(
    ("address", "screen"),
    [
        ("/office", SCREENS[1]),
        ("/office/Q-2026-0006", SCREENS[0]),
        ("/office/Q-2026-0006", SCREENS[-1]),  # a telephone's, by night
        (f"/office/{WAITS}", SCREENS[2]),
    ],
)
def test_the_filled_pages_have_no_serious_finding(opened, address: str, screen: tuple[int, bool]) -> None:
    width, dark = screen
    page = opened(address, width=width, dark=dark)
    page.evaluate("for (const one of document.querySelectorAll('.side details, .task > details')) one.open = true")
    assert findings(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
