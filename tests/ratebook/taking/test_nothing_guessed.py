"""What a mail does not say beyond doubt is named and not taken; nothing is left without a word. Mails made up here."""

from .reading import told, understood, workbook

HEAD = [("Coastal Wren Carriers LLC",), ("USD, fuel included, open transport, valid December 2026",), ()]
NO_CURRENCY = [("Coastal Wren Carriers LLC",), ("Fuel included, open transport, valid December 2026",), ()]


def named(found, *, taken=False):
    return {item.where.removeprefix("Rates!"): item.why for item in found.left_out if item.is_taken == taken}


def test_a_zip_of_four_figures_typed_as_text_is_named_and_not_taken(tmp_path):
    rows = [*HEAD, ("Origin ZIP", "Dest ZIP", "Rate"), ("98109", "5980", 900), ("98109", "59801", 870)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [told(rate)[2:] for rate in found.rates] == [("98109", "59801", "870")]
    assert "four figures" in named(found)["B5"]


def test_a_zip_whose_zero_a_spreadsheet_dropped_is_read_and_told(tmp_path):
    # ZIPs of Massachusetts begin with 01 and 02, those of Washington with 98 (U.S. Postal Service, Publication 65).
    rows = [*HEAD, ("Origin ZIP", "Dest ZIP", "Rate"), (98109, 2139, 1900), (98109, 10001, 1850)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [told(rate)[2:] for rate in found.rates] == [("98109", "02139", "1900"), ("98109", "10001", "1850")]
    assert "lost its first zero" in named(found, taken=True)["B5"]


def test_a_number_of_four_figures_beside_a_state_without_such_zips_is_not_taken(tmp_path):
    head = ("Origin ZIP", "Dest State", "Dest ZIP", "Rate")
    rows = [*HEAD, head, (98109, "MT", 5980, 900), (98109, "VT", 5401, 1950), (98109, "NY", 10001, 1850)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [told(rate)[3] for rate in found.rates] == ["05401", "10001"]
    assert "four figures" in named(found)["B5"]


def test_a_row_without_a_currency_among_rows_that_name_one_is_not_taken(tmp_path):
    head = ("From", "To", "Rate", "Currency")
    rows = [head, ("Seattle, WA", "Reno, NV", 900, "USD"), ("Seattle, WA", "Boise, ID", 700, None)]
    found = understood(workbook(tmp_path / "a.xlsx", [*NO_CURRENCY, *rows]))

    assert [(rate.flat, rate.currency) for rate in found.rates] == [(900, "USD")]
    assert "names no currency" in named(found)["C6"]


def test_a_price_that_names_its_currency_itself_needs_none_beside_it(tmp_path):
    head = ("From", "To", "Rate", "Currency")
    rows = [head, ("Seattle, WA", "Reno, NV", 900, "USD"), ("Seattle, WA", "Boise, ID", "EUR 700", None)]
    found = understood(workbook(tmp_path / "a.xlsx", [*NO_CURRENCY, *rows]))

    assert [(rate.flat, rate.currency) for rate in found.rates] == [(900, "USD"), (700, "EUR")]
