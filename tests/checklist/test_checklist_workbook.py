import zipfile
from datetime import date

import openpyxl
import pytest

from shipcalc.checklist.columns import HEADERS, LAST_VERSION, SHEET
from shipcalc.checklist.items import STATES
from shipcalc.checklist.making import checklist, shipment_key
from shipcalc.documents.checklist.vehicle_outlines import CAR, END_CELLS, MOTORCYCLE, SIDE_CELLS, TALL, outline_for
from shipcalc.documents.checklist.workbook import write_checklist_workbook
from shipcalc.records import replace

ID = list(HEADERS).index("id")


@pytest.fixture
def write(tmp_path):
    def written(quote, name="checklist.xlsx", paper="letter"):
        path = tmp_path / name
        write_checklist_workbook(quote, 0, path, paper=paper)
        return path

    return written


def rows(sheet, first=6):
    return [row for row in sheet.iter_rows(min_row=first, values_only=True) if row[ID]]


def test_every_item_has_its_line_in_order_with_its_id(write, make_shipment):
    quote = make_shipment()
    sheet = openpyxl.load_workbook(write(quote))[SHEET]
    assert [row[ID] for row in rows(sheet)] == [item.id for item in checklist(quote, quote.options[0])]
    assert [cell.value for cell in sheet[5]] == list(HEADERS.values())


def test_only_the_programs_own_sheet_is_out_of_sight_and_of_print_and_anybody_can_show_it(
    write, make_shipment, printed
):
    """Office Open XML (ECMA-376 part 1, 18.18.68): a `hidden` sheet is shown again by the user, a `veryHidden` one is not."""
    quote = make_shipment()
    path = write(quote)
    book = openpyxl.load_workbook(path)
    for sheet in book:
        assert sheet.sheet_state == ("hidden" if sheet.title == LAST_VERSION else "visible")
        assert not any(column.hidden for column in sheet.column_dimensions.values())
    told = {row[0]: row[1] for row in book[LAST_VERSION].iter_rows(values_only=True, max_col=2)}
    assert (told["Shipment"], told["Version"]) == (shipment_key(quote, quote.options[0]), 1)
    pages = printed([path])[path.name]
    assert any("Handover" in page for page in pages)
    assert not any("For the program, not for people" in page for page in pages)


def test_the_state_is_chosen_from_a_list(write, make_shipment):
    sheet = openpyxl.load_workbook(write(make_shipment()))[SHEET]
    offered = {rule.formula1 for rule in sheet.data_validations.dataValidation}
    assert offered == {'"' + ",".join(STATES) + '"'}
    assert {row[1] for row in rows(sheet)} == {"open"}


def test_each_of_several_vehicles_has_its_handover_and_its_securing_sheet(write, make_shipment, fleet):
    names = openpyxl.load_workbook(write(make_shipment(*fleet))).sheetnames
    assert names[:4] == ["Shipment", "Checklist", "Papers", "Contacts"]
    assert {f"{sheet} {vehicle.stock_number}" for sheet in ("Handover", "Securing") for vehicle in fleet} == set(
        names[4:-1]
    )
    assert names[-1] == LAST_VERSION
    assert openpyxl.load_workbook(write(make_shipment(fleet[0]))).sheetnames[4:-1] == ["Handover", "Securing"]


def test_text_that_begins_like_a_formula_stays_text(write, make_shipment, fleet):
    odd = replace(fleet[0], make="=HYPERLINK(1)", model="+1", serial="-2", stock_number="@SUM(A1)")
    quote = make_shipment(odd, buyer="=1+1")
    book = openpyxl.load_workbook(write(quote))
    assert [row[1].value for row in book["Contacts"] if row[0].value == "Buyer"] == ["=1+1"]
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "f":
                    assert "HYPERLINK" not in cell.value
                    assert cell.value != "=1+1"


def test_no_price_is_in_it(write, make_shipment):
    with zipfile.ZipFile(write(make_shipment())) as parts:
        content = "".join(parts.read(name).decode("utf-8", "replace") for name in parts.namelist())
    for secret in ("3219.87", "3,219.87", "643.97"):
        assert secret not in content


def test_the_same_shipment_gives_the_same_bytes(write, make_shipment):
    assert write(make_shipment(), "one.xlsx").read_bytes() == write(make_shipment(), "two.xlsx").read_bytes()


@pytest.mark.parametrize(("paper", "number"), [("letter", 1), ("a4", 9)])  # ECMA-376 part 1, 18.3.1.63
def test_it_prints_on_the_dealers_paper(write, make_shipment, paper, number):
    book = openpyxl.load_workbook(write(make_shipment(), paper=paper))
    assert {sheet.page_setup.paperSize for sheet in book} == {number}


def test_a_quote_without_number_buyer_or_weight_is_written_too(write, make_shipment, fleet):
    bare = replace(fleet[0], mass_grams=None, body="", make="", model="", year=None)
    book = openpyxl.load_workbook(write(make_shipment(bare, number=None, buyer="")))
    assert book["Securing"]["C6"].value is None


@pytest.mark.parametrize("outline", [CAR, TALL, MOTORCYCLE])
def test_the_drawings_keep_to_their_grid(outline):
    for mask, width in (
        (outline.side, SIDE_CELLS),
        (outline.above, SIDE_CELLS),
        (outline.front, END_CELLS),
        (outline.rear, END_CELLS),
    ):
        assert {len(line) for line in mask} == {width}
        assert set("".join(mask)) <= set("#gw.")
    assert len(outline.front) <= len(outline.side)
    assert len(outline.rear) <= len(outline.above)


@pytest.mark.parametrize(
    ("body", "outline"),
    [("roadster", CAR), ("Camper, high roof", TALL), ("off-roader", TALL), ("motorcycle", MOTORCYCLE), ("", CAR)],
)
def test_a_body_has_the_drawing_that_comes_closest(body, outline):
    assert outline_for(body) is outline


def test_an_independent_spreadsheet_counts_as_the_office_does(write, make_shipment, saved_elsewhere):
    """All due dates lie years back, so every open line is overdue; two lines are closed, four straps of 1,000 lb are on."""
    quote = make_shipment(agreed=date(2020, 12, 1), ready=date(2020, 12, 3))
    path = write(quote)
    book = openpyxl.load_workbook(path)
    ticked = [row for row in book[SHEET].iter_rows(min_row=6) if row[ID].value in ("photographs", "claim")]
    for row, state in zip(ticked, ("done", "not needed"), strict=True):
        row[1].value = state
    for row in range(9, 13):
        book["Securing"][f"C{row}"] = 1000
    book.save(path)

    seen = openpyxl.load_workbook(saved_elsewhere([path]) / path.name, data_only=True)
    count = len(rows(seen[SHEET]))
    told = {seen["Shipment"].cell(row + 1, column).value: seen["Shipment"].cell(row, column).value
            for row in range(1, 30) for column in range(1, 6)}  # fmt: skip
    assert (told["to do"], told["overdue"], told["due today"], told["done"], told["not needed"]) == (
        count - 2,
        count - 2,
        0,
        1,
        1,
    )
    assert {row[0] for row in rows(seen[SHEET]) if row[1] == "open"} == {"overdue"}
    states = {row[1]: row[0] for row in seen["Papers"].iter_rows(min_row=6, values_only=True)}
    assert states["Photographs before pickup, dated, at least 20"] == "done"
    assert {state for paper, state in states.items() if paper and "Photographs" not in paper} == {"open"}

    # 920 kg are 2,028 lb, half of it 1,014 lb; four direct straps of 1,000 lb count 2,000 lb (49 CFR 393.106(d)).
    verdicts = {row[0]: (row[2], row[3]) for row in seen["Securing"].iter_rows(min_row=17, values_only=True)}
    assert verdicts["Tie-downs in front"] == (2, "enough")
    assert verdicts["Tie-downs behind"] == (2, "enough")
    assert verdicts["Limits that count (lb)"] == (2000, "enough")
    assert verdicts["Half the weight (lb)"][0] == 1014
    assert verdicts["All of it together"][0] == "enough by this sheet"
