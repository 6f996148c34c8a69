"""Compare two rate books: what was changed in the sheets, and what that does to a basket of transports and to open quotes."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.actions.sources import Sources
from shipcalc.errors import WrongInput, asked
from shipcalc.records import replace

if TYPE_CHECKING:
    from shipcalc.compare.basket import Asked
    from shipcalc.compare.comparison import Comparison
    from shipcalc.places.place import Place
    from shipcalc.ratebook.book import RateBook

BUILT_IN = "the built-in basket"
MOST_OF_ROWS = 120
# Where nobody has set a yard: the two ends of the home roads.
_STARTS = ("98225", "31408")


def compare_rates(
    old_folder: Path,
    new_folder: Path,
    sources: Sources,
    *,
    as_of: date,
    on: date | None = None,
    basket: Path | None,
    quotes: Path | None,
) -> "Comparison":
    """Return what became of a rate book, priced as of a day, for vehicles that are picked up then, or on another day.

    Raises FaultyWorkbook where one of the books or the basket has faults, WrongInput where the books are in two currencies.
    """
    from shipcalc.compare.books import effects
    from shipcalc.compare.carriers import carrier_changes
    from shipcalc.compare.comparison import Comparison
    from shipcalc.ratebook.book import read_rate_book
    from shipcalc.ratebook.changes.differences import differences

    old, new = read_rate_book(old_folder), read_rate_book(new_folder)
    if old.pricing.currency != new.pricing.currency:
        what = f"one book is in {old.pricing.currency}, the other in {new.pricing.currency}: their prices cannot be compared"
        raise WrongInput(
            what, where=new.pricing.cells.get("Currency", "Pricing"), remedy="compare books of one currency"
        )
    starts = _starts(sources)
    picked_up = on or as_of
    as_of = min(as_of, picked_up)
    asked, name = _basket(old, new, starts, sources, picked_up, basket)
    promised, notes = _open_quotes(quotes, as_of) if quotes is not None else ((), ())
    found = tuple(effects(asked, old, new, as_of))
    return Comparison(
        old_name=str(old_folder),
        new_name=str(new_folder),
        old_fingerprint=old.fingerprint,
        new_fingerprint=new.fingerprint,
        currency=new.pricing.currency,
        as_of=as_of,
        on=picked_up,
        rows=differences(old, new),
        basket_name=name,
        basket=tuple(effect for effect in found if effect.asked.only is None),
        alone=tuple(effect for effect in found if effect.asked.only is not None),
        open_quotes=tuple(effects(promised, old, new, as_of)),
        carriers=carrier_changes(old, new, starts, picked_up),
        notes=notes,
    )


def write_comparison(compared: "Comparison", path: Path) -> None:
    """Write the workbook of a comparison. Raises WrongInput where that would take the place of a rate book's own workbook."""
    from shipcalc.documents.office.comparison import write_comparison_workbook
    from shipcalc.ratebook.rows.tables import WORKBOOKS

    own = {(Path(folder) / name).resolve() for folder in (compared.old_name, compared.new_name) for name in WORKBOOKS}
    if path.resolve() in own:
        raise WrongInput(
            "is a workbook of the rate book", where=str(path), remedy=f"name another file with {asked('out')}"
        )
    if path.suffix.lower() != ".xlsx":
        raise WrongInput("is not the name of an Excel file", where=str(path), remedy="name a file that ends in .xlsx")
    write_comparison_workbook(compared, path)


def _basket(
    old: "RateBook", new: "RateBook", starts: "Sequence[Place]", sources: Sources, as_of: date, file: Path | None
) -> "tuple[tuple[Asked, ...], str]":
    """Return the transports to price, and what they are called: the file's, or the spread with those that meet changed rows."""
    from shipcalc.compare.basket import built_in_basket
    from shipcalc.compare.basket_rows import basket_of_rows
    from shipcalc.ratebook.changes.differences import changed_rows

    if file is not None:
        from shipcalc.actions.order_tables import basket_from
        from shipcalc.actions.quoting import Books
        from shipcalc.actions.vehicles import read_stock_of

        return basket_from(file, sources, Books(read_stock_of(sources, old.sizes), old), as_of), file.name
    was, is_now = changed_rows(old, new)
    half = MOST_OF_ROWS // 2
    of_rows = (
        *basket_of_rows(is_now, new, starts, as_of, most=half),
        *basket_of_rows(was, old, starts, as_of, most=half),
    )
    once = {(asked.request, asked.only): asked for asked in (*built_in_basket(starts, as_of), *of_rows)}
    return tuple(once.values()), BUILT_IN


def _starts(sources: Sources) -> "tuple[Place, ...]":
    """Return the dealer's yards that are at home; without any, two far ends of the road network."""
    from shipcalc.places.gazetteer.find import find_place
    from shipcalc.quote.network.territory import is_home

    found = ((yard, find_place(text).place) for yard, text in sources.settings.yards)
    places = (replace(place, yard=yard) for yard, place in found if place is not None)
    yards = tuple(place for place in places if is_home(place.country, place.subdivision))
    ends = (find_place(text).place for text in _STARTS)
    return yards or tuple(place for place in ends if place is not None)


def _open_quotes(folder: Path, as_of: date) -> "tuple[tuple[Asked, ...], tuple[str, ...]]":
    """Return the quotes of a folder that still hold, and sentences about the files that were left out."""
    from shipcalc.actions.files import read_quote
    from shipcalc.compare.basket import Asked, named
    from shipcalc.quote.again import request_again

    if not folder.is_dir():
        raise WrongInput("there is no such folder", where=str(folder), remedy="name the folder that holds the quotes")
    found, ended, strangers = [], 0, []
    for file in sorted(folder.rglob("*.json")):
        try:
            quote = read_quote(file)
        except WrongInput:
            strangers.append(file.name)
            continue
        if quote.valid_until < as_of:
            ended += 1
            continue
        what = named(quote.vehicles[0], quote.to)
        name = f"{quote.number or quote.buyer or file.parent.name}: {what}"
        total = quote.options[quote.recommended].total
        found.append(Asked(name, request_again(quote, as_of), promised=str(total)))
    notes = []
    if ended:
        notes.append(
            f"{ended} {'quote' if ended == 1 else 'quotes'} in {folder} expired and {'is' if ended == 1 else 'are'} left out."
        )
    if strangers:
        are = (
            "1 file is not a complete quote"
            if len(strangers) == 1
            else f"{len(strangers)} files are not complete quotes"
        )
        notes.append(f"In {folder}, {are}: {', '.join(strangers[:3])}.")
    if not found:
        notes.append(f"{folder} holds no quote that is still open on {as_of.isoformat()}.")
    return tuple(found), tuple(notes)
