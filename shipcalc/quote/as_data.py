"""The Quote as JSON, out and in, exact to the byte both ways.

Written by the standard library, because pydantic's import and models take longer than everything else about it; read through
pydantic, which checks every part and refuses what does not belong.
"""

import json
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from shipcalc.errors import WrongInput
from shipcalc.quote.model import Quote, json_name


def quote_to_json(quote: Quote) -> str:
    """Return the quote as JSON, two blanks a level."""
    return json.dumps(plain(quote), ensure_ascii=False, indent=2)


def quote_from_json(content: str | bytes, *, where: str = "") -> Quote:
    """Return the quote that `quote_to_json` wrote.

    Raises WrongInput, naming the first thing that does not belong, where it is not a whole quote.
    """
    from pydantic import TypeAdapter, ValidationError

    try:
        return TypeAdapter(Quote).validate_json(content)
    except ValidationError as error:
        first = error.errors(include_url=False, include_input=False)[0]
        spot = ".".join(str(step) for step in first["loc"])
        what = f"is not a whole quote ({f'{spot}: ' if spot else ''}{first['msg'].lower()})"
        remedy = "name the quote.json that shipcalc quote --out wrote, as it was written"
        raise WrongInput(what, where=where, remedy=remedy) from None


def plain(part: Any) -> Any:
    """Return a part of a quote as plain lists, dictionaries and strings, as they stand in the JSON."""
    if is_dataclass(part):
        return {json_name(field.name): plain(getattr(part, field.name)) for field in fields(part)}
    if isinstance(part, (tuple, list)):
        return [plain(entry) for entry in part]
    if isinstance(part, Decimal):
        return str(part)
    if isinstance(part, date):
        return part.isoformat()
    return part
