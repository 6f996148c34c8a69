"""The demo's office: what became of the quotes of the last weeks, kept in a register of its own, and the day it comes to."""

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.actions.order_tables import each_row
from shipcalc.actions.quoting import Books, Order, made_quote
from shipcalc.actions.sources import Sources, invented_folder
from shipcalc.errors import ShipcalcError
from shipcalc.ratebook.rows.baskets import SaleRow
from shipcalc.records import replace
from shipcalc.trade import MOMENTS

if TYPE_CHECKING:
    from shipcalc.register.doing import Done
    from shipcalc.register.opening import Register
    from shipcalc.register.shipments import Shipment

SALES_FILE = "shipments.csv"
REGISTER_FILE = "register.sqlite"
SETTINGS_FILE = "shipcalc.toml"
SALESPERSON = "Nell"


def read_sales() -> tuple[SaleRow, ...]:
    """Return the invented sales, the oldest first."""
    rows = each_row(invented_folder("demo") / SALES_FILE, "list of sales", SaleRow, lambda row: row)
    return tuple(sorted(rows, key=lambda row: -row.quoted))


def new_register(out: Path) -> "Register":
    """Return an empty register in the demo's folder; what a demo before has left there goes."""
    from shipcalc.register.opening import open_register, url_of_file

    file = out / REGISTER_FILE
    # A log that was left beside a file that is gone would be taken for the new one's.
    for name in (file, file.with_name(f"{file.name}-wal"), file.with_name(f"{file.name}-shm")):
        name.unlink(missing_ok=True)
    return open_register(url_of_file(file.resolve()))


def write_settings(out: Path) -> Path:
    """Write the invented dealer's settings into the demo's folder: who works there works at its register."""
    from shipcalc.sheets.saving import save

    settings = (invented_folder("demo") / SETTINGS_FILE).read_text(encoding="utf-8")
    file = out / SETTINGS_FILE
    save(file, f'register = "{REGISTER_FILE}"\n{settings}'.encode())
    return file


def fill_office(register: "Register", sources: Sources, books: Books, today: date) -> None:
    """Keep the invented sales as they stand today; one that cannot be made on another day than the demo's own is left out."""
    for sale in read_sales():
        try:
            _sold(register, sale, sources, books, today)
        except ShipcalcError:
            continue


def _sold(register: "Register", sale: SaleRow, sources: Sources, books: Books, today: date) -> None:
    from shipcalc.register.deciding import accept
    from shipcalc.register.doing import do
    from shipcalc.register.quotes import keep_quote

    quoted = _ago(sale.quoted, today)
    order = Order(
        vehicles=sale.vehicles,
        to=sale.to,
        ready=quoted,
        ocean=sale.ocean or "",
        trailer=sale.trailer or "",
        buyer=sale.name,
    )
    made = made_quote(order, sources, as_of=quoted, books=books)
    kept = keep_quote(register, made.quote, made.request, made.rates, at=point(quoted), who=SALESPERSON)
    if sale.accepted is None or kept.number is None:
        return
    said_yes = _ago(sale.accepted, today)
    accept(register, kept.number, choice=None, on=said_yes, by=sale.name, at=point(said_yes))
    do(
        register,
        kept.number,
        lambda shipment: _carried_on(shipment, sale, today),
        what="carried on",
        at=point(_ago(1, today)),
        who=sale.office or "",
    )


def _carried_on(shipment: "Shipment", sale: SaleRow, today: date) -> "Done":
    """Return a shipment as far as its office has come: days that came true, numbers, people, all done that was due but a few."""
    from shipcalc.checklist.references import reference_in
    from shipcalc.register.doing import Done, came_true, named, ticked

    people = {"office": sale.office or "", "yard": sale.yard or "", "sales": SALESPERSON}
    done = named(shipment, dict(reference_in(text) for text in sale.references))
    changed = list(done.changed)
    for stage, day in _came_true(sale, today):
        done = came_true(done.shipment, stage, day)
        changed += done.changed
    lines = tuple(replace(line, assigned=people.get(line.item.owner, "")) for line in done.shipment.lines)
    now, waits = replace(done.shipment, lines=lines), set(sale.left_open)
    for line in lines:
        item = line.item
        if item.due >= today or not waits.isdisjoint((item.id, *item.after)):
            waits.add(item.id)
        else:
            now = ticked(now, item.id, state="done", on=item.due, by=line.assigned).shipment
    return Done(shipment=now, changed=tuple(changed))


def _came_true(sale: SaleRow, today: date) -> Iterator[tuple[str, date]]:
    for stage in MOMENTS:
        days = getattr(sale, stage, None)
        if isinstance(days, int):
            yield stage, _ago(days, today)


def _ago(days: int, today: date) -> date:
    return today - timedelta(days=days)


def point(day: date) -> str:
    """Return an hour of a day at which something is kept: the demo's clock."""
    return f"{day.isoformat()}T17:00:00Z"
