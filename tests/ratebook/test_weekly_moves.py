"""The week's figures in a book: which cells change, that nothing else does, and what does not go in without a word."""

import threading
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path
from shutil import copytree

import openpyxl
import pytest
from openpyxl.comments import Comment
from openpyxl.drawing.image import Image as Picture
from openpyxl.worksheet.table import Table
from PIL import Image

from shipcalc.actions.editions import adopt_rates, copy_rates
from shipcalc.actions.weekly import write_weekly
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.pricing.fuel import fuel_charges
from shipcalc.ratebook.book import read_rate_book
from shipcalc.ratebook.weekly import publishers
from shipcalc.ratebook.weekly.online import fetched
from shipcalc.records import replace
from tests.ratebook import weekly_files as files

SHIPPED = Path(__file__).parents[2] / "rates"
MONDAY, FRIDAY, TODAY = date(2026, 11, 30), date(2026, 11, 27), date(2026, 12, 1)
NEXT_WEEK = [*files.DIESEL_ROWS, (MONDAY, (3.899, 3.91, 4.04, 3.79, 4.44, 5.07, 3.97))]


@pytest.fixture
def folder(tmp_path):
    return copytree(SHIPPED, tmp_path / "mine")


@pytest.fixture
def diesel(tmp_path):
    return files.write_diesel_xls(tmp_path / "psw18vwall.xls", NEXT_WEEK)


@pytest.fixture
def rates(tmp_path):
    return files.write_rates_csv(tmp_path / "eurofxref.csv", files.NOVEMBER_2026, FRIDAY)


def write(folder, *named, **how):
    return write_weekly(folder, named, **{"online": False, "today": TODAY, **how})


def everything(path):
    """Every cell of a workbook with its value, look and note, and what a sheet has besides."""
    found = {}
    for sheet in openpyxl.load_workbook(path):
        for row in sheet.iter_rows():
            for cell in row:
                look = (cell.number_format, cell.font.b, cell.fill.fgColor.rgb, cell.alignment.wrap_text)
                note = cell.comment.text if cell.comment else None
                if cell.value is not None or note:
                    found[sheet.title, cell.coordinate] = (cell.value, look, note)
        found[sheet.title] = (
            [(str(rule.sqref), rule.formula1) for rule in sheet.data_validations.dataValidation],
            sheet.freeze_panes,
            {letter: width.width for letter, width in sheet.column_dimensions.items()},
        )
    return found


def bytes_of(folder):
    return {path.name: path.read_bytes() for path in sorted(folder.glob("*.xlsx"))}


def changed(before, after):
    return {key for key in before.keys() | after.keys() if before.get(key) != after.get(key)}


def test_rates_go_into_their_cells_with_day_and_source_and_nothing_else_changes(folder, rates):
    others, before = bytes_of(folder), everything(folder / "overseas.xlsx")
    done = write(folder, rates)
    after = everything(folder / "overseas.xlsx")

    moved = {move.series.name: cell for move, cell in zip(done.plan.moves, done.cells, strict=True)}
    assert sorted(moved) == ["CAD", "CHF", "EUR", "GBP", "JPY", "SEK"]
    rows = {cell.rpartition("!C")[2] for cell in moved.values()}
    headers = [
        cell.value.rstrip("\u00a0*") for cell in openpyxl.load_workbook(folder / "overseas.xlsx")["Currencies"][1]
    ]
    letters = {name: "ABCDEF"[headers.index(name)] for name in ("As of", "For one dollar", "Source", "Trust")}
    widths = before["Currencies"][2], after["Currencies"][2]
    assert {letter for letter in widths[1] if widths[1][letter] != widths[0].get(letter)} <= {letters["Source"]}
    assert before.pop("Currencies")[:2] == after.pop("Currencies")[:2]
    assert changed(before, after) == {("Currencies", f"{letter}{row}") for letter in letters.values() for row in rows}
    row = moved["CAD"].rpartition("!C")[2]
    cells = {name: after["Currencies", f"{letter}{row}"][0] for name, letter in letters.items()}
    assert cells["As of"].date() == FRIDAY
    # 1.5970 ÷ 1.1540 = 1.383882…: invented figures, divided by hand.
    assert cells["For one dollar"] == 1.383882
    assert cells["Source"] == "European Central Bank, euro reference rates: 1.5970 CAD and 1.1540 USD for 1 EUR"
    assert cells["Trust"] == "read"
    assert [path.name for path in done.written] == ["overseas.xlsx"]
    assert {name for name, content in bytes_of(folder).items() if content != others[name]} == {"overseas.xlsx"}
    assert "Not in eurofxref.csv" in done.plan.left[0]
    assert "KWD" in done.plan.left[0]


def test_a_currency_with_former_rates_gets_a_row_of_its_own(folder, rates):
    path = folder / "overseas.xlsx"
    book = openpyxl.load_workbook(path)
    sheet = book["Currencies"]
    last = sheet.max_row
    assert sheet.cell(2, 1).value != "CAD"
    sheet.append(["CAD", date(2026, 11, 16), 1.391, 0.015, None, "invented"])
    sheet.add_table(Table(displayName="Rates", ref=f"A1:F{last + 1}"))
    sheet.auto_filter.ref = None
    book.save(path)

    done = write(folder, rates)

    (move,) = [move for move in done.plan.moves if move.series.name == "CAD"]
    assert move.adds
    after = openpyxl.load_workbook(path)["Currencies"]
    assert [cell.value for cell in after[last + 2]][:4] == ["CAD", after.cell(last + 2, 2).value, 1.383882, 0.015]
    assert after.tables["Rates"].ref == f"A1:F{last + 2}"
    kept = [row for row in read_rate_book(folder).currencies if row.currency == "CAD"]
    assert [row.as_of for row in kept] == [date(2026, 11, 23), date(2026, 11, 16), FRIDAY]


def test_the_same_file_again_moves_nothing_and_writes_nothing(folder, diesel, rates):
    write(folder, diesel, rates)
    content = bytes_of(folder)

    again = write(folder, diesel, rates)

    assert (again.plan.moves, again.written) == ((), ())
    assert len(again.plan.same) > 6
    assert bytes_of(folder) == content


def test_a_figure_corrected_for_the_same_day_is_written_over(folder, diesel, tmp_path):
    write(folder, diesel)
    rows = read_rate_book(folder)
    corrected = [*NEXT_WEEK[:-1], (MONDAY, (3.901, *NEXT_WEEK[-1][1][1:]))]

    done = write(folder, files.write_diesel_xls(tmp_path / "again.xls", corrected))

    assert [(str(move.value), move.adds) for move in done.plan.moves] == [("3.9010", False)]
    assert len(read_rate_book(folder).diesel) == len(rows.diesel)


def test_figures_older_than_the_books_are_refused_unless_told(folder, tmp_path):
    old = files.write_rates_csv(tmp_path / "eurofxref.csv", files.NOVEMBER_2026, date(2026, 11, 20))
    before = bytes_of(folder)

    with pytest.raises(WrongInput, match="2026-11-20, and the book has 2026-11-23"):
        write(folder, old)
    assert bytes_of(folder) == before

    assert write(folder, old, older=True).written


def test_one_cell_that_is_later_than_the_file_stays_and_is_told(folder, rates):
    path = folder / "overseas.xlsx"
    book = openpyxl.load_workbook(path)
    (row,) = [row for row in book["Currencies"].iter_rows() if row[0].value == "CAD"]
    row[1].value = date(2026, 11, 30)
    book.save(path)

    done = write(folder, rates)

    assert "CAD" not in {move.series.name for move in done.plan.moves}
    assert any(f"Currencies!C{row[0].row} stays: it is of 2026-11-30" in told for told in done.plan.left)


def test_a_slipped_point_is_refused_unless_told(folder, tmp_path):
    slipped = files.write_rates_csv(tmp_path / "eurofxref.csv", {**files.NOVEMBER_2026, "CAD": "15.970"}, FRIDAY)
    before = bytes_of(folder)

    with pytest.raises(WrongInput, match=r"1\.384 → 13\.838821 \(\+899\.91 %\); nothing was written"):
        write(folder, slipped)
    assert bytes_of(folder) == before

    assert write(folder, slipped, jump=True).written


def test_the_largest_step_that_was_ever_published_passes(folder, tmp_path):
    """From 4.104 to 4.849 dollars within the week to 7 March 2022: published by the energy office, from memory."""
    first, second = files.DIESEL_ROWS[1:3]
    days = [(date(2026, 11, 23), first[1]), (MONDAY, second[1])]
    write(folder, files.write_diesel_xls(tmp_path / "first.xls", days[:1]))

    done = write(folder, files.write_diesel_xls(tmp_path / "second.xls", days))

    assert {str(move.percent) for move in done.plan.moves} == {"18.15"}


def test_a_day_to_come_is_refused(folder, rates):
    with pytest.raises(WrongInput, match="2026-11-27, a day to come"):
        write(folder, rates, today=date(2026, 11, 26))


def test_an_old_file_that_is_newer_than_the_book_is_written_and_told(folder, rates):
    done = write(folder, rates, today=date(2026, 12, 24))
    assert done.written
    assert any("27 days ago; look for a newer file" in told for told in done.plan.left)


def test_two_files_of_one_publisher_are_refused(folder, rates, tmp_path):
    other = files.write_rates_xml(tmp_path / "daily.xml", [(FRIDAY, files.NOVEMBER_2026)])
    with pytest.raises(WrongInput, match=r"has the same figures as eurofxref\.csv"):
        write(folder, rates, other)


def test_without_a_file_it_is_said_where_they_are(folder):
    with pytest.raises(WrongInput, match="psw18vwall"):
        write(folder)


def test_dollars_a_gallon_do_not_go_into_a_book_of_another_currency(folder, diesel):
    path = folder / "trucking.xlsx"
    book = openpyxl.load_workbook(path)
    next(row for row in book["Pricing"].iter_rows() if row[0].value == "Currency")[1].value = "EUR"
    book.save(path)

    done = write(folder, diesel)

    assert not done.plan.moves
    assert any("published in dollars, and the book's amounts are in EUR" in told for told in done.plan.left)


def formula_on(folder, sheet, cell, formula, result):
    """Put a formula into a workbook as Excel saves it, with its result."""
    from shipcalc.sheets.editing import open_draft

    draft = open_draft(folder / "overseas.xlsx")
    draft.put(sheet, cell, 1)
    draft._book[sheet][cell] = formula
    draft.show(sheet, cell, result)
    (folder / "overseas.xlsx").write_bytes(draft.to_bytes())


def test_results_of_formulas_elsewhere_are_kept(folder, rates):
    formula_on(folder, "Notes", "D3", "=1+1", "2")

    write(folder, rates)

    assert openpyxl.load_workbook(folder / "overseas.xlsx", data_only=True)["Notes"]["D3"].value == 2


def test_a_formula_that_reckons_with_the_sheet_is_refused_by_its_cell(folder, rates):
    formula_on(folder, "Notes", "D3", "=Currencies!C3*2", "3")
    before = (folder / "overseas.xlsx").read_bytes()

    with pytest.raises(WrongInput, match=r"overseas\.xlsx › Notes!D3: has a formula"):
        write(folder, rates)
    assert (folder / "overseas.xlsx").read_bytes() == before


def test_a_workbook_whose_pictures_would_be_lost_is_refused(folder, rates, tmp_path):
    path, picture = folder / "overseas.xlsx", tmp_path / "logo.png"
    Image.new("RGB", (8, 8), "red").save(picture)
    book = openpyxl.load_workbook(path)
    with Image.open(picture) as opened:
        book["Currencies"].add_image(Picture(opened), "H2")
        book.save(path)
    before = path.read_bytes()

    with pytest.raises(WrongInput, match="holds pictures, which would be lost"):
        write(folder, rates)
    assert path.read_bytes() == before


def test_notes_in_cells_stay(folder, rates):
    path = folder / "overseas.xlsx"
    book = openpyxl.load_workbook(path)
    book["Currencies"]["C6"].comment = Comment("ask the bank on Friday", "Odalys")
    book.save(path)

    write(folder, rates)

    assert openpyxl.load_workbook(path)["Currencies"]["C6"].comment.text == "ask the bank on Friday"


def test_the_former_book_is_kept_where_a_history_is(folder, tmp_path, rates):
    new = tmp_path / "new"
    copy_rates(folder, new, today=TODAY)
    target = tmp_path / "in-force"
    adopt_rates(str(new), target, today=TODAY)
    former = read_rate_book(target).fingerprint

    write(target, rates)

    assert read_rate_book(target).fingerprint != former
    assert read_rate_book(target / "kept" / former).fingerprint == former


@pytest.fixture
def server(rates) -> Iterator[str]:
    """A publisher on this machine: /eurofxref.csv gives a file, all else is not found."""

    class Answer(BaseHTTPRequestHandler):
        def do_GET(self):
            found = self.path == "/eurofxref.csv"
            self.send_response(200 if found else 404)
            self.end_headers()
            self.wfile.write(rates.read_bytes() if found else b"no such page")

        def log_message(self, *_: object) -> None:
            pass

    with HTTPServer(("127.0.0.1", 0), Answer) as listening:
        thread = threading.Thread(target=listening.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{listening.server_port}"
        listening.shutdown()
        thread.join()


def test_online_fetches_what_was_not_named(folder, diesel, server, monkeypatch):
    _, bank = publishers.PUBLISHERS
    reached = (
        replace(publishers.PUBLISHERS[0], address=f"{server}/gone.xls"),
        replace(bank, address=f"{server}/eurofxref.csv"),
    )
    monkeypatch.setattr(publishers, "PUBLISHERS", reached)

    done = write(folder, diesel, online=True)

    assert {move.series.subject for move in done.plan.moves} == {"diesel", "exchange"}


def test_what_cannot_be_reached_is_said_and_nothing_is_written(folder, server, monkeypatch):
    energy, bank = publishers.PUBLISHERS
    monkeypatch.setattr(
        publishers,
        "PUBLISHERS",
        (replace(bank, address=f"{server}/eurofxref.csv"), replace(energy, address=f"{server}/gone.xls")),
    )
    before = bytes_of(folder)

    with pytest.raises(NoAnswer, match=r"gone\.xls: could not be fetched \(it answers 404\); nothing was written"):
        write(folder, online=True)
    assert bytes_of(folder) == before


def test_no_connection_is_said_in_a_sentence():
    with pytest.raises(NoAnswer, match="no connection") as told:
        fetched("http://127.0.0.1:9/psw18vwall.xls", timeout_s=2)
    assert "download it with your browser" in str(told.value)


def charges_of(folder, day):
    book = read_rate_book(folder)
    return fuel_charges(book.fuel, day, book.diesel, book.fuel_steps)


def test_each_region_of_the_book_gets_its_price_and_the_former_one_counts_for_former_days(folder, diesel):
    before = charges_of(folder, date(2026, 11, 29))

    done = write(folder, diesel)

    assert [(move.series.name, str(move.value), move.adds) for move in done.plan.moves] == [
        ("Diesel", "3.8990", True),
        ("Diesel, West Coast", "4.4400", True),
    ]
    assert len(set(done.cells)) == 2
    former, newer = charges_of(folder, date(2026, 11, 29)), charges_of(folder, TODAY)
    assert {name: charge.rate_e4 for name, charge in former.items()} == {
        name: charge.rate_e4 for name, charge in before.items()
    }
    # By hand: (3.899 − 3.000) ÷ 6.5 = 0.1383 dollars a mile, (4.440 − 3.600) ÷ 6.5 = 0.1292; 3.899 is 10.76 steps of 0.13 above
    # 2.50, so 11 started ones, 11 %.
    assert newer["per mile"].rate_e4 == 1383
    assert newer["per mile, west coast"].rate_e4 == 1292
    assert Decimal(newer["percent steps"].percent_ppm).scaleb(-4) == 11


def give_own_prices(folder, schemes, *, drop_sheet):
    path = folder / "trucking.xlsx"
    book = openpyxl.load_workbook(path)
    sheet = book["Fuel"]
    columns = {cell.value.rstrip("\u00a0*"): cell.column for cell in sheet[1]}
    for row in sheet.iter_rows(min_row=2):
        if row[0].value in schemes or (drop_sheet and row[0].value):
            sheet.cell(row[0].row, columns["As of"], date(2026, 11, 23))
            sheet.cell(row[0].row, columns["Price ($ per gallon)"], 3.856)
            sheet.cell(row[0].row, columns["Diesel region"]).value = None
    if drop_sheet:
        del book["Diesel"]
    book.save(path)


def test_an_older_book_with_a_price_for_each_scheme_has_it_written_for_each(folder, diesel):
    give_own_prices(folder, (), drop_sheet=True)
    schemes = {row.scheme: row for row in read_rate_book(folder).fuel}

    done = write(folder, diesel)

    assert [move.series.row.scheme for move in done.plan.moves] == list(schemes)
    assert len(set(done.cells)) == len(schemes)
    rows = [row for row in read_rate_book(folder).fuel if row.as_of == MONDAY]
    assert {(row.scheme, row.price_e4, row.method, row.peg_e4) for row in rows} == {
        (row.scheme, 38_990, row.method, row.peg_e4) for row in schemes.values()
    }
    (steps,) = [row.source for row in rows if row.scheme == "Percent steps"]
    office = "US Energy Information Administration, retail on-highway diesel"
    assert steps == f"Steps: GSA Freight Management Program table; {office}"
    week_after = files.write_diesel_xls(
        diesel.parent / "later.xls", [*NEXT_WEEK, (date(2026, 12, 7), NEXT_WEEK[-1][1])]
    )
    write(folder, week_after, today=date(2026, 12, 8))
    assert [row.source for row in read_rate_book(folder).fuel if row.as_of == date(2026, 12, 7)].count(steps) == 1


def test_a_price_that_a_scheme_has_for_itself_stays_and_is_told(folder, diesel):
    give_own_prices(folder, ("Percent steps",), drop_sheet=False)

    done = write(folder, diesel)

    assert [move.series.name for move in done.plan.moves] == ["Diesel", "Diesel, West Coast"]
    assert done.plan.left == ("Not in psw18vwall.xls, and left as they are: Diesel, Percent steps.",)


def test_a_region_that_nobody_publishes_stays_and_is_told(folder, diesel):
    path = folder / "trucking.xlsx"
    book = openpyxl.load_workbook(path)
    for sheet in ("Diesel", "Fuel"):
        for row in book[sheet].iter_rows():
            for cell in row:
                if cell.value == "West Coast":
                    cell.value = "Puget Sound"
    book.save(path)

    assert "Diesel, Puget Sound" in write(folder, diesel).plan.left[0]
