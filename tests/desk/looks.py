"""Pictures of the desk's pages in all their states, to be looked at: `python tests/desk/looks.py FOLDER`.

Wide and narrow, light and dark, into the folder: what no test sees is seen here.
"""

import shutil
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, expect, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.desk.conftest import OpenDesk

SCREENS = ((1280, 900), (390, 844))
LONG = "The Honourable Perpetua Wilhelmina Lindqvist-Featherstonehaugh of Oberlenz"


def type_order(page: Page, vehicle: str, to: str) -> None:
    page.get_by_label("Vehicle", exact=True).fill(vehicle)
    page.get_by_label("To", exact=True).fill(to)
    page.get_by_label("Ready").focus()


def answered(page: Page, vehicle: str, to: str) -> None:
    type_order(page, vehicle, to)
    expect(page.locator("#answer article")).to_be_visible()
    page.wait_for_load_state("networkidle")


def home(page: Page) -> None:
    answered(page, "HV-1042", "59715")


def overseas(page: Page) -> None:
    answered(page, "HV-1027", "Bremen, Germany")
    page.keyboard.press("Alt+u")
    expect(page.locator(".card")).to_contain_text("€")
    page.wait_for_load_state("networkidle")


def full(page: Page) -> None:
    page.get_by_label("Buyer", exact=True).fill(LONG)
    answered(page, "HV-1042, HV-1027, HV-1014, HV-1028, HV-1030", "Bremen, Germany")
    page.get_by_role("button", name="Keep it").click()
    expect(page.get_by_role("button", name="Q-2026-").first).to_be_visible()


def namesakes(page: Page) -> None:
    page.get_by_label("Vehicle", exact=True).fill("HV-1042")
    page.get_by_label("To", exact=True).press_sequentially("Portland")
    expect(page.get_by_role("listbox", name="Places")).to_be_visible()


def refused(page: Page) -> None:
    type_order(page, "HV-1042", "Tehran, Iran")
    expect(page.get_by_role("alert")).to_be_visible()


def typing(page: Page) -> None:
    page.get_by_label("Vehicle", exact=True).press_sequentially("roadster")
    expect(page.get_by_role("listbox", name="Vehicles in stock")).to_be_visible()


STATES = (lambda page: None, home, overseas, full, namesakes, refused, typing)


def main(folder: Path, only: str = "") -> None:
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as kept, sync_playwright() as playwright:
        desk = OpenDesk(Path(kept) / "register.sqlite")
        desk.start()
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        for state in STATES:
            name = "empty" if state.__name__ == "<lambda>" else state.__name__
            if only and name not in only.split(","):
                continue
            for width, height in SCREENS:
                for dark in (False, True):
                    context = browser.new_context(
                        base_url=desk.url,
                        viewport={"width": width, "height": height},
                        color_scheme="dark" if dark else "light",
                    )
                    page = context.new_page()
                    page.on("pageerror", lambda error: print("ERROR", error))  # noqa: T201
                    page.on("console", lambda told: print(told.type, told.text) if told.type == "error" else None)  # noqa: T201
                    page.goto("/")
                    state(page)
                    page.screenshot(path=folder / f"{name}-{width}-{'dark' if dark else 'light'}.png", full_page=True)
                    context.close()
        browser.close()
        desk.stop()


if __name__ == "__main__":
    main(Path(sys.argv[1]), *sys.argv[2:])
