"""Every page of the desk, light and dark, on a usual screen and a telephone's: no serious finding of axe-core.

axe-core (Deque, MPL-2.0) holds a page to WCAG 2.0 to 2.2, levels A and AA; it comes with axe-playwright-python.
"""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from shipcalc.desk.rendering import PAGES

GRAVE = ("serious", "critical")
SCREENS = [(width, dark) for width in (1280, 390) for dark in (False, True)]


def findings(page: Page) -> list[str]:
    """Return what axe-core takes for serious or critical, each with the spots it is at."""
    told = Axe().run(page).response["violations"]
    return [f"{one['id']}: {[node['target'] for node in one['nodes']]}" for one in told if one["impact"] in GRAVE]


def check_on_every_screen(page: Page) -> None:
    """Hold a page to all of it: one page that turns dark and narrow, which is sooner opened than four."""
    for width, dark in SCREENS:
        page.set_viewport_size({"width": width, "height": 800})
        page.emulate_media(color_scheme="dark" if dark else "light")
        assert findings(page) == [], (width, dark)
        assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("address", [address for address, _ in PAGES])
def test_a_page_has_no_serious_finding_and_is_no_wider_than_the_screen(open_page, address: str) -> None:
    check_on_every_screen(open_page(address))


@pytest.mark.parametrize(
    ("vehicles", "to"), [("HV-1042", "Portland"), ("HV-1042, HV-1027, HV-1014, HV-1028, HV-1030", "Bremen, Germany")]
)
def test_the_call_page_has_none_with_its_lists_open_and_full_of_figures(page: Page, vehicles: str, to: str) -> None:
    page.get_by_label("Vehicle", exact=True).fill(vehicles)
    page.get_by_label("To", exact=True).press_sequentially(to)
    expect(page.locator("#answer article, #answer .problem")).to_be_visible()
    expect(page.locator("#answer")).to_have_attribute("aria-busy", "false")
    expect(page.get_by_role("listbox", name="Places")).to_be_visible()
    page.evaluate("document.querySelectorAll('#answer details').forEach((one) => { one.open = true; })")
    check_on_every_screen(page)


def test_a_fault_would_be_found(page: Page) -> None:
    page.evaluate("document.querySelector('main').innerHTML = '<img src=\"/none.png\"><input>'")
    assert {one.split(":")[0] for one in findings(page)} >= {"image-alt", "label"}
