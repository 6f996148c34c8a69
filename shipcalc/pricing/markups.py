"""What is added to carriers' rates: as the sheet Pricing sets it, but for what rows of Markups say of a shipment."""

from collections.abc import Iterable

from shipcalc.pricing.line import Markup
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.remembered import remembered_by_book
from shipcalc.ratebook.rows.markups import MarkupRow
from shipcalc.records import replace


@remembered_by_book(512)
def selling_markup(book: RateBook, country: str = "", buyer: str = "") -> Markup:
    """Return the markup on a shipment to a country, for a kind of buyer; carriers with one of their own are in `by_carrier`."""
    rules, named = book.pricing, dict.fromkeys(row.carrier.casefold() for row in book.markups if row.carrier)
    set_by_pricing = Markup(
        linehaul_ppm=rules.markup_linehaul_ppm,
        fuel_ppm=rules.markup_fuel_ppm,
        extras_ppm=rules.markup_extras_ppm,
        ocean_ppm=rules.markup_ocean_ppm,
        port_ppm=rules.markup_port_ppm,
    )
    if not book.markups:
        return set_by_pricing
    of_all = _as_rows_say(set_by_pricing, rows_for(book.markups, "", country, buyer))
    own = ((name, _as_rows_say(set_by_pricing, rows_for(book.markups, name, country, buyer))) for name in named)
    return replace(of_all, by_carrier=tuple(own))


def rows_for(rows: Iterable[MarkupRow], carrier: str, country: str, buyer: str) -> list[MarkupRow]:
    """Return the rows that are for a shipment, those first that name the most of it: of as many a carrier, then a buyer."""
    told = (carrier.casefold(), buyer.casefold(), country.casefold())
    own = [row for row in rows if all(name in ("", fact) for name, fact in zip(names_of(row), told, strict=True))]
    return sorted(own, key=lambda row: (-sum(map(bool, names_of(row))), *(not name for name in names_of(row))))


def names_of(row: MarkupRow) -> tuple[str, str, str]:
    """Return what a row names: carrier, kind of buyer and country, "" where it names none."""
    return (row.carrier or "").casefold(), (row.buyer or "").casefold(), (row.country or "").casefold()


def kinds_of_buyers(book: RateBook) -> tuple[str, ...]:
    """Return the kinds of buyers that the rate book has markups for, as they are first written."""
    return tuple({row.buyer.casefold(): row.buyer for row in reversed(book.markups) if row.buyer}.values())


def alike_abroad(book: RateBook, country: str) -> tuple[int, ...]:
    """Return which rows name a country, by number: to countries with the same rows prices are marked up alike."""
    return tuple(number for number, row in enumerate(book.markups) if names_of(row)[2] == country.casefold())


def _as_rows_say(markup: Markup, rows: list[MarkupRow]) -> Markup:
    """Return a markup with what the first row says that says anything of each."""
    for row in reversed(rows):
        own = {field: getattr(row, field) for field in _FIELDS if getattr(row, field) is not None}
        if row.least_minor is not None:
            own["least_cell"] = row.at.cell("least_minor")
        markup = replace(markup, **own)
    return markup


_FIELDS = ("linehaul_ppm", "fuel_ppm", "extras_ppm", "ocean_ppm", "port_ppm", "least_minor")
