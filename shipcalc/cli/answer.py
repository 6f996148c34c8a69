"""A whole quote on the terminal: the card, uncut, and the sections behind it; one that has nothing to say is not printed."""

from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal

from shipcalc.cli.card import whole_card
from shipcalc.cli.look import Column, Look, bullets, heading, paragraph, table
from shipcalc.cli.words import amount, days_shown, reckoning
from shipcalc.documents import wording
from shipcalc.documents.notes import Notes, notes, papers
from shipcalc.documents.offer.itemised import included_charges, label, local_charges
from shipcalc.documents.offer.landing import as_told, criteria_told, treatment_name, treatment_rows
from shipcalc.documents.offer.timeline import steps
from shipcalc.quote.explain.stages import by_stage, has_stages, stage_title
from shipcalc.quote.model import Charge, Option, Quote
from shipcalc.quote.network.territory import is_domestic

_NO_DUTY = "It stays within the United States and their territories: no duty and no import tax is counted."
_DUTY_UNKNOWN = "Duty and tax there are not known to us: ask a licensed customs broker there."


def quote_lines(quote: Quote, look: Look, *, chosen: int, for_office: bool) -> list[str]:
    """Return everything that a quote says as lines of text; `chosen` is the option whose lines are shown."""
    card = whole_card(quote, look, chosen=chosen, for_office=for_office)
    option = quote.options[chosen]
    # Where the customs may treat it in one way alone, what they ask stands among the lines already.
    names = [name for name in SECTIONS if name != "duty" or len(option.imports) > 1]
    return [*card, *_told_of(quote, option, look, names, chosen=chosen, for_office=for_office)]


def sections(quote: Quote, look: Look, names: Sequence[str], *, chosen: int, for_office: bool) -> list[str]:
    """Return some parts of what stands behind the card, by their names; that there is nothing is said of each."""
    option = quote.options[chosen]
    return [
        line
        for name in names
        for line in _told_of(quote, option, look, [name], chosen=chosen, for_office=for_office)
        or ["", f"There is nothing to say under {name}."]
    ]


def _told_of(
    quote: Quote, option: Option, look: Look, names: Sequence[str], *, chosen: int, for_office: bool
) -> list[str]:
    return [line for name in names for line in SECTIONS[name](quote, option, chosen, look, for_office=for_office)]


def _lines(quote: Quote, option: Option, chosen: int, look: Look, *, for_office: bool) -> list[str]:
    """Return the lines that the total covers, below them those that the buyer pays to others; for the office who carries it."""
    cost = option.total_cost or Decimal(0)
    figures, sums = [quote.currency], [option.total]
    if for_office:
        figures, sums = ["Price", "Cost", "Margin"], [option.total, cost, option.total - cost]
    title = f"What choice {chosen + 1} is made of"
    lines = _charges(quote, option, look, title, included_charges(option), figures, sums, for_office=for_office)
    if local := local_charges(option):
        title, sums = "What the buyer pays to others (estimate)", [option.buyer_pays_locally]
        lines += _charges(quote, option, look, title, local, [quote.currency], sums, for_office=for_office)
    return [*lines, *(_office(quote, option, look) if for_office else [])]


def _charges(
    quote: Quote,
    option: Option,
    look: Look,
    title: str,
    charges: Sequence[Charge],
    figures: Sequence[str],
    sums: Sequence[Decimal],
    *,
    for_office: bool,
) -> list[str]:
    """Return lines and their sum, where there are several stages under their names; in a pipe every line names its own."""
    several, in_pipe = has_stages(option), look.width is None
    rows: list[Sequence[str] | str] = []
    for stage, own in by_stage(charges):
        name = stage_title(stage, option)
        if several and not in_pipe:
            rows.append(name)
        first = [name if in_pipe else ""] if several else []
        rows += [(*first, *_charge(quote, charge, len(figures), for_office=for_office)) for charge in own]
    columns = [Column(title, wraps=True), Column("", wraps=True), *(Column(figure, "right") for figure in figures)]
    total = ["Total", "", *(amount(one) for one in sums)]
    if several:
        columns, total = [Column("Stage" if in_pipe else ""), *columns], ["", *total]
    return ["", *table(look, columns, [*rows, total], total=True)]


def _charge(quote: Quote, charge: Charge, figures: int, *, for_office: bool) -> tuple[str, ...]:
    """Return a line: what for, how it comes about, for the office from which cell; amount, cost and margin as far as asked."""
    own = (charge.source, charge.offer) if for_office else ()
    how = " · ".join(part for part in (reckoning(charge), *own) if part)
    cost = charge.cost.amount if charge.cost else Decimal(0)
    amounts = (charge.amount, cost, charge.amount - cost)
    return (label(charge, quote), how, *(amount(one) for one in amounts[:figures]))


def _office(quote: Quote, option: Option, look: Look) -> list[str]:
    legs = [
        f"{leg.carrier}: {leg.distance:,} {leg.unit} from {wording.place(leg.from_)} ({leg.method}"
        f"{f', {leg.method_note}' if leg.method_note else ''})"
        for leg in option.legs
    ]
    left_out = [f"{wording.left_out(out)}: {out.reason}" for out in quote.left_out]
    held = option.in_hand
    to_settle = (f"{wording.sentence_case(wording.in_hand_from(option))}.", *held.to_check) if held else ()
    told = (
        Notes("Carried by", tuple(legs)),
        Notes("Before you promise it", to_settle),
        Notes("When it happens", tuple(wording.when_it_happens(one, quote.currency) for one in option.when_it_happens)),
        Notes("Left out", tuple(left_out)),
    )
    return [line for one in told for line in _listed(look, one)]


def _duty(quote: Quote, option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    """Return what the customs may ask, under each treatment that there may be; or why none of it is counted."""
    if not option.imports:
        return ["", *paragraph(look, _NO_DUTY if is_domestic(quote.to.country) else _DUTY_UNKNOWN)]
    columns = (
        Column("", wraps=True),
        *(Column(f"{treatment_name(one)} {quote.currency}", "right", wraps=True) for one in option.imports),
    )
    rows = [
        (name, *(f"{reckoning(line)} = {amount(line.amount)}" if line is not None else "–" for line in lines))
        for name, lines in treatment_rows(quote, option)
    ]
    together = ("Together", *(amount(one.amount) for one in option.imports))
    others = " or ".join(as_told(one) for one in option.imports if not one.counted)
    title = f"If customs take it {others}" if others else "What customs may ask"
    counted = "The first column is counted above. All are estimates" if others else "It is an estimate"
    told = [*filter(None, map(criteria_told, option.imports)), f"{counted}; ask a licensed customs broker there."]
    return [
        *heading(look, title),
        *table(look, columns, [*rows, together], total=True),
        *(line for text in told for line in paragraph(look, text, first="  " if look.width else "")),
    ]


def _dated(_quote: Quote, option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    columns = (Column("Step by step", wraps=True), Column("When"), Column("", wraps=True))
    told = steps([option], for_office=True)
    rows = [
        (step.what, ", ".join(days_shown(days, look.width) for days in step.windows[0]), step.note) for step in told
    ]
    return ["", *table(look, columns, rows)] if rows else []


def _papers(quote: Quote, option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    columns = (Column("Papers", wraps=True), Column("Prepared by", wraps=True), Column("Due"))
    due = papers(option, for_office=for_office)
    rows = [(title, prepared_by, when.isoformat()) for title, prepared_by, when in due]
    return [*(["", *table(look, columns, rows)] if rows else []), *_listed(look, notes("needed", quote, option))]


def _book(quote: Quote, _option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
    """Return which rate book the prices are from: `shipcalc rates history` knows it by its fingerprint."""
    stamp = quote.rate_book
    first, last = (day.isoformat() if day else "open" for day in (stamp.valid_from, stamp.valid_to))
    return ["", *paragraph(look, f"Rate book {stamp.fingerprint}, valid {first} to {last}")]


def _told(*subjects: str) -> Callable[..., list[str]]:
    """Return the section of some lists of sentences; warnings have a sign of their own."""

    def section(quote: Quote, option: Option, _chosen: int, look: Look, *, for_office: bool) -> list[str]:
        return [
            line
            for subject in subjects
            for line in _listed(look, notes(subject, quote, option), "!" if subject == "noted" else "·")
        ]

    return section


def _listed(look: Look, told: Notes, sign: str = "·") -> list[str]:
    return [*heading(look, told.title), *bullets(look, told.sentences, sign)] if told.sentences else []


def _script(quote: Quote, _option: Option, chosen: int, look: Look, *, for_office: bool) -> list[str]:
    """Return three sentences to say on the telephone: they are a buyer's, whoever asks."""
    from shipcalc.documents.offer.sentences import phone_script

    said = (line for sentence in phone_script(quote, chosen) for line in paragraph(look, sentence))
    return [*heading(look, "To say on the telephone"), *said]


# What `--show` names, in the order in which `--full` prints it.
SECTIONS: Mapping[str, Callable[..., list[str]]] = {
    "lines": _lines,
    "duty": _duty,
    "warnings": _told("noted"),
    "included": _told("included", "missing"),
    "dates": _dated,
    "papers": _papers,
    "assumed": _told("assumed"),
    "cautions": _told("cautions"),
    "book": _book,
    "script": _script,
}
