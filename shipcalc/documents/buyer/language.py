"""The buyer's offer in another language than English, and what the office is told of that."""

from collections.abc import Iterator

from shipcalc.languages.known import LANGUAGES
from shipcalc.languages.reader import Reader
from shipcalc.one_line import one_line
from shipcalc.quote.model import Quote
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Translated:
    """What the office is told of a translation, and the texts of it that stayed English."""

    told: str
    english: tuple[str, ...]


def reader_of(quote: Quote, language: str) -> Reader:
    """Return who reads a quote in one of LANGUAGES; its names stay as they are."""
    return Reader(language, frozenset(filter(None, _names(quote))))


def _names(quote: Quote) -> Iterator[str]:
    yield from (quote.buyer, one_line(quote.buyer), quote.currency)
    for vehicle in quote.vehicles:
        yield from (vehicle.name, vehicle.stock_number, vehicle.serial, f"{vehicle.name} ({vehicle.stock_number})")
    for option in quote.options:
        for leg in option.legs:
            yield from (leg.from_.name, leg.to.name)


def translated(reader: Reader) -> Translated:
    """Return what there is to say of what a reader has read."""
    name = LANGUAGES[reader.language]
    count = len(reader.missing)
    kept = f" {'1 text' if count == 1 else f'{count} texts'} of them stayed English." if count else ""
    told = (
        f"The buyer's offer (quote.pdf) and the message are in {name}, translated by the program's own catalogue: a native "
        f"speaker has to read all of both before they are sent.{kept} The workbook is in English."
    )
    return Translated(told, reader.missing)
