"""The Quote as JSON, out and in, exact to the byte both ways.

Written by the standard library, because pydantic's import and models take longer than everything else about it; read through
pydantic, which checks every part and refuses what does not belong.
"""

import json
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from functools import cache
from json.encoder import encode_basestring
from typing import Any

from shipcalc.errors import WrongInput
from shipcalc.quote.model import Quote, json_name


def quote_to_json(quote: Quote) -> str:
    """Return the quote as JSON, two blanks a level."""
    return part_to_json(quote)


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


def part_to_json(part: Any, line: str = "\n") -> str:
    """Return a part of a quote as JSON, as `quote_to_json` writes it; `line` is the break and the blanks before its last line.

    Written straight from the parts: with an indent, the standard library writes five times as long.
    """
    if isinstance(part, str):
        return encode_basestring(part)
    if part is None or isinstance(part, bool):
        return _JSON_WORDS[part]
    if isinstance(part, (Decimal, date)):
        return f'"{part}"'
    deeper = f"{line}  "
    if isinstance(part, (tuple, list)):
        entries = [part_to_json(entry, deeper) for entry in part]
        return f"[{deeper}{f',{deeper}'.join(entries)}{line}]" if entries else "[]"
    if is_dataclass(part):
        told = [f"{key}{part_to_json(getattr(part, name), deeper)}" for name, key in _keys(part.__class__)]
        return f"{{{deeper}{f',{deeper}'.join(told)}{line}}}"
    return json.dumps(part)


_JSON_WORDS = {None: "null", True: "true", False: "false"}


@cache
def _keys(kind: type) -> tuple[tuple[str, str], ...]:
    """Return the names of a class's fields, and the beginnings of their lines."""
    return tuple((field.name, f'"{json_name(field.name)}": ') for field in fields(kind))
