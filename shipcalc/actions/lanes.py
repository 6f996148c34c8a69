"""Lanes: a whole stock list to many places, into one file."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.actions.sources import Sources
from shipcalc.errors import NoAnswer, WrongInput, asked
from shipcalc.records import dataclass

if TYPE_CHECKING:
    import pyarrow as pa

    from shipcalc.bulk.parts import Parts
    from shipcalc.bulk.plan import Block, Plan
    from shipcalc.places.place import Place
    from shipcalc.sheets.long_table import PicturePage
    from shipcalc.trade import Trailer
    from shipcalc.vehicles.sizes import BodySize
    from shipcalc.vehicles.stock import Stock
    from shipcalc.vehicles.vehicle import Vehicle

Told = Callable[[str, int, int], None]
PICTURES = (".svg", ".png")
# Files whose rows are written as they are priced.
AT_ONCE = (".parquet", ".csv")


@dataclass(frozen=True, slots=True, kw_only=True)
class LanesOrder:
    """What is asked for, as typed. No vehicles: the whole stock list. `to_file` is the list of places of `--to cities`."""

    to: str
    out: Path
    to_file: Path | None = None
    vehicles: tuple[str, ...] = ()
    start: str = ""
    ready: date | None = None
    trailer: str = ""
    for_office: bool = True
    by_sea: bool = False
    dask: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LanesAnswer:
    """What was written: how many rows, how many of them with a price, and how often there was none, by the reason."""

    out: Path
    vehicles: int
    places: int
    trailers: tuple[str, ...]
    rows: int
    priced: int
    why_not: tuple[tuple[str, int], ...]
    left_out: tuple[str, ...]


def price_lanes(order: LanesOrder, sources: Sources, *, as_of: date, told: Told) -> LanesAnswer:
    """Price every vehicle × place × trailer and write the file; `told` hears (what is done, rows done, rows in all).

    What was priced stays beside the file until it is whole: after a stop the same order goes on from there. Raises WrongInput
    for an input or a file that cannot be used.
    """
    from shipcalc.bulk.output import check_output
    from shipcalc.bulk.parts import Parts
    from shipcalc.bulk.plan import blocks_of, key_of

    _check_installed()
    plan, stock = plan_of(order, sources, as_of=as_of)
    if order.out.suffix.lower() in PICTURES:
        from shipcalc.bulk.maps import check_map

        check_map(plan, str(order.out))
    else:
        check_output(order.out, plan.rows)
    blocks, parts = blocks_of(plan), Parts.of(order.out, key_of(plan))
    parts.begin(order.out)
    answer = _write(order, plan, _priced(order, plan, blocks, parts, told), sources, stock, told)
    parts.remove()
    return answer


def lanes_as_data(order: LanesOrder, sources: Sources, *, as_of: date, most: int) -> list[dict[str, object]]:
    """Return the rows themselves, by the names of their columns (see `bulk/table.py`).

    Raises WrongInput for an input that cannot be used, and for one that comes to more than `most` rows.
    """
    from shipcalc.bulk.plan import blocks_of
    from shipcalc.bulk.running import rows_of_block

    _check_installed()
    plan, _ = plan_of(order, sources, as_of=as_of)
    if plan.rows > most:
        told = f"that is {plan.rows:,} prices, and at most {most:,} are given at once"
        raise WrongInput(told, where=asked("vehicle"), remedy="name fewer vehicles, or one kind of trailer")
    return [row for block in blocks_of(plan) for row in rows_of_block(plan, block).to_pylist()]


def _check_installed() -> None:
    from importlib.util import find_spec

    missing = [name for name in ("pandas", "pyarrow") if find_spec(name) is None]
    if missing:
        raise WrongInput(
            f"not installed, and needed only for tables and price maps: {' and '.join(missing)}",
            where="shipcalc lanes",
            remedy="pip install 'shipcalc[lanes]', or '.[lanes]' in the folder with the program's README",
        )


def plan_of(order: LanesOrder, sources: Sources, *, as_of: date) -> "tuple[Plan, Stock]":
    """Return the plan of an order, and the stock list it is from. Raises WrongInput for what cannot be used as it is."""
    from shipcalc.actions.quoting import open_books
    from shipcalc.actions.starting import start_of
    from shipcalc.bulk.destinations import find_destinations
    from shipcalc.bulk.plan import Plan

    trailers = _trailers(order.trailer)
    books = open_books(sources)
    vehicles = _vehicles(order, books.stock, books.rates.sizes)
    ready = order.ready or as_of
    if ready < as_of:
        raise WrongInput(
            f"nothing can be ready on {ready.isoformat()}, before the day of the prices ({as_of.isoformat()})",
            where=asked("ready"),
            remedy="give a later date",
        )
    starts: dict[tuple[str, str], Place] = {}
    for vehicle in vehicles:
        start = start_of(vehicle, order.start, sources.settings, books.rates.terminals)
        starts.setdefault((order.start, vehicle.yard), start.place)
    plan = Plan(
        vehicles=vehicles,
        starts=tuple(starts[order.start, vehicle.yard] for vehicle in vehicles),
        destinations=find_destinations(order.to, order.to_file, books.rates),
        trailers=trailers,
        book=books.rates,
        as_of=as_of,
        ready=ready,
        for_office=order.for_office,
        by_sea=order.by_sea,
    )
    return plan, books.stock


def _vehicles(order: LanesOrder, stock: "Stock", sizes: "Sequence[BodySize]") -> "tuple[Vehicle, ...]":
    from shipcalc.actions.vehicles import vehicles_meant
    from shipcalc.vehicles.sizes import fill_sizes

    if order.vehicles:
        return vehicles_meant(order.vehicles, stock, sizes)
    if not stock.vehicles:
        raise NoAnswer(
            "there is no vehicle to price", where=stock.file, remedy="shipcalc stock says what is in the list"
        )
    return tuple(fill_sizes(vehicle, sizes) for vehicle in stock.vehicles)


def _trailers(text: str) -> "tuple[Trailer, ...]":
    wanted = text.strip().casefold()
    trailers: dict[str, tuple[Trailer, ...]] = {
        "": ("open", "enclosed"),
        "open": ("open",),
        "enclosed": ("enclosed",),
    }
    if wanted not in trailers:
        raise WrongInput(f'"{text}" is not a kind of trailer', where=asked("trailer"), remedy="say open or enclosed")
    return trailers[wanted]


class _Counting:
    """Adds up rows and tells of them."""

    def __init__(self, what: str, rows: int, told: Told) -> None:
        self._what, self._rows, self._told, self._done = what, rows, told, 0

    def __call__(self, rows: int) -> None:
        self._done += rows
        self._told(self._what, self._done, self._rows)


def _priced(
    order: LanesOrder, plan: "Plan", blocks: "tuple[Block, ...]", parts: "Parts", told: Told
) -> "Callable[[], Iterator[pa.Table]]":
    """Return what yields the rows block by block, as often as it is asked.

    Prices at home come as quickly as they are written, so that both go on at once. Beyond, where a block takes seconds, they do
    not: nobody who stops it should wait for a thread. A workbook has its rows priced first: to write them takes far longer.
    """
    from shipcalc.bulk.running import one_ahead, price_on_cluster, priced_here

    done = _Counting("priced", plan.rows, told)
    if order.dask:
        price_on_cluster(plan, blocks, parts, done, order.dask)
    elif order.out.suffix.lower() not in AT_ONCE:
        for table in priced_here(plan, blocks, parts):
            done(len(table))
    elif not plan.crosses_the_sea:
        return lambda: one_ahead(priced_here(plan, blocks, parts))
    return lambda: priced_here(plan, blocks, parts)


def _write(
    order: LanesOrder,
    plan: "Plan",
    priced: "Callable[[], Iterator[pa.Table]]",
    sources: Sources,
    stock: "Stock",
    told: Told,
) -> LanesAnswer:
    from shipcalc.bulk.counting import Count
    from shipcalc.bulk.output import write_csv, write_parquet

    count = Count()
    tables = count.counted(priced())
    done = _Counting("written", plan.rows, told)
    ending = order.out.suffix.lower()
    if ending == ".parquet":
        write_parquet(order.out, tables, done)
    elif ending == ".csv":
        write_csv(order.out, tables, done)
    elif ending in PICTURES:
        _write_map(order.out, plan, tables, done)
    else:
        from shipcalc.bulk.workbook import write_workbook

        pictures = _pictures(plan, priced)
        write_workbook(order.out, plan, tables, done, dealer=sources.settings.dealer.name, pictures=pictures)
    return LanesAnswer(
        out=order.out,
        vehicles=len(plan.vehicles),
        places=len(plan.destinations),
        trailers=plan.trailers,
        rows=plan.rows,
        priced=count.priced,
        why_not=count.why_not,
        left_out=_left_out(order, stock),
    )


def _write_map(out: Path, plan: "Plan", tables: "Iterable[pa.Table]", done: "_Counting") -> None:
    from shipcalc.bulk.maps import map_of
    from shipcalc.pictures.png import to_png
    from shipcalc.pictures.svg import to_svg
    from shipcalc.sheets.saving import save

    scene = map_of(plan, tables)
    save(out, to_svg(scene) if out.suffix.lower() == ".svg" else to_png(scene))
    done(plan.rows)


def _pictures(plan: "Plan", priced: "Callable[[], Iterator[pa.Table]]") -> "tuple[PicturePage, ...]":
    """Return the price map of a single vehicle as a page of the workbook."""
    from shipcalc.bulk.maps import can_be_mapped, map_of
    from shipcalc.pictures.png import to_png
    from shipcalc.sheets.long_table import PicturePage

    if not can_be_mapped(plan):
        return ()
    scene = map_of(plan, priced())
    return (
        PicturePage(
            name="Price map",
            text=scene.description,
            png=to_png(scene),
            width_px=round(scene.width),
            height_px=round(scene.height),
        ),
    )


def _left_out(order: LanesOrder, stock: "Stock") -> tuple[str, ...]:
    return () if order.vehicles else tuple(f"{number}: {problem}" for number, problem in stock.unusable)
