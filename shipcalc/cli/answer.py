"""A quote on the terminal. First of all: how much, when, what else to pay, what is not included."""

from collections.abc import Callable, Mapping, Sequence

from shipcalc.cli.charge_rows import charge_row, days_shown, figures, headline, made_of, ready_by, totals
from shipcalc.cli.look import Column, Look, bullets, heading, pairs, paragraph, table
from shipcalc.cli.words import amount
from shipcalc.documents.offer.landing import exchange_told
from shipcalc.documents.wording import day, place, window
from shipcalc.documents.wording import left_out as left_out_name
from shipcalc.quote.explain.stages import is_staged
from shipcalc.quote.model import Option, Quote


def quote_lines(quote: Quote, look: Look, *, chosen: int, for_office: bool) -> list[str]:
    """Return everything that a quote says as lines of text; `chosen` is the option whose lines are shown."""
    option = quote.options[chosen]
    if is_staged(option):
        from shipcalc.cli import overseas  # late: a quote at home, the commonest, does without

        answer = [
            headline(quote, look),
            _listed(look, "Before the price", option.before_price, "!"),
            overseas.first_things(quote, option, look),
            overseas.choices(quote, look, chosen=chosen),
        ]
    else:
        answer = [
            _what(quote, option, look),
            _listed(look, "Before the price", option.before_price, "!"),
            _first_things(quote, option, look),
            _choices(quote, look, chosen=chosen),
        ]
    answer.append(_reason(quote, look))
    shown = sections(quote, look, tuple(SECTIONS), chosen=chosen, for_office=for_office)
    return [*(line for part in answer for line in part), *shown]


def sections(quote: Quote, look: Look, names: Sequence[str], *, chosen: int, for_office: bool) -> list[str]:
    """Return some parts of what stands behind the card, by their names."""
    option = quote.options[chosen]
    return [line for name in names for line in SECTIONS[name](quote, option, chosen, look, for_office=for_office)]


def _lines(quote: Quote, option: Option, chosen: int, look: Look, *, for_office: bool) -> list[str]:
    if is_staged(option):
        from shipcalc.cli import overseas

        lines = overseas.charges(quote, option, chosen, look, for_office=for_office)
    else:
        lines = _charges(quote, option, chosen, look, for_office=for_office)
    return [*lines, *(_office(quote, option, look) if for_office else [])]


def _duty(quote: Quote, option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    if not is_staged(option):
        return []
    from shipcalc.cli import overseas

    return overseas.treatments(quote, option, look)


def _minded(_quote: Quote, option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    return _listed(look, "Mind", option.warnings, "!")


def _included(_quote: Quote, option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    included = _listed(look, "Included", option.included, "·")
    return [*included, *_listed(look, "Not included", option.not_included, "·")]


def _assumed(quote: Quote, _option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    return _listed(look, "Assumed", quote.assumptions, "·")


def _cautioned(quote: Quote, _option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    return _listed(look, "To know", quote.cautions, "·")


def _dated(_quote: Quote, option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    columns = (Column("Step by step", wraps=True), Column("When"), Column("", wraps=True))
    rows = [
        (
            step.what,
            days_shown((step.earliest, step.latest), look),
            " ".join(n for n in (step.note, step.office_note) if n),
        )
        for step in option.dates.timeline
    ]
    return ["", *table(look, columns, rows)] if rows else []


def _papers(_quote: Quote, option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    columns = (Column("Papers", wraps=True), Column("Prepared by", wraps=True), Column("Due"))
    due = (
        option.documents
        if for_office
        else [one for one in option.documents if "buyer" in (one.prepared_by, one.given_to)]
    )
    rows = list(dict.fromkeys((one.title, one.prepared_by, one.due.isoformat()) for one in due))
    needed = _listed(look, "Needed from the buyer", option.needed_from_buyer, "·")
    return [*(["", *table(look, columns, rows)] if rows else []), *needed]


def _what(quote: Quote, option: Option, look: Look) -> list[str]:
    ways = [f"{place(leg.from_)} to {place(leg.to)}, {leg.distance:,} {leg.unit}" for leg in option.legs]
    return [*headline(quote, look), *(line for way in ways for line in paragraph(look, way))]


def _first_things(quote: Quote, option: Option, look: Look) -> list[str]:
    trailer = f", {option.trailer} trailer" if option.trailer else ""
    total = f"{amount(option.total)} {quote.currency}"
    if option.converted is not None and quote.exchange is not None:
        total += f" ({amount(option.converted.total)} {quote.exchange.currency})"
    at_home = option.buyer_pays_locally
    entries = [
        ("Price", f"{total}{trailer}"),
        ("Delivered", f"{window(option.dates.delivery)}, picked up {window(option.dates.pickup)}"),
        ("Ready by", ready_by(quote, option)),
        (
            "Also to pay",
            f"{amount(at_home)} {quote.currency} at the buyer's place"
            if at_home
            else "nothing more to the dealer or the carrier",
        ),
        ("Not included", " ".join(option.not_included)),
        ("Deposit", f"{amount(option.deposit)} {quote.currency} to book" if option.deposit else ""),
        ("Exchange", exchange_told(quote)),
        ("Good until", day(quote.valid_until)),
    ]
    lines = pairs(look, entries)
    return ["", lines[0].replace(total, look.strong(total), 1), *lines[1:]]


def _choices(quote: Quote, look: Look, *, chosen: int) -> list[str]:
    columns = (
        Column(""),
        Column("Choice", wraps=True),
        Column(f"Total {quote.currency}", "right"),
        Column("Picked up", wraps=True),
        Column("Delivered", wraps=True),
        Column("Cover", "right"),
    )
    rows = []
    for number, option in enumerate(quote.options):
        mark = f"{number + 1}{' *' if number == quote.recommended else ''}"
        # "Open trailer: lowest price", where the quote says "lowest price, open trailer" for those who see no title.
        good_for = ", ".join(good.removesuffix(f", {option.title.lower()}") for good in option.good_for)
        rows.append(
            (
                mark,
                f"{option.title}: {good_for}" if good_for else option.title,
                amount(option.total),
                days_shown(option.dates.pickup, look),
                days_shown(option.dates.delivery, look),
                f"{option.cover:,.0f}",
            )
        )
    shown = "" if chosen == quote.recommended else f", the lines below are of choice {chosen + 1}"
    return [*heading(look, f"Choices (* recommended{shown})"), *table(look, columns, rows)]


def _reason(quote: Quote, look: Look) -> list[str]:
    return ["", *paragraph(look, f"Recommended: choice {quote.recommended + 1}. {quote.reason}")]


def _charges(quote: Quote, option: Option, chosen: int, look: Look, *, for_office: bool) -> list[str]:
    """Return the lines that the total covers."""
    columns = (
        Column(made_of(chosen), wraps=True),
        Column("", wraps=True),
        *(Column(figure, "right") for figure in figures(quote, for_office=for_office)),
    )
    several = len(quote.vehicles) > 1
    rows = [charge_row(charge, for_office=for_office, name_vehicle=several) for charge in option.charges]
    return ["", *table(look, columns, [*rows, ("Total", "", *totals(option, for_office=for_office))], total=True)]


def _office(quote: Quote, option: Option, look: Look) -> list[str]:
    legs = [
        f"{leg.carrier}: {leg.distance:,} {leg.unit} from {place(leg.from_)} ({leg.method}"
        f"{f', {leg.method_note}' if leg.method_note else ''})"
        for leg in option.legs
    ]
    left_out = [f"{left_out_name(out)}: {out.reason}" for out in quote.left_out]
    book = f"rate book {quote.rate_book.fingerprint[:12]}"
    return [*_listed(look, f"Carried by ({book})", legs, "·"), *_listed(look, "Left out", left_out, "·")]


def _listed(look: Look, title: str, texts: Sequence[str], sign: str) -> list[str]:
    return [*heading(look, title), *bullets(look, texts, sign)] if texts else []


# What `--show` names, in the order in which `--full` prints it.
SECTIONS: Mapping[str, Callable[..., list[str]]] = {
    "lines": _lines,
    "duty": _duty,
    "warnings": _minded,
    "included": _included,
    "dates": _dated,
    "papers": _papers,
    "assumed": _assumed,
    "cautions": _cautioned,
}
