"""Whatever comes in, a sentence or an answer goes out: hypothesis over all that people hand the program.

What it finds gets a dated test in `test_found.py`. `EXAMPLES=2000 pytest tests/hard_use/test_any_input.py` looks further; the
same functions are what the coverage-guided fuzzer is given (`test_fuzzed.py`).
"""

import io
import json
import os
import zipfile
from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shipcalc.actions.sources import invented_folder, invented_sources
from shipcalc.errors import ShipcalcError
from shipcalc.records import replace
from shipcalc.sheets.reading import WorkbookFile, read_workbook, workbook_of

EXAMPLES = int(os.environ.get("EXAMPLES", "20"))
many = settings(
    max_examples=EXAMPLES,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
    deadline=None,
)
few = settings(many, max_examples=max(3, EXAMPLES // 8))

words = st.text(max_size=40) | st.sampled_from(
    ["", " ", "\xa0", "=1+1", "#REF!", "1,5", "1.5e9", "-0", "9" * 40, "NaN", "yes", "1961", "12/31/2026", "31.2.2026", "🚗", "\x00", "a\nb", "“", "‹to›", "{{x}}", "%s", "../../x", "N" * 600]
)  # fmt: skip
cells = (
    st.none()
    | words
    | st.booleans()
    | st.integers(-(10**30), 10**30)
    | st.floats()
    | st.dates()
    | st.datetimes()
    | st.times()
    | st.timedeltas()
)


def harmless(work: Callable[[], object]) -> object | None:
    """Do some work that may end in one of the program's own sentences, and in nothing else."""
    said = None
    try:
        return work()
    except ShipcalcError as told:
        said = told
    assert str(said).strip()
    assert "\n" not in str(said)
    return None


HEADERS = (
    "Stock number",
    "Year",
    "Make",
    "Model",
    "Body",
    "Length (in)",
    "Width (in)",
    "Height (in)",
    "Weight (lb)",
    "Runs",
    "Value ($)",
    "Yard",
)


@many
@given(
    rows=st.lists(st.lists(words, min_size=3, max_size=14), min_size=1, max_size=6),
    divider=st.sampled_from(",;\t"),
    code=st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"]),
)
def test_any_stock_list_in_text(tmp_path: Path, rows: list[list[str]], divider: str, code: str) -> None:
    import csv

    from shipcalc.vehicles.stock_list import read_stock

    file = io.StringIO()
    csv.writer(file, delimiter=divider).writerows([HEADERS, *rows])
    path = tmp_path / "stock.csv"
    path.write_bytes(file.getvalue().encode(code, errors="replace"))
    harmless(lambda: read_stock(path))


@many
@given(
    content=st.binary(max_size=300),
    name=st.sampled_from(["a.csv", "a.xlsx", "a.xls", "a.ods", "a.xlsb", "a.txt", "a"]),
    begin=st.sampled_from(
        [b"", b"PK\x03\x04", bytes.fromhex("d0cf11e0a1b11ae1"), b"\xff\xfe", b"PK\x05\x06" + bytes(18)]
    ),
)
def test_any_bytes_under_the_name_of_a_workbook(content: bytes, name: str, begin: bytes) -> None:
    harmless(lambda: workbook_of(name, begin + content))


@cache
def small_workbook() -> dict[str, bytes]:
    """Return the parts of a workbook as Excel has them: texts, numbers, days, formulas, merged cells, a hidden row."""
    import openpyxl

    book = openpyxl.Workbook()
    page = book.active
    page.append(HEADERS)
    page.append(
        ["HV-1", 1961, "Larkspur", "Minnow", "roadster", 153.5, 60, 49, 2030, True, "=35000+1", date(2026, 1, 1)]
    )
    page.merge_cells("A5:B6")
    page.row_dimensions[3].hidden = True
    page.auto_filter.ref = "A1:L2"
    file = io.BytesIO()
    book.save(file)
    with zipfile.ZipFile(file) as parts:
        return {name: parts.read(name) for name in parts.namelist()}


def spliced(part: bytes, at: float, length: int, instead: bytes) -> bytes:
    place = int(at * len(part))
    return part[:place] + instead + part[place + length :]


pieces = st.binary(max_size=8) | st.sampled_from(
    [b"<", b">", b'"', b"&", b"&#0;", b"<c>", b"</c>", b"<v>1e999</v>", b' t="s"', b' t="e"', b' r="XFD1048576"', b"]]>", b"<!--", b"<![CDATA[", b"-1", b"99999999999999999999"]
)  # fmt: skip


@many
@given(data=st.data())
def test_any_damage_inside_a_workbook(data: st.DataObject) -> None:
    """The zip is as it should be; what stands in its parts is not."""
    parts = dict(small_workbook())
    for _ in range(data.draw(st.integers(1, 3))):
        name = data.draw(st.sampled_from(sorted(parts)))
        if data.draw(st.booleans()) or name not in parts:
            parts[name] = spliced(
                parts[name], data.draw(st.floats(0, 1)), data.draw(st.integers(0, 40)), data.draw(pieces)
            )
        else:
            del parts[name]
            if not parts:
                return
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for name, part in parts.items():
            archive.writestr(name, part)
    read_and_edited(file.getvalue())


def read_and_edited(content: bytes) -> None:
    """Read a workbook, and open it for changing as the office's commands do."""
    from shipcalc.sheets.editing import Draft

    if harmless(lambda: workbook_of("a.xlsx", content)) is not None:
        harmless(lambda: Draft(content, "a.xlsx"))


@cache
def rate_books() -> dict[str, WorkbookFile]:
    return {path.name: read_workbook(path) for path in sorted(invented_folder("rates").glob("*.xlsx"))}


def with_cell(file: WorkbookFile, sheet: int, row: int, column: int, value: object) -> WorkbookFile:
    """Return a workbook as it was read, with something else in one cell."""
    page = file.sheets[sheet]
    rows = [list(cells) for cells in page.rows]
    if rows and rows[row % len(rows)]:
        cells_of = rows[row % len(rows)]
        cells_of[column % len(cells_of)] = value
    changed = replace(page, rows=tuple(tuple(cells) for cells in rows))
    return replace(file, sheets=(*file.sheets[:sheet], changed, *file.sheets[sheet + 1 :]))


@many
@given(data=st.data())
def test_any_value_in_any_cell_of_a_rate_sheet(data: st.DataObject) -> None:
    from shipcalc.ratebook.rows.tables import WORKBOOKS
    from shipcalc.ratebook.workbook.reader import read_rows

    name = data.draw(st.sampled_from(sorted(rate_books())))
    kind = data.draw(st.sampled_from(WORKBOOKS[name]))
    file = rate_books()[name]
    numbers = [number for number, sheet in enumerate(file.sheets) if sheet.name == kind.name]
    for number in numbers:
        for _ in range(4):
            file = with_cell(
                file, number, data.draw(st.integers(0, 40)), data.draw(st.integers(0, 60)), data.draw(cells)
            )
        read_rows(file.sheets[number], kind.row_type)


@few
@given(data=st.data())
def test_any_values_in_a_whole_rate_book(data: st.DataObject) -> None:
    from shipcalc.ratebook.drafting import draft_from

    files = dict(rate_books())
    for _ in range(12):
        name = data.draw(st.sampled_from(sorted(files)))
        sheet = data.draw(st.integers(0, len(files[name].sheets) - 1))
        files[name] = with_cell(
            files[name], sheet, data.draw(st.integers(0, 400)), data.draw(st.integers(0, 60)), data.draw(cells)
        )
    harmless(lambda: draft_from(files, Path("rates")))


@pytest.fixture(scope="module")
def ticked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A checklist as the office gets it."""
    from shipcalc.actions.quoting import Order, quote
    from shipcalc.documents.checklist.workbook import write_checklist_workbook

    made = quote(Order(vehicles=("HV-1153",), to="Bremen, Germany"), invented_sources(), as_of=date(2026, 12, 1))
    path = tmp_path_factory.mktemp("ticked") / "checklist.xlsx"
    write_checklist_workbook(made, made.recommended, path, paper="a4")
    (path.parent / "quote.json").write_text(quote_json(made), encoding="utf-8")
    return path


def quote_json(made: object) -> str:
    from shipcalc.quote.as_data import quote_to_json

    return quote_to_json(made)  # type: ignore[arg-type]


@many
@given(data=st.data())
def test_any_values_typed_into_a_checklist(ticked: Path, monkeypatch: pytest.MonkeyPatch, data: st.DataObject) -> None:
    from shipcalc.checklist import returned

    file = read_workbook(ticked)
    for _ in range(data.draw(st.integers(1, 12))):
        sheet = data.draw(st.integers(0, len(file.sheets) - 1))
        file = with_cell(file, sheet, data.draw(st.integers(0, 60)), data.draw(st.integers(0, 12)), data.draw(cells))
    monkeypatch.setattr(returned, "read_workbook", lambda _: file)
    harmless(lambda: returned.read_returned(ticked))


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | words, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(words, inner, max_size=3), max_leaves=6
)  # fmt: skip


def paths_of(told: object, path: tuple[object, ...] = ()) -> list[tuple[object, ...]]:
    if isinstance(told, dict):
        return [path, *(one for key, value in told.items() for one in paths_of(value, (*path, key)))]
    if isinstance(told, list):
        return [path, *(one for number, value in enumerate(told[:3]) for one in paths_of(value, (*path, number)))]
    return [path]


@many
@given(data=st.data())
def test_any_json_in_the_place_of_a_quote(ticked: Path, data: st.DataObject) -> None:
    from shipcalc.quote.as_data import quote_from_json

    told = json.loads((ticked.parent / "quote.json").read_text(encoding="utf-8"))
    *way, last = data.draw(st.sampled_from([path for path in paths_of(told) if path]))
    spot = told
    for step in way:
        spot = spot[step]
    spot[last] = data.draw(json_values)
    harmless(lambda: quote_from_json(json.dumps(told), where="quote.json"))


FIELDS = (
    "vehicles",
    "to",
    "from",
    "ready",
    "by",
    "as_of",
    "trailer",
    "ocean",
    "term",
    "cover",
    "insure_for",
    "currency",
    "sailing",
    "spot",
    "keep_until",
    "collect",
    "terminal",
    "buyer_is",
    "buyer",
    "released_by",
)


@many
@given(body=st.dictionaries(st.sampled_from(FIELDS), json_values, max_size=6) | json_values)
def test_any_request_of_another_program(body: object) -> None:
    from pydantic import ValidationError

    from shipcalc.desk.orders import AskedQuote

    whole = {"vehicles": ["HV-1153"], "to": "53703", **body} if isinstance(body, dict) else body
    try:
        asked = AskedQuote.model_validate(whole)
    except ValidationError:
        return
    harmless(lambda: asked.order(date(2026, 12, 1)))


@few
@given(
    to=words | st.sampled_from(["53703", "Bremen, Germany", "Honolulu, HI"]),
    vehicle=words | st.sampled_from(["HV-1153", "1961 roadster, 2030 lb, $38,000"]),
    term=words | st.just("DAP"),
    insure_for=words,
    spot=words,
    buyer=words,
)
def test_any_words_in_an_order(to: str, vehicle: str, term: str, insure_for: str, spot: str, buyer: str) -> None:
    from shipcalc.actions.quoting import Order, quote

    order = Order(
        vehicles=(vehicle,), to=to, term=term, insure_for=insure_for, spot=(spot,) if spot else (), buyer=buyer
    )
    harmless(lambda: quote(order, invented_sources(), as_of=date(2026, 12, 1)))


places = words | st.text(alphabet=" ,.-0123456789ABCNWYabcnwy/“”()'", max_size=60) | st.lists(
    st.sampled_from(["Madison", "WI", "53703", "Bremen", "Germany", "P.O. Box", "47.6", "-122.3", "APO", "V8W 1A1", "USDEWI", "St.", "new", "york"]), max_size=6
).map(" ".join)  # fmt: skip


@many
@given(text=places)
def test_any_text_for_a_place_a_day_a_vehicle(text: str) -> None:
    from shipcalc.places.gazetteer.find import find_place
    from shipcalc.schedule.said_days import days_meant
    from shipcalc.vehicles.description import vehicle_from_text

    found = harmless(lambda: find_place(text))
    assert found is None or found.place is not None or found.note or found.suggestions
    days_meant(text, today=date(2026, 12, 1))
    harmless(lambda: vehicle_from_text(text))


MAILS = Path(__file__).parents[1] / "ratebook" / "mails"


@few
@given(data=st.data())
def test_any_values_in_a_carriers_mail(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, data: st.DataObject) -> None:
    from shipcalc.ratebook.taking import page
    from shipcalc.ratebook.taking.answers import Answers
    from shipcalc.ratebook.taking.understanding import Known, understand

    path = data.draw(st.sampled_from(sorted(MAILS.glob("m*.xlsx"))))
    file = read_workbook(path)
    for _ in range(data.draw(st.integers(1, 8))):
        sheet = data.draw(st.integers(0, len(file.sheets) - 1))
        file = with_cell(file, sheet, data.draw(st.integers(0, 30)), data.draw(st.integers(0, 8)), data.draw(cells))
    monkeypatch.setattr(page, "read_workbook", lambda _: file)
    harmless(
        lambda: understand(page.read_mail(path), Answers({}, {}), Known(currency="USD", carriers=("Wren and Thistle",)))
    )


@many
@given(
    text=words | st.text(max_size=200),
    key=st.sampled_from(
        ["stock", "rates", "currency", "paper", "register", "geocoder", "dealer", "yards", "bank", "x"]
    ),
    value=json_values,
)
def test_any_settings(tmp_path: Path, text: str, key: str, value: object) -> None:
    from shipcalc.settings import settings_of

    for content in (
        text.encode(errors="replace"),
        f"{key} = {json.dumps(value)}".encode(errors="replace"),
        f"[{key}]\nname = {json.dumps(text)}".encode(errors="replace"),
    ):
        harmless(lambda content=content: settings_of(content, tmp_path / "shipcalc.toml"))
