"""One cell of the shipped workbooks is changed at random, many times: the change is told, or it shows, or it cannot matter.

    told        the check names a new problem
    shows       a comparison of the two books shows another price, or else another date, paper, line or sentence
    cannot      no row says anything else; or only what no quote reads does (notes, sources); or it is proved (conftest.py)

Whatever else is a price that went wrong without a word, and fails. Without a number this runs a small sample, always the same, as `.ci/run` does (`-m soak`):

    MUTATIONS=2000 pytest tests/mutations -s
    MUTATIONS=500 MUTATION_SHEETS="Lanes, Areas" MUTATION_COLUMNS="Valid from, Valid to" pytest tests/mutations -s

The second changes these sheets and these columns alone.
"""

import os
import random
import re
import sys
from collections import Counter
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from shipcalc.compare.basket import built_in_basket
from shipcalc.compare.basket_rows import basket_of_rows
from shipcalc.compare.books import Effect, outcome
from shipcalc.compare.carriers import carrier_changes
from shipcalc.places.gazetteer.find import get_place
from shipcalc.ratebook import drafting
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.changes.differences import changed_rows, differences
from shipcalc.ratebook.checks.shelf_life import out_of_date, shelf_life_of
from shipcalc.ratebook.drafting import Draft, draft_from
from shipcalc.ratebook.kept import Kept
from shipcalc.ratebook.rows.tables import SHEETS, WORKBOOKS, Tables
from shipcalc.ratebook.workbook.columns import columns_of
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.records import dataclass, fields, replace
from shipcalc.sheets.reading import Sheet, WorkbookFile, letter, read_workbook

pytestmark = pytest.mark.soak

RATES = Path(__file__).parents[2] / "rates"
DAY = date(2026, 12, 1)
COUNT = int(os.environ.get("MUTATIONS", "16"))
SEED = int(os.environ.get("MUTATION_SEED", "1"))
ONLY_SHEETS, ONLY_COLUMNS = (
    {name.strip().casefold() for name in os.environ.get(variable, "").split(",") if name.strip()}
    for variable in ("MUTATION_SHEETS", "MUTATION_COLUMNS")
)
HEADER_SHARE, BLANK_SHARE = 0.02, 0.15


@dataclass(frozen=True)
class Mutation:
    """A cell, counted from 0, and what it says instead; `lost` is an error or a formula that was never computed."""

    workbook: str
    sheet: str
    row: int
    column: int
    was: object
    value: object
    lost: str | None = None

    @property
    def cell(self) -> str:
        return f"{self.workbook} › {self.sheet}!{letter(self.column)}{self.row + 1}"

    def __str__(self) -> str:
        return f"{self.cell}: {self.was!r} → {'lost ' if self.lost is not None else ''}{self.value!r}"


def changed_number(number: float, chance: random.Random) -> object:
    return chance.choice([
        number * 10, number / 10, number * 100, number + 1, number * 1.01, number * 1.5, -number, 0, number - 1,
        f"{number:,.2f}", f"{number}".replace("0", "O"), f"{number}".replace(".", ","), 1e9, number + 0.000_01,
    ])  # fmt: skip


def changed_text(text: str, column: list[object], chance: random.Random) -> object:
    place = chance.randrange(len(text))
    others = [cell for cell in column if isinstance(cell, str) and cell != text] or [text + "x"]
    return chance.choice([
        chance.choice(others), chance.choice(others), text[:place] + text[place + 1 :], text + "s", text.upper(),
        f"  {text} ", f"{text}; {chance.choice(others)}", 7, True, "no" if text == "yes" else "yes",
    ])  # fmt: skip


def changed_day(day: date, chance: random.Random) -> object:
    moved = [day + timedelta(days=days) for days in (1, -1, 30, -200, 400, -4000)]
    return chance.choice([*moved, (day - date(1899, 12, 30)).days, f"{day:%m/%d/%Y}", f"{day:%d.%m.%Y}", "soon"])


def filled(column: list[object], chance: random.Random) -> object:
    others = [cell for cell in column if cell is not None]
    return chance.choice([*(others or [1]), *(others or [1]), 1, 0.5, "x", "yes", date(2027, 1, 1)])


def mutations(files: dict[str, WorkbookFile], count: int, seed: int) -> list[Mutation]:
    """Return cells of all sheets that are read, each sheet as likely as another; blank ones less often."""
    chance = random.Random(seed)
    by_sheet = []
    for name, kinds in WORKBOOKS.items():
        for kind in kinds:
            sheet = files[name].find_sheet(kind.name) if name in files else None
            if sheet is None or not sheet.rows or (ONLY_SHEETS and sheet.name.casefold() not in ONLY_SHEETS):
                continue
            rows, columns = [row for row, _ in sheet.filled_rows() if row], columns_to_change(sheet)
            if rows and columns:
                by_sheet.append((name, sheet, rows, columns))
    found = []
    while len(found) < count:
        name, sheet, rows, columns = chance.choice(by_sheet)
        row, column = chance.choice(rows), chance.choice(columns)
        if chance.random() < HEADER_SHARE:
            row = 0
        was = sheet.rows[row][column]
        below = [line[column] for line in sheet.rows[1:]]
        if was is None and chance.random() > BLANK_SHARE:
            continue
        found.append(Mutation(name, sheet.name, row, column, was, *_value(was, below, chance)))
    return found


def columns_to_change(sheet: Sheet) -> list[int]:
    """Return the columns of a sheet that may be changed: all, or those whose header is asked for, star and unit apart."""
    headers = [str(cell or "").removesuffix("*").partition(" (")[0].strip().casefold() for cell in sheet.rows[0]]
    return [number for number, header in enumerate(headers) if not ONLY_COLUMNS or header in ONLY_COLUMNS]


def _value(was: object, below: list[object], chance: random.Random) -> tuple[object, str | None]:
    if was is not None and chance.random() < 0.12:
        return None, chance.choice([None, "", "#REF!"])
    if isinstance(was, bool):
        return not was, None
    if isinstance(was, int | float):
        return changed_number(was, chance), None
    if isinstance(was, datetime | date):
        return changed_day(was.date() if isinstance(was, datetime) else was, chance), None
    if isinstance(was, str) and was:
        return changed_text(was, below, chance), None
    return filled(below, chance), None


def mutated(files: dict[str, WorkbookFile], change: Mutation) -> dict[str, WorkbookFile]:
    """Return the workbooks with the one cell changed."""

    def of(sheet: Sheet) -> Sheet:
        if sheet.name != change.sheet:
            return sheet
        cells = list(sheet.rows[change.row])
        cells[change.column] = change.value
        lost = {(change.row, change.column): change.lost} if change.lost is not None else {}
        return replace(sheet, rows=(*sheet.rows[: change.row], tuple(cells), *sheet.rows[change.row + 1 :]), lost=lost)

    file = files[change.workbook]
    return files | {change.workbook: replace(file, sheets=tuple(of(sheet) for sheet in file.sheets))}


class Judge:
    """The shipped book, what each transport comes to by it (remembered), and the verdict on a change."""

    def __init__(self, proved) -> None:
        self.proved = proved
        self.files = {name: read_workbook(RATES / name) for name in WORKBOOKS if (RATES / name).exists()}
        self.draft = draft_from(self.files, RATES)
        self.book = book_of(self.draft)
        self.told = told(self.draft)
        self.starts = tuple(get_place(code).place for code in ("98225", "31408"))
        self.known = {}

    def verdict(self, change: Mutation) -> str:
        draft = draft_from(mutated(self.files, change), RATES)
        new = told(draft) - self.told
        if new:
            return "told by its cell" if any(cell == change.cell for cell, _ in new) else "told"
        if (contents(draft.tables), draft.rules) == (contents(self.draft.tables), self.draft.rules):
            return "cannot: says the same"
        book = book_of(draft)
        was, is_now = changed_rows(self.book, book)
        # Whatever it does or not, a comparison names the row: nothing that is read changes without a word there.
        assert any((*was.values(), *is_now.values())) == bool(differences(self.book, book)), str(change)
        fields = set(changed_fields(was, is_now))
        sure = self.proved(was, is_now, fields, (self.book, book))
        return sure or self.shown(was, is_now, book) or self.not_decisive(was, is_now, fields) or "NOT TOLD"

    def not_decisive(self, was, is_now, fields) -> str:
        """Return that a road factor does not count, where its transports come to the same without it; "" for what counts."""
        if {kind.rows for kind, _ in fields} != {"road_factors"}:
            return ""
        gone = {row.at.row for row in was["road_factors"]}
        without = replace(
            self.book, road_factors=tuple(row for row in self.book.road_factors if row.at.row not in gone)
        )
        own = (*basket_of_rows(is_now, self.book, self.starts, DAY), *basket_of_rows(was, self.book, self.starts, DAY))
        same = all(not Effect(a, self.outcome(a, DAY), outcome(a, without, DAY)).differs_in for a in own)
        return "cannot: another road factor is closer" if same else ""

    def shown(self, was, is_now, book: RateBook) -> str:
        """Return the weightiest thing that the first transport with a difference shows; "" where none has any."""
        for day in days_of(was, is_now):
            for basket in self.baskets(was, is_now, book, day):
                for asked in basket:
                    effect = Effect(asked, self.outcome(asked, day), outcome(asked, book, day))
                    if effect.differs_in:
                        return f"shows: {effect.differs_in[0]}"
            if any(one.is_any for one in carrier_changes(self.book, book, self.starts, day)):
                return "shows: a carrier's price"
        return ""

    def baskets(self, was, is_now, book: RateBook, day: date):
        """Yield what meets the rows, then the spread; of a change to overseas sheets alone, its overseas half."""
        yield (*basket_of_rows(is_now, book, self.starts, day), *basket_of_rows(was, self.book, self.starts, day))
        overseas = {kind.rows for kind in WORKBOOKS["overseas.xlsx"]}
        only_overseas = all(kind in overseas for kind, rows in (*was.items(), *is_now.items()) if rows)
        spread = built_in_basket(self.starts, day)
        yield [a for a in spread if a.request.to.country != "US"] if only_overseas else spread

    def outcome(self, asked, day: date):
        key = asked.request, asked.only, day
        if key not in self.known:
            self.known[key] = outcome(asked, self.book, day)
        return self.known[key]


def contents(tables: Tables) -> list[object]:
    """Return the rows of every sheet, and what was not read, to be compared: a rate book equals itself alone."""
    return [getattr(tables, field.name) for field in fields(tables)]


def days_of(was, is_now) -> list[date]:
    """Return the days to price on: today, the days on which the changed rows begin, and those after they end."""
    rows = [row for found in (was, is_now) for rows in found.values() for row in rows]
    days = {DAY, *(row.as_of for row in rows if isinstance(getattr(row, "as_of", None), date))}
    days |= {day for row in rows if (day := getattr(row, "valid_from", None))}
    days |= {day + timedelta(days=1) for row in rows if (day := getattr(row, "valid_to", None))}
    return sorted((day for day in days if abs((day - DAY).days) < 500), key=lambda day: abs((day - DAY).days))


def book_of(draft: Draft) -> RateBook:
    kept = Kept(draft.tables, draft.rules, draft.fingerprint, draft.problems)
    return RateBook(
        folder=RATES,
        fingerprint=draft.fingerprint,
        pricing=draft.rules,
        warnings=draft.problems,
        **kept.rows_by_field(),
    )


def told(draft: Draft) -> set[tuple[str, str]]:
    late = tuple(out_of_date(shelf_life_of(draft.tables), draft.rules, DAY))
    # Without figures: a warning that was there before and now names another sum tells nothing new.
    return {(problem.cell, re.sub(r"[0-9.,]+", "#", problem.message)) for problem in (*draft.problems, *late)}


def changed_fields(was, is_now):
    """Yield the fields (with the field of Tables) in which changed rows differ; where rows came or went, all of them."""
    for kind in SHEETS:
        old, new = was[kind.rows], is_now[kind.rows]
        for name in columns_of(kind.row_type):
            one, other = ([getattr(row, name) for row in rows] for rows in (old, new))
            if (old or new) and one != other:
                yield kind, name


@pytest.fixture(scope="module")
def judge(proved) -> Iterator[Judge]:
    """The judge; a sheet that is not changed is read once, since reading all others again takes the most time."""
    known = {}

    def read(sheet, row_type, *, currency="USD"):
        key = id(sheet), row_type, currency
        if key not in known:
            known[key] = sheet, read_rows(sheet, row_type, currency=currency)
        return known[key][1]

    def read_once(sheet, row_type, *, currency="USD"):
        shipped = any(sheet is own for file in made[0].files.values() for own in file.sheets) if made else False
        return (read if shipped else read_rows)(sheet, row_type, currency=currency)

    made = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(drafting, "read_rows", read_once)
        patch.setattr(drafting, "fingerprint_of", lambda files: "not asked for")
        made.append(Judge(proved))
        yield made[0]


def test_no_change_of_a_cell_goes_without_a_word(judge: Judge, capsys) -> None:
    verdicts = Counter()
    silent = []
    for change in mutations(judge.files, COUNT, SEED):
        verdict = judge.verdict(change)
        verdicts[verdict] += 1
        if COUNT > 100 and verdicts.total() % 50 == 0:
            with capsys.disabled():
                sys.stdout.write(f"{verdicts.total()}: {dict(verdicts.most_common())}\n")
                sys.stdout.flush()
        if verdict == "NOT TOLD":
            silent.append(str(change))
            if COUNT > 100:
                with capsys.disabled():
                    sys.stdout.write(f"NOT TOLD {change}\n")
                    sys.stdout.flush()
    if COUNT > 100:
        with capsys.disabled():
            sys.stdout.write(f"\n{COUNT} changes, seed {SEED}: {dict(verdicts.most_common())}\n")
    assert silent == []


def test_every_kind_of_verdict_is_reached(judge: Judge) -> None:
    """A judge that always found a reason would prove nothing."""
    rate = Mutation("trucking.xlsx", "Per mile", 1, 4, None, 1.75)
    assert judge.verdict(rate) in ("shows: price", "shows: lines")
    assert judge.verdict(replace(rate, value="1,9O")) == "told by its cell"
    assert judge.verdict(replace(rate, value=judge.files["trucking.xlsx"].find_sheet("Per mile").rows[1][4])) == (
        "cannot: says the same"
    )
