"""What it really cost, on the rates page: quotes beside their bills, by group."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from shipcalc.actions.bills import report
from shipcalc.actions.kept_quotes import Desk
from shipcalc.documents import wording
from shipcalc.documents.office.bills_workbook import buffer_told, headline
from shipcalc.errors import ShipcalcError
from shipcalc.money import to_decimal

if TYPE_CHECKING:
    from shipcalc.learning.accuracy import Accuracy

_SHARE = 0.9
_MOST = 40


def cost_data(desk: Desk) -> Mapping[str, Any]:
    """Return what the page shows of bills; a sentence where there is nothing to compare, or no register to be read."""
    try:
        made = report(desk, since=None, share=_SHARE)
    except ShipcalcError as error:
        return {"nothing": f"{wording.sentence_case(str(error))}."}
    return {
        "nothing": "",
        "headline": headline(made),
        "buffer": list(buffer_told(made)),
        "currency": made.currency,
        "groups": [_row(one, made.currency) for one in made.groups[:_MOST]],
    }


def _row(one: "Accuracy", currency: str) -> tuple[str, ...]:
    reckoned, paid = (f"{to_decimal(minor, currency):,}" for minor in (one.reckoned_minor, one.paid_minor))
    name = one.name if one.by in ("", "all") else f"{one.name} ({one.by})"
    return name, f"{one.count}", reckoned, paid, f"{one.bias:+.1%}", f"{one.under_cost:.0%}"
