"""The Quote as JSON, out and in: checked by pydantic, exact to the byte both ways."""

from typing import TYPE_CHECKING, Any

from shipcalc.errors import WrongInput
from shipcalc.quote.model import Quote

if TYPE_CHECKING:
    from pydantic import TypeAdapter


def quote_to_json(quote: Quote) -> str:
    """Return the quote as JSON, two blanks a level."""
    return _adapter(Quote).dump_json(quote, by_alias=True, indent=2).decode()


def quote_from_json(content: str | bytes, *, where: str = "") -> Quote:
    """Return the quote that `quote_to_json` wrote.

    Raises WrongInput, naming the first thing that does not belong, where it is not a whole quote.
    """
    from pydantic import ValidationError

    try:
        quote: Quote = _adapter(Quote).validate_json(content)
    except ValidationError as error:
        first = error.errors(include_url=False, include_input=False)[0]
        spot = ".".join(str(step) for step in first["loc"])
        what = f"is not a whole quote ({f'{spot}: ' if spot else ''}{first['msg'].lower()})"
        remedy = "name the quote.json that shipcalc quote --out wrote, as it was written"
        raise WrongInput(what, where=where, remedy=remedy) from None
    return quote


def plain(part: Any) -> Any:
    """Return a part of a quote as plain lists, dictionaries and strings, as they stand in the JSON."""
    return _adapter(type(part)).dump_python(part, mode="json", by_alias=True)


def _adapter(kind: type[Any]) -> "TypeAdapter[Any]":
    from pydantic import TypeAdapter

    if kind not in _ADAPTERS:
        _ADAPTERS[kind] = TypeAdapter(kind)
    return _ADAPTERS[kind]


_ADAPTERS: "dict[type[Any], TypeAdapter[Any]]" = {}
