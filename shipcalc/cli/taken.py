"""What was taken from a mail, as text: each price beside the rate book's, what was not taken, what is to be answered."""

from collections.abc import Iterable, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.cli.look import Column, Look, bullets, heading, paragraph, table

if TYPE_CHECKING:
    from shipcalc.actions.taking import Taking, Written
    from shipcalc.ratebook.taking.placing import Placed
    from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate

FUEL_SHORT = {True: "in", False: "extra", None: "?"}
MOST_CELLS = 4
MOST_TOLD = 20
LANES = (
    Column("Cell"),
    Column("Trailer"),
    Column("From", wraps=True),
    Column("To", wraps=True),
    Column("Price", "right"),
    Column("In the book", wraps=True),
)
BANDS = (
    Column("Cell"),
    Column("Carrier", wraps=True),
    Column("Trailer"),
    Column("Over (mi)", "right"),
    Column("Up to (mi)", "right"),
    Column("Price", "right"),
    Column("In the book", wraps=True),
)
ONWARD = (
    Column("Cell"),
    Column("Trailer"),
    Column("From port"),
    Column("Country"),
    Column("To", wraps=True),
    Column("Price", "right"),
    Column("In the book", wraps=True),
)
CHARGES = (
    Column("Cell"),
    Column("Port"),
    Column("Charge", wraps=True),
    Column("For a"),
    Column("From day", "right"),
    Column("Price", "right"),
    Column("In the book", wraps=True),
)
AREAS = (Column("Cell"), Column("Area", wraps=True), Column("Piece", wraps=True), Column("In the book", wraps=True))
OCEAN = (
    Column("Cell"),
    Column("Mode"),
    Column("From"),
    Column("To"),
    Column("For"),
    Column("Price", "right"),
    Column("In the book", wraps=True),
)


def lines(taking: "Taking", look: Look, today: date) -> list[str]:
    """Return all that was understood of a mail, and what was not."""
    lines = [look.strong(line) for line in paragraph(look, _headline(taking))]
    if past := [one for one in taking.placed if (one.prepared.rate.valid_to or today) < today]:
        lines += bullets(look, [f"{len(past)} of the prices have ended by {today}"], "!")
    lines += [line for text in _told_of_all(taking) for line in paragraph(look, text)]
    lanes = [one for one in taking.placed if one.prepared.target.sheet == "Lanes"]
    bands = [one for one in taking.placed if one.prepared.target.sheet == "Per mile"]
    ocean = [one for one in taking.placed if one.prepared.target.sheet == "Ocean quotations"]
    if lanes:
        lines += [*heading(look, "Lanes"), *_lane_table(lanes, look)]
    if bands:
        lines += [*heading(look, "Per mile"), *table(look, BANDS, [_band_row(one) for one in bands])]
    if onward := [one for one in taking.placed if one.prepared.target.sheet == "On-carriage"]:
        lines += [*heading(look, "On-carriage"), *table(look, ONWARD, [_onward_row(one) for one in onward])]
    if charges := [one for one in taking.placed if one.prepared.target.sheet == "Port charges"]:
        lines += [*heading(look, "Port charges"), *table(look, CHARGES, [_charge_row(one) for one in charges])]
    if areas := [one for one in taking.placed if one.prepared.target.sheet == "Areas"]:
        lines += [*heading(look, "Areas"), *table(look, AREAS, [_area_row(one) for one in areas])]
    if ocean:
        lines += [*heading(look, "Ocean quotations"), *table(look, OCEAN, [_ocean_row(one) for one in ocean])]
    looks = _grouped([item for item in taking.left_out if item.is_taken])
    left = _grouped([item for item in taking.left_out if not item.is_taken])
    if looks:
        lines += [*heading(look, "Taken, and to be looked at"), *bullets(look, looks)]
    if left:
        lines += [*heading(look, "Not taken"), *bullets(look, left, "!")]
    if taking.questions:
        lines += [
            *heading(look, "To be answered"),
            *bullets(look, [_question_told(question) for question in taking.questions], "?"),
        ]
    return lines


def _headline(taking: "Taking") -> str:
    who = taking.understood.sender or "a sender that is not known"
    found = len(taking.placed)
    return f"{taking.mail.name}, from {who}: {found} {'price' if found == 1 else 'prices'} understood"


def _told_of_all(taking: "Taking") -> list[str]:
    rates = [one.prepared.rate for one in taking.placed if one.prepared.target.sheet != "Areas"]
    if not rates:
        return []
    told = [
        f"Sender: {taking.understood.sender} ({taking.understood.sender_at})" if taking.understood.sender_at else "",
        f"Currency: {_all(rate.currency for rate in rates if rate.currency)}{_assumed(taking)}"
        if any(rate.currency for rate in rates)
        else "",
        f"Fuel: {_all(_fuel(rate) for rate in rates if rate.target == 'Lanes')}"
        if any(rate.target == "Lanes" for rate in rates)
        else "",
        f"Valid: {_all(_days(rate) for rate in rates)}",
        f"Reference: {_all(rate.reference for rate in rates if rate.reference)}"
        if any(rate.reference for rate in rates)
        else "",
    ]
    if taking.remembered.given or taking.remembered.columns:
        words = [
            *(f"{key}: {text}" for key, text in taking.remembered.given.items()),
            *(f"“{key}”: {text}" for key, text in taking.remembered.columns.items()),
        ]
        told.append(f"As answered last time: {'; '.join(words)}")
    return [text for text in told if text]


def _assumed(taking: "Taking") -> str:
    return " (some prices name none)" if taking.understood.assumed_currency else ""


def _all(values: Iterable[str]) -> str:
    distinct = list(dict.fromkeys(values))
    return " / ".join(distinct[:4]) + (" …" if len(distinct) > 4 else "")


def _fuel(rate: "Rate") -> str:
    return {True: "included", False: "not included", None: "not said"}[rate.fuel_included]


def _days(rate: "Rate") -> str:
    first = f"from {rate.valid_from}" if rate.valid_from else ""
    last = f"to {rate.valid_to}" if rate.valid_to else ""
    return " ".join(part for part in (first, last) if part) or "no days are said"


def _lane_table(lanes: "Sequence[Placed]", look: Look) -> list[str]:
    """Return the lanes as a table; fuel and days have columns where they are not the same for all."""
    rates = [one.prepared.rate for one in lanes]
    with_fuel = len({rate.fuel_included for rate in rates}) > 1
    with_days = len({_days(rate) for rate in rates}) > 1
    more = [*([Column("Fuel")] if with_fuel else []), *([Column("Valid", wraps=True)] if with_days else [])]
    rows = []
    for one, rate in zip(lanes, rates, strict=True):
        said = [*([FUEL_SHORT[rate.fuel_included]] if with_fuel else []), *([_days(rate)] if with_days else [])]
        ends = (_end(rate.start), _end(rate.end))
        rows.append((rate.where, rate.trailer or "every", *ends, _price(rate), *said, _beside(one)))
    return table(look, [*LANES[:-1], *more, LANES[-1]], rows)


def _band_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    assert rate.span is not None, "a price of this sheet is for a band"
    up_to = "no end" if rate.span.up_to is None else f"{rate.span.up_to:,}"
    return (rate.where, rate.carrier, rate.trailer, f"{rate.span.over:,}", up_to, _price(rate), _beside(one))


def _onward_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    assert rate.end is not None, "a price of this sheet goes to a country"
    to = rate.end.text or "the whole country"
    return (rate.where, rate.trailer, _port(rate.start), rate.end.country, to, _price(rate), _beside(one))


def _charge_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    day = "" if rate.from_day is None else str(rate.from_day)
    return (rate.where, _port(rate.start), rate.label, rate.basis, day, _price(rate), _beside(one))


def _area_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    return (rate.where, rate.label, _end(rate.end), one.status)


def _ocean_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    return (
        rate.where,
        rate.mode,
        _port(rate.start),
        _port(rate.end),
        ", ".join(text for text in (rate.label, rate.basis.removeprefix("per ")) if text),
        _price(rate),
        _beside(one),
    )


def _end(end: object) -> str:
    return getattr(end, "text", "") if end is not None else "anywhere"


def _port(end: object) -> str:
    return _end(end) if end is not None else "any"


def _price(rate: "Rate") -> str:
    if rate.percent is not None:
        return f"{rate.percent.normalize():f} %"
    if rate.per_mile is not None:
        least = f", min {rate.minimum:,}" if rate.minimum is not None else ""
        return f"{rate.per_mile:.4f}".rstrip("0").rstrip(".") + f" {rate.currency} a mile{least}"
    return f"{rate.flat:,.2f} {rate.currency}"


def _beside(one: "Placed") -> str:
    if one.status == "changed":
        return f"{one.before} → {_price(one.prepared.rate)}"
    return one.status if not one.before or one.status == "same" else f"new (was {one.before})"


def _grouped(items: "Sequence[LeftOut]") -> list[str]:
    """Return what was left out, the same reason told once for all its cells."""
    by_why: dict[str, list[LeftOut]] = {}
    for item in items:
        by_why.setdefault(item.why, []).append(item)
    told = []
    for why, same in by_why.items():
        cells = ", ".join(
            f"{item.where} ({item.what})" if item.what and item.where else item.where or item.what
            for item in same[:MOST_CELLS]
        )
        more = f" and {len(same) - MOST_CELLS} more" if len(same) > MOST_CELLS else ""
        told.append(f"{cells}{more}: {why}")
    return told if len(told) <= MOST_TOLD else [*told[:MOST_TOLD], f"{len(told) - MOST_TOLD} more; --json lists all"]


def _question_told(question: "Question") -> str:
    return question.text + (f" {' / '.join(question.choices)}" if question.choices else "")


def written_lines(done: "Written", taking: "Taking", in_force: Path, look: Look) -> list[str]:
    """Return what was written, and what comes next."""
    counts = f"{done.new} new, {done.changed} changed, {done.same} the same"
    lines = ["", *(look.strong(line) for line in paragraph(look, f"Written into {done.folder}: {counts}."))]
    if done.ended:
        lines += paragraph(look, f"{done.ended} earlier rows end on the day before.")
    if taking.unknown_carriers:
        who = ", ".join(taking.unknown_carriers)
        lines += bullets(
            look,
            [f"{who}: not on the sheet Carriers yet; add a row for each, or the check names it as a fault"],
            "!",
        )
    if done.answers is not None:
        lines += paragraph(look, f"The answers are kept for the next mail of this sender: {done.answers}")
    compare = f"shipcalc rates compare {in_force} {done.folder}"
    return [
        *lines,
        *paragraph(look, f"Next: shipcalc rates check {done.folder}; {compare}; shipcalc rates adopt {done.folder}"),
    ]
