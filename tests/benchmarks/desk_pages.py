"""How soon the call page can be used, how soon it answers, and how far what stands on it jumps: `python tests/benchmarks/desk_pages.py`.

In Chromium against a desk in the same process. The shift is the sum of all layout shifts (W3C, Layout Instability), also of those
that follow a key at once, which the score of a page leaves out; 0.1 is what is commonly taken as good (web.dev, "CLS").
"""

import shutil
import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, expect, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.desk.conftest import OpenDesk

ORDERS = (("at home", "HV-1042", "59715"), ("overseas", "HV-1027", "Bremen, Germany"))
TURNS = 7
WATCH = """
window.shifts = [];
new PerformanceObserver((list) => {
  for (const one of list.getEntries()) window.shifts.push([one.value, one.hadRecentInput]);
}).observe({ type: "layout-shift", buffered: true });
"""


def ready(page: Page) -> float:
    """Return the milliseconds until the page can be typed into: its document and its scripts have run."""
    page.goto("/", wait_until="load")
    return page.evaluate("performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd")


def answered(page: Page, vehicle: str, to: str) -> tuple[float, float]:
    """Return the milliseconds from asking to the whole answer of the desk, and those that the desk took until its first byte."""
    page.get_by_label("Vehicle", exact=True).fill(vehicle)
    page.get_by_label("To", exact=True).fill(to)
    expect(page.locator("#answer article")).to_be_visible()
    page.wait_for_load_state("networkidle")
    return tuple(
        page.evaluate(
            "(() => { const one = performance.getEntriesByType('resource').filter((each) => each.name.includes('/answer?')).at(-1);"
            " return [one.responseEnd - one.startTime, one.responseStart - one.requestStart]; })()"
        )
    )


def main() -> None:
    with tempfile.TemporaryDirectory() as kept, sync_playwright() as playwright:
        desk = OpenDesk(Path(kept) / "register.sqlite")
        desk.start()
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        for name, vehicle, to in ORDERS:
            opened, taken, waited, shifts, scored = [], [], [], [], []
            for _ in range(TURNS):
                page = browser.new_context(base_url=desk.url, viewport={"width": 1280, "height": 800}).new_page()
                page.add_init_script(WATCH)
                opened.append(ready(page))
                whole, first = answered(page, vehicle, to)
                taken.append(whole)
                waited.append(first)
                found = page.evaluate("window.shifts")
                shifts.append(sum(value for value, _ in found))
                scored.append(sum(value for value, after_input in found if not after_input))
                page.context.close()
            told = (f"{statistics.median(each):.0f} ms" for each in (opened, taken, waited))
            print("{}: page ready {}, answer {} (desk {})".format(name, *told), end="")  # noqa: T201
            print(f", shift {max(shifts):.3f} in all, {max(scored):.3f} without those after a key")  # noqa: T201
        browser.close()
        desk.stop()


if __name__ == "__main__":
    main()
