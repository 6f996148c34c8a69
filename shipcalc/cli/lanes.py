"""The manager's command for the whole stock list: lanes."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.look import Look, note, pairs, show_found
from shipcalc.cli.options import AsJson, AsOf, RatesFolder, StockFile, argument, day_of, day_of_quote, flag, option
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from shipcalc.actions.lanes import LanesAnswer

AUDIENCES = ("", "buyer", "office")


def lanes(
    to: Annotated[str, option("--to", "WHERE", "zips, states, countries, ports, or cities with a FILE.")],
    out: Annotated[
        Path,
        option(
            "--out", "FILE", "The file to write: .parquet, .csv or .xlsx; .svg or .png for a price map of one vehicle."
        ),
    ],
    file: Annotated[Path | None, argument("[FILE]", "With --to cities: the list of places, Excel or CSV.")] = None,
    vehicle: Annotated[
        list[str] | None, option("--vehicle", "TEXT", "Only this vehicle. May be repeated. Default: the whole list.")
    ] = None,
    trailer: Annotated[str, option("--trailer", "KIND", "Only open, or only enclosed, trailers.")] = "",
    start: Annotated[str, option("--from", "PLACE", "Where all start. Default: the yard each vehicle stands in.")] = "",
    ready: Annotated[
        str, option("--ready", "DATE", "First day they can be picked up. Default: the day of the prices.")
    ] = "",
    by_sea: Annotated[bool, flag("--by-sea", "With --to zips: price Alaska, Hawaii and the islands too.")] = False,
    as_of: AsOf = "",
    audience: Annotated[str, option("--for", "WHOM", "buyer: without carriers. Default: office.")] = "",
    dask: Annotated[
        str, option("--dask", "ADDRESS", "Let the workers of this Dask scheduler price, e.g. tcp://10.0.0.5:8786.")
    ] = "",
    stock: StockFile = None,
    rates: RatesFolder = None,
    as_json: AsJson = False,
) -> None:
    """Price every vehicle of the stock list to every place, into one file; started again after a stop it goes on."""
    from shipcalc.actions.lanes import LanesOrder, price_lanes
    from shipcalc.actions.sources import find_sources
    from shipcalc.cli.progress import Progress

    today = day_of_quote(as_of)
    if audience not in AUDIENCES:
        raise WrongInput(f'"{audience}" is neither buyer nor office', where="--for", remedy="say buyer or office")
    sources = find_sources(folder=Path.cwd(), stock=stock, rates=rates, as_of=today)
    order = LanesOrder(
        to=to.strip().casefold(),
        out=out,
        to_file=file,
        vehicles=tuple(vehicle or ()),
        start=start,
        ready=day_of(ready, "--ready", today=today) if ready else None,
        trailer=trailer,
        for_office=audience != "buyer",
        by_sea=by_sea,
        dask=dask,
    )
    progress = Progress()
    try:
        answer = price_lanes(order, sources, as_of=today, told=progress)
    except KeyboardInterrupt:
        progress.end()
        note("what is priced is kept: the same command goes on from there")
        raise
    finally:
        progress.end()
    show_found(answer, _as_json, _lines, as_json=as_json)
    for remark in (*sources.notes, *answer.left_out):
        note(remark)
    note(f"written: {answer.out}")


def _lines(answer: "LanesAnswer", look: Look) -> list[str]:
    kinds = " and ".join(answer.trailers)
    vehicles, places = _counted(answer.vehicles, "vehicle"), _counted(answer.places, "place")
    entries = [
        ("Rows", f"{answer.rows:,}"),
        ("Of", f"{vehicles} × {places} × {kinds} trailer{'s' * (len(answer.trailers) > 1)}"),
        ("With a price", f"{answer.priced:,}"),
        *_without(answer),
    ]
    return pairs(look, entries)


def _without(answer: "LanesAnswer") -> list[tuple[str, str]]:
    """Return how many rows have no price and why; many reasons are left to the table."""
    from shipcalc.bulk.answers import NOT_HOME

    if len(answer.why_not) > MOST_REASONS:
        return [("Without", f"{answer.rows - answer.priced:,}; the column why_not says why")]
    more = {NOT_HOME: "; --by-sea prices them"}
    return [("Without", f"{count:,}: {why}{more.get(why, '')}") for why, count in answer.why_not]


def _counted(number: int, what: str) -> str:
    return f"{number:,} {what}{'s' * (number != 1)}"


def _as_json(answer: "LanesAnswer") -> str:
    from shipcalc.cli.listing import to_json

    return to_json(
        {
            "file": str(answer.out),
            "vehicles": answer.vehicles,
            "places": answer.places,
            "trailers": list(answer.trailers),
            "rows": answer.rows,
            "priced": answer.priced,
            "why_not": dict(answer.why_not),
            "left_out": list(answer.left_out),
        }
    )


MOST_REASONS = 5

COMMANDS = (
    (
        "lanes",
        lanes,
        "The whole stock list to every ZIP, state, country or port.",
        "shipcalc lanes --vehicle HV-1042 --to states --out prices.csv",
    ),
)
