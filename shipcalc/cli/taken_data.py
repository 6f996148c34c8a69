"""What was taken from a mail as data."""

from decimal import Decimal
from typing import TYPE_CHECKING

from shipcalc.cli.listing import to_json
from shipcalc.sheets.numbers import plain

if TYPE_CHECKING:
    from shipcalc.actions.taking import Taking, Written
    from shipcalc.ratebook.taking.placing import Placed


def taken_json(taking: "Taking", done: "Written | None") -> str:
    """Return what was understood, row by row, what was not, and what was written."""
    told = {
        "mail": taking.mail.name,
        "sender": taking.understood.sender or None,
        "rows": [_row(one) for one in taking.placed],
        "left_out": [
            {"cell": item.where, "text": item.what, "why": item.why, "taken": item.is_taken} for item in taking.left_out
        ],
        "questions": [
            {"key": one.key, "question": one.text, "choices": list(one.choices), "cell": one.where}
            for one in taking.questions
        ],
        "unknown_carriers": list(taking.unknown_carriers),
        "written": str(done.folder) if done is not None else None,
        "counts": {status: sum(one.status == status for one in taking.placed) for status in ("new", "changed", "same")},
    }
    return to_json(told)


def _row(one: "Placed") -> dict[str, object]:
    rate = one.prepared.rate
    values = {
        "sheet": rate.target,
        "cell": rate.where,
        "row": rate.row,
        "carrier": rate.carrier,
        "trailer": rate.trailer or None,
        "mode": rate.mode or None,
        "from": rate.start.text if rate.start else None,
        "to": rate.end.text if rate.end else None,
        "to_country": rate.end.country or None if rate.end else None,
        "basis": rate.basis or None,
        "over_mi": rate.span.over if rate.span else None,
        "up_to_mi": rate.span.up_to if rate.span else None,
        "flat": _number(rate.flat),
        "per_mile": _number(rate.per_mile),
        "percent": _number(rate.percent),
        "minimum": _number(rate.minimum),
        "currency": rate.currency,
        "fuel_included": rate.fuel_included,
        "valid_from": rate.valid_from.isoformat() if rate.valid_from else None,
        "valid_to": rate.valid_to.isoformat() if rate.valid_to else None,
        "reference": rate.reference or None,
        "free_days": rate.free_days,
        "label": rate.label or None,
        "from_day": rate.from_day,
        "note": "; ".join(text for text in (rate.condition, rate.remark) if text) or None,
    }
    return {**values, "book": one.status, "before": one.before or None, "before_cell": one.where or None}


def _number(number: Decimal | None) -> str | None:
    return None if number is None else plain(number)
