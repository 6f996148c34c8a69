"""The call page in a real browser."""

import re

from playwright.sync_api import Page, expect


def type_order(page: Page, vehicle: str, to: str) -> None:
    page.get_by_label("Vehicle").fill(vehicle)
    page.get_by_label("To", exact=True).fill(to)


def test_a_quote_at_home_stands_there_without_a_click(page: Page) -> None:
    type_order(page, "HV-1042", "59715")
    answer = page.locator("#answer")
    expect(answer.get_by_role("heading", name="To Bozeman")).to_be_visible()
    expect(answer).to_contain_text(re.compile(r"\$[\d,]+\.\d\d"))


def test_a_desk_that_is_gone_is_said_and_one_that_is_back_goes_on(page: Page, open_desk) -> None:
    type_order(page, "HV-1042", "59715")
    expect(page.get_by_role("heading", name="To Bozeman")).to_be_visible()
    open_desk.stop()
    page.get_by_label("To", exact=True).fill("98225")
    expect(page.get_by_role("alert")).to_contain_text("does not answer")
    open_desk.start()
    page.get_by_label("To", exact=True).fill("97201")
    expect(page.get_by_role("heading", name="To Portland")).to_be_visible()
