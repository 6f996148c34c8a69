"""What all commands share that ask the register: which quote, which day, who does it, and a sentence of what was done."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.look import (
    look_of_stdout,
    paragraph,
    show,
    show_json,
)
from shipcalc.cli.options import (
    argument,
    day_of_quote,
    now,
    option,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from shipcalc.actions.kept_quotes import Desk


Number = Annotated[str, argument("NUMBER", "The quote's number: Q-2026-0017, or 17 for one of this year.")]
Today = Annotated[str, option("--as-of", "DATE", "The day to count from. Default: today.")]
Who = Annotated[str, option("--who", "NAME", "Who does it, for the record.")]


def desk_of(as_of: str, who: str = "") -> "Desk":
    """Return who sits at which register, and when."""
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.settings import find_settings

    return Desk(find_settings(Path.cwd()), day_of_quote(as_of), now(), who)


def tell(data: "Mapping[str, object]", sentence: str, *, as_json: bool) -> None:
    """Print what was done, as data or in a sentence."""
    from shipcalc.cli.listing import to_json

    if as_json:
        show_json(to_json(dict(data)))
    else:
        show(paragraph(look_of_stdout(), sentence))
