"""An overseas quote on the terminal: what it comes to altogether, who pays what, stage by stage, and what the customs may ask."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from shipcalc.cli.charge_rows import charge_row, days_shown, figures, made_of, ready_by, totals
from shipcalc.cli.look import Column, Look, Row, heading, pairs, paragraph, table
from shipcalc.cli.words import amount, reckoning
from shipcalc.documents.offer.landing import (
    altogether,
    exchange_told,
    landed_label,
    less_as_collector,
    less_with_proof,
    others_told,
    treatment_name,
    treatment_rows,
)
from shipcalc.documents.wording import day, lower_first, term, way, window
from shipcalc.quote.explain.stages import by_stage, covered_in_words, stage_title
from shipcalc.quote.model import Charge, Option, Quote
from shipcalc.quote.price.exchange import converted


def first_things(quote: Quote, option: Option, look: Look) -> list[str]:
    """Return what is asked first: how much, when, what else to pay and what it comes to, what is not included."""
    ways = [line for leg in option.legs for line in paragraph(look, way(leg, option))]
    total = _sum(quote, option.total)
    local = f"about {_sum(quote, option.buyer_pays_locally)} to others, an estimate: {others_told(option)}"
    landed = f"about {_sum(quote, option.landed)} {landed_label(quote, option)}" if option.landed is not None else ""
    saving = less_as_collector(option)
    less = f"; {amount(saving)} less if the customs take it as a collector's piece" if saving else ""
    proven = less_with_proof(option)
    less += f"; {amount(proven)} less with proof of origin, if the customs admit it" if proven else ""
    entries = [
        ("Price", f"{total}, {term(option)} (Incoterms 2020)"),
        ("Delivered", f"{window(option.dates.delivery)}, picked up {window(option.dates.pickup)}"),
        ("Ready by", ready_by(quote, option)),
        ("Also to pay", local if option.buyer_pays_locally else "nothing more that we know of"),
        ("Altogether", f"about {_sum(quote, altogether(option))} to bring it there{less}"),
        ("Landed", landed),
        ("Not included", " ".join(option.not_included)),
        ("Risk passes", option.risk_passes),
        ("Covered", covered_in_words(option, quote.currency)),
        ("Deposit", f"{_sum(quote, option.deposit)} to book" if option.deposit else ""),
        ("Exchange", exchange_told(quote)),
        ("Good until", day(quote.valid_until)),
    ]
    lines = pairs(look, entries)
    return [
        *ways,
        "",
        lines[0].replace(total, look.strong(total), 1),
        *lines[1:],
    ]


def choices(quote: Quote, look: Look, *, chosen: int) -> list[str]:
    """Return the choices side by side: total, what is paid to others, altogether, when; sums in both currencies."""
    columns = (
        Column(""),
        Column("Choice", wraps=True),
        *_sum_columns(look, "Total", quote),
        *_sum_columns(look, "To others", quote),
        *_sum_columns(look, "Altogether", quote),
        Column("Delivered", wraps=look.width is not None),
    )
    rows = []
    for number, option in enumerate(quote.options):
        mark = f"{number + 1}{' *' if number == quote.recommended else ''}"
        told = f"{option.title}: {', '.join(option.good_for)}" if option.good_for else option.title
        sums = (option.total, option.buyer_pays_locally, altogether(option))
        cells = [cell for sum_ in sums for cell in _sum_cells(quote, look, sum_)]
        rows.append((mark, told, *cells, days_shown(option.dates.delivery, look)))
    shown = "" if chosen == quote.recommended else f", the lines below are of choice {chosen + 1}"
    return [*heading(look, f"Choices (* recommended{shown})"), *table(look, columns, rows)]


def charges(quote: Quote, option: Option, chosen: int, look: Look, *, for_office: bool) -> list[str]:
    """Return the lines that the total covers, stage by stage, and below them those that the buyer pays to others."""
    covered = [charge for charge in option.charges if charge.payer == "seller"]
    local = [charge for charge in option.charges if charge.payer == "buyer"]
    lines = _staged(
        quote,
        option,
        look,
        made_of(chosen),
        covered,
        figures(quote, for_office=for_office),
        totals(option, for_office=for_office),
        for_office=for_office,
    )
    if local:
        title = "What the buyer pays to others (estimate)"
        sums = (amount(option.buyer_pays_locally),)
        lines += _staged(quote, option, look, title, local, (quote.currency,), sums, for_office=for_office)
    return lines


_OTHERWISE = {
    "ordinary": "as an ordinary vehicle",
    "collector": "as a collector's piece",
    "preference": "with proof of its origin",
}


def treatments(quote: Quote, option: Option, look: Look) -> list[str]:
    """Return what the customs may ask if they treat the vehicle in another way, beside what is counted."""
    if len(option.imports) < 2:
        return []
    columns = (
        Column("", wraps=True),
        *(Column(f"{treatment_name(one)} {quote.currency}", "right", wraps=True) for one in option.imports),
    )
    rows = [
        (label, *(f"{reckoning(line)} = {amount(line.amount)}" if line is not None else "–" for line in lines))
        for label, lines in treatment_rows(quote, option)
    ]
    together = ("Together", *(amount(one.amount) for one in option.imports))
    criteria = [
        f"The customs ask for: {lower_first(one.criteria.rstrip('.'))}." for one in option.imports if one.criteria
    ]
    told = "The first column is counted above. All are estimates; ask a licensed customs broker there."
    others = " or ".join(_OTHERWISE[one.treatment] for one in option.imports if not one.counted)
    return [
        *heading(look, f"If the customs take it {others}"),
        *table(look, columns, [*rows, together], total=True),
        *(line for text in (*criteria, told) for line in paragraph(look, text, first="  " if look.width else "")),
    ]


def _staged(
    quote: Quote,
    option: Option,
    look: Look,
    title: str,
    lines: Sequence[Charge],
    titles: Sequence[str],
    sums: Sequence[str],
    *,
    for_office: bool,
) -> list[str]:
    """Return lines under the names of their stages; in a pipe every line names its stage in the first column."""
    several = len(quote.vehicles) > 1
    money = [Column(figure, "right") for figure in titles]
    rows: list[Row] = []
    for stage, own in by_stage(lines):
        name = stage_title(stage, option)
        if look.width is not None:
            rows.append(name)
        for charge in own:
            row = charge_row(charge, for_office=for_office, name_vehicle=several)
            rows.append(("" if look.width is not None else name, *row))
    columns = (
        Column("" if look.width is not None else "Stage"),
        Column("Line", wraps=True),
        Column("", wraps=True),
        *money,
    )
    return [*heading(look, title), *table(look, columns, [*rows, ("", "Total", "", *sums)], total=True)]


def _sum(quote: Quote, value: Decimal) -> str:
    """Return `2,905.00 USD`, and in brackets the same in the buyer's currency where there is one."""
    told = f"{amount(value)} {quote.currency}"
    if quote.exchange is None:
        return told
    return f"{told} ({amount(converted(value, quote.exchange))} {quote.exchange.currency})"


def _sum_columns(look: Look, title: str, quote: Quote) -> Iterator[Column]:
    """Yield the columns of a sum: on a terminal both currencies in one, in a pipe one each."""
    currencies = (quote.currency, quote.exchange.currency) if quote.exchange else (quote.currency,)
    if look.width is None:
        yield from (Column(f"{title} {currency}") for currency in currencies)
    else:
        yield Column("\n".join((title, *currencies)), "right")


def _sum_cells(quote: Quote, look: Look, value: Decimal) -> Iterator[str]:
    if quote.exchange is None:
        yield amount(value)
        return
    told = (amount(value), amount(converted(value, quote.exchange)))
    yield from told if look.width is None else ("\n".join(told),)
