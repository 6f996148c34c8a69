"""The Quote as JSON, out and in, exact to the byte both ways.

Written and read by msgspec, which needs neither models nor an import to speak of. What it does not read as it stands is read by
pydantic, which takes a whole number for what was written as 749.0, and names what does not belong.
"""

import re
from functools import cache
from typing import Any

import msgspec

from shipcalc.errors import WrongInput
from shipcalc.quote.model import Quote

# A `Decimal`, and yet no amount.
_NO_AMOUNT = re.compile(r'"[\s+-]*(s?nan\d*|inf(inity)?)\s*"', re.IGNORECASE)


def quote_to_json(quote: Quote) -> str:
    """Return the quote as JSON, two blanks a level."""
    return part_to_json(quote)


def quote_from_json(content: str | bytes, *, where: str = "") -> Quote:
    """Return the quote that `quote_to_json` wrote.

    Raises WrongInput, naming the first thing that does not belong, where it is not a whole quote.
    """
    try:
        text = content if isinstance(content, str) else content.decode()
        if not _NO_AMOUNT.search(text):
            return _decoder().decode(text)
    except ValueError:  # msgspec's own, and that of bytes which are no text
        pass
    return _read_carefully(content, where)


def part_to_json(part: Any) -> str:
    """Return a part of a quote as JSON, as `quote_to_json` writes it."""
    return msgspec.json.format(msgspec.json.encode(part), indent=2).decode()


@cache
def _decoder() -> msgspec.json.Decoder[Quote]:
    return msgspec.json.Decoder(Quote)


def _read_carefully(content: str | bytes, where: str) -> Quote:
    from pydantic import TypeAdapter, ValidationError

    try:
        return TypeAdapter(Quote).validate_json(content)
    except ValidationError as error:
        first = error.errors(include_url=False, include_input=False)[0]
        spot = ".".join(str(step) for step in first["loc"])
        what = f"is not a whole quote ({f'{spot}: ' if spot else ''}{first['msg'].lower()})"
        remedy = "name the quote.json that shipcalc quote --out wrote, as it was written"
        raise WrongInput(what, where=where, remedy=remedy) from None
