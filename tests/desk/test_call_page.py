"""The call page in a real browser: what a salesperson does with one hand on the phone."""

import re

from playwright.sync_api import Page, expect

HOME, BREMEN = ("HV-1042", "59715"), ("HV-1027", "Bremen, Germany")


def type_order(page: Page, vehicle: str, to: str) -> None:
    page.get_by_label("Vehicle", exact=True).fill(vehicle)
    page.get_by_label("To", exact=True).fill(to)


def answered(page: Page, vehicle: str, to: str) -> None:
    type_order(page, vehicle, to)
    expect(page.locator("#answer article")).to_be_visible()


def what_if(page: Page, text: str):
    return page.get_by_role("group", name="What if").get_by_role("button", name=text)


def test_a_quote_at_home_stands_there_without_a_click(page: Page) -> None:
    type_order(page, *HOME)
    answer = page.locator("#answer")
    expect(answer.get_by_role("heading", name="To Bozeman")).to_be_visible()
    expect(answer.locator(".say p")).to_have_count(3)
    expect(answer.locator("dd.price")).to_contain_text(re.compile(r"^\$[\d,]+\.\d\d, open trailer, [\d,]+ miles"))
    expect(answer.locator(".pictures img")).to_have_count(3)
    expect(answer.locator(".customs")).to_have_count(0)
    page.wait_for_function(
        "[...document.querySelectorAll('.pictures img')].every((one) => one.complete && one.naturalWidth > 0)"
    )


def test_overseas_what_may_change_the_buyers_mind_stands_above_the_price_and_both_treatments_below(page: Page) -> None:
    answered(page, *BREMEN)
    answer = page.locator("#answer")
    expect(answer.get_by_role("heading", name="To Bremen, Germany")).to_be_visible()
    above, price = answer.locator(".caution").bounding_box(), answer.locator("dd.price").bounding_box()
    assert above["y"] < price["y"]
    expect(answer.locator(".customs thead th")).to_have_text(["Duty or tax", "Ordinary, counted", "Collector's piece"])
    expect(answer.get_by_alt_text(re.compile("^A map of the way: .*Bremerhaven"))).to_be_visible()


def test_a_namesake_is_chosen_by_key_with_its_state_country_and_size(page: Page) -> None:
    page.get_by_label("Vehicle", exact=True).fill("HV-1042")
    to = page.get_by_label("To", exact=True)
    to.press_sequentially("Portland")
    options = page.get_by_role("listbox", name="Places").get_by_role("option")
    expect(options.nth(0)).to_contain_text("Oregon, United States")
    expect(options.nth(1)).to_contain_text("Maine, United States")
    expect(options.nth(1)).to_contain_text(re.compile(r"\d\d,000 people"))
    expect(page.get_by_text("which one is meant")).to_be_visible()
    to.press("ArrowDown")
    to.press("ArrowDown")
    expect(options.nth(1)).to_have_attribute("aria-selected", "true")
    to.press("Enter")
    expect(to).to_have_value("Portland, ME")
    expect(page.get_by_role("heading", name="To Portland, ME")).to_be_visible()
    page.get_by_role("button", name="New call").click()
    to.focus()
    expect(page.get_by_role("listbox", name="Places").get_by_role("option")).to_contain_text(["Maine, United States"])


def test_a_vehicle_is_found_by_its_name_and_several_stand_in_one_field(page: Page) -> None:
    field = page.get_by_label("Vehicle", exact=True)
    field.press_sequentially("minow")
    offered = page.get_by_role("listbox", name="Vehicles in stock").get_by_role("option")
    expect(offered.first).to_contain_text("Larkspur Minnow")
    field.press("ArrowDown")
    field.press("Enter")
    expect(field).to_have_value(re.compile(r"^HV-\d{4}$"))
    field.press_sequentially(", isarwind")
    expect(offered.first).to_contain_text("Isarwind")
    field.press("ArrowDown")
    field.press("Enter")
    expect(field).to_have_value(re.compile(r"^HV-\d{4}, HV-\d{4}$"))
    page.get_by_label("To", exact=True).fill("98225")
    expect(page.locator(".vehicles")).to_contain_text("two vehicles")


def test_what_cannot_be_answered_is_said_in_a_sentence_in_place_of_the_price(page: Page) -> None:
    answered(page, *HOME)
    page.get_by_label("To", exact=True).fill("Tehran, Iran")
    page.get_by_label("To", exact=True).press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("Tehran")
    expect(page.locator("dd.price")).to_have_count(0)
    expect(page.get_by_role("button", name="Keep it")).to_be_disabled()
    page.get_by_label("To", exact=True).fill("59715")
    page.get_by_label("Ready").fill("3/4")
    page.get_by_label("Ready").press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("can be 2027-03-04 or 2027-04-03")


def test_what_ifs_are_one_key_each_and_show_what_they_change(page: Page) -> None:
    answered(page, *HOME)
    page.get_by_label("To", exact=True).press("Alt+n")
    expect(what_if(page, "enclosed")).to_have_attribute("aria-pressed", "true")
    expect(page.locator(".beside")).to_contain_text(re.compile(r"It costs \$[\d,.]+ more and .* than before"))
    expect(page.locator("dd.price")).to_contain_text("enclosed")
    page.locator("#answer").click(position={"x": 2, "y": 2})
    page.evaluate("document.activeElement.blur()")
    page.keyboard.press("n")
    expect(what_if(page, "enclosed")).to_have_attribute("aria-pressed", "false")
    for key, usual, on, told in (
        ("x", "by Christmas", "by Christmas", "25 Dec 2026"),
        ("c", "collected", "collected", "Fetch it"),
        ("t", "to a terminal", "to a terminal", "terminal"),
        ("u", "their currency", "in EUR", "€"),
        ("y", "another yard", "from Savannah", "2,"),
    ):
        page.keyboard.press(key)
        expect(what_if(page, on)).to_have_attribute("aria-pressed", "true")
        expect(page.locator("#answer")).to_contain_text(told)
        expect(page.locator("#answer")).to_have_attribute("aria-busy", "false")
        page.keyboard.press(key)
        expect(what_if(page, usual)).to_have_attribute("aria-pressed", "false")


def test_letters_by_themselves_can_be_turned_off(page: Page) -> None:
    """WCAG 2.1, 2.1.4: a shortcut of a letter alone can be turned off."""
    answered(page, *HOME)
    page.get_by_label("Letters work by themselves").uncheck()
    page.evaluate("document.activeElement.blur()")
    page.keyboard.press("n")
    expect(what_if(page, "enclosed")).to_have_attribute("aria-pressed", "false")
    page.keyboard.press("Alt+n")
    expect(what_if(page, "enclosed")).to_have_attribute("aria-pressed", "true")


def test_a_choice_is_shown_by_its_number(page: Page) -> None:
    answered(page, *HOME)
    page.evaluate("document.activeElement.blur()")
    page.keyboard.press("3")
    expect(page.locator("tr.shown")).to_have_attribute("data-choice", "3")
    expect(page.locator(".why")).to_contain_text("You see choice 3.")
    page.get_by_role("button", name="Choice 1, recommended").click()
    expect(page.locator("tr.shown")).to_have_attribute("data-choice", "1")


def test_the_keyboard_alone_keeps_a_quote_in_under_fifteen_strokes(page: Page) -> None:
    """Counted beside the typed place: the vehicle's figures, on to the place, and keep it."""
    strokes = ["1", "0", "4", "2", "Tab", "Alt+k"]
    assert len(strokes) < 15
    *before, keep = strokes
    expect(page.get_by_label("Vehicle", exact=True)).to_be_focused()
    for stroke in before:
        page.keyboard.press(stroke)
    page.keyboard.type("Bozeman, MT")
    expect(page.get_by_role("heading", name="To Bozeman")).to_be_visible()
    page.keyboard.press(keep)
    expect(page.get_by_role("status").first).to_contain_text("Kept as Q-2026-0001.")


def test_what_is_kept_at_once_is_what_was_typed_and_not_what_still_stands_there(page: Page) -> None:
    answered(page, *HOME)
    page.get_by_label("To", exact=True).fill("98225")
    page.keyboard.press("Alt+k")
    expect(page.locator("#done")).to_contain_text("Kept as Q-2026-0001.")
    expect(page.get_by_role("heading", name="To Bellingham")).to_be_visible()
    expect(page.locator("#earlier")).to_contain_text("to Bellingham")
    expect(page.locator("#earlier")).not_to_contain_text("Bozeman")


def test_what_is_kept_is_found_by_its_buyer_and_revised(page: Page) -> None:
    page.get_by_label("Buyer", exact=True).fill("Perpetua Lindqvist")
    answered(page, *HOME)
    price = page.locator("dd.price").inner_text()
    page.get_by_role("button", name="Keep it").click()
    expect(page.locator("#done")).to_contain_text("Kept as Q-2026-0001.")
    expect(page.locator(".kept")).to_contain_text("Q-2026-0001")
    expect(page.get_by_role("button", name="Keep it")).to_be_disabled()

    page.get_by_role("button", name="New call").click()
    expect(page.get_by_label("Vehicle", exact=True)).to_have_value("")
    page.get_by_label("Buyer", exact=True).fill("lindqvist")
    expect(page.get_by_role("heading", name="Earlier quotes of lindqvist")).to_be_visible()
    page.get_by_role("button", name="Q-2026-0001").click()
    expect(page.locator("dd.price")).to_have_text(price)
    expect(page.get_by_label("Vehicle", exact=True)).to_have_value("HV-1042")
    expect(page.get_by_label("To", exact=True)).to_have_value("Bozeman, MT 59715")
    expect(page.get_by_role("button", name="Revise")).to_be_disabled()

    page.keyboard.press("Alt+n")
    expect(page.locator(".beside")).to_contain_text("more and")
    page.keyboard.press("Alt+v")
    expect(page.locator("#done")).to_contain_text("Kept as Q-2026-0001 r2:")
    expect(page.locator("#earlier")).to_contain_text("r2")


def test_the_pdf_and_the_message_are_of_the_answer(open_page, open_desk) -> None:
    page = open_page(permissions=["clipboard-read", "clipboard-write"])
    answered(page, *BREMEN)
    page.get_by_role("button", name="Keep it").click()
    expect(page.locator("#done")).to_contain_text("Kept as")
    with page.expect_download() as download:
        page.get_by_role("button", name="PDF").click()
    assert download.value.path().read_bytes().startswith(b"%PDF-")
    page.get_by_role("button", name="Copy message").click()
    expect(page.locator("#done")).to_contain_text("Copied:")
    text = page.evaluate("navigator.clipboard.readText()")
    assert "Q-2026-0001" in text
    html = page.evaluate(
        "navigator.clipboard.read().then((all) => all[0].getType('text/html')).then((one) => one.text())"
    )
    assert "<table" in html


def test_a_desk_that_is_gone_is_said_and_one_that_is_back_goes_on_by_itself(page: Page, open_desk) -> None:
    answered(page, *HOME)
    open_desk.stop()
    page.get_by_label("To", exact=True).fill("98225")
    expect(page.get_by_role("alert")).to_contain_text("does not answer")
    open_desk.start()
    expect(page.get_by_role("heading", name="To Bellingham")).to_be_visible()


def test_two_pages_ask_and_keep_side_by_side(open_page) -> None:
    one, other = open_page(), open_page()
    type_order(one, *HOME)
    type_order(other, *BREMEN)
    expect(one.get_by_role("heading", name="To Bozeman")).to_be_visible()
    expect(other.get_by_role("heading", name="To Bremen")).to_be_visible()
    for page, number in ((one, "Q-2026-0001"), (other, "Q-2026-0002")):
        page.get_by_role("button", name="Keep it").click()
        expect(page.locator("#done")).to_contain_text(number)
    expect(other.locator("#earlier")).to_contain_text("Q-2026-0001")


def test_the_last_question_is_the_one_that_is_answered(page: Page) -> None:
    """An answer that comes late belongs to a question that was given up: it must not stand under the new one."""
    slow: list = []
    page.route("**/answer?*", lambda route: slow.append(route) if not slow else route.continue_())
    type_order(page, *HOME)
    expect(page.locator("#answer")).to_have_attribute("aria-busy", "true")
    page.wait_for_function("performance.now() > 0")
    page.get_by_label("To", exact=True).fill("98225")
    expect(page.get_by_role("heading", name="To Bellingham")).to_be_visible()
    slow[0].abort()
    expect(page.get_by_role("heading", name="To Bellingham")).to_be_visible()
    expect(page.locator("#answer")).to_have_attribute("aria-busy", "false")


def test_the_first_start_shows_the_invented_dealer_and_how_to_put_in_ones_own_list(page: Page) -> None:
    expect(page.locator("#answer")).to_contain_text("shipcalc setup")
    page.get_by_role("button", name="HV-1027 to Bremen, Germany").click()
    expect(page.get_by_role("heading", name="To Bremen, Germany")).to_be_visible()
