"""A quotation that lists its charges one below the other: the freight between two ports, and what is asked on top of it.

As a table (charge, basis, currency, amount), or as a form of labels and what stands behind them ("BAF: 12 %").
"""

from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.answers import LEAVE_OUT, PERCENT
from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block
from shipcalc.ratebook.taking.body import Body
from shipcalc.ratebook.taking.currencies import DOLLAR
from shipcalc.ratebook.taking.ends import End
from shipcalc.ratebook.taking.figures import NoFigure, figure_in, is_included
from shipcalc.ratebook.taking.meanings import SURCHARGE, Meaning, meaning_of
from shipcalc.ratebook.taking.page import Page, Spot
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate, Taken
from shipcalc.ratebook.taking.surcharges import MAY_BE, MOST_ASKED, kind_of, share_in, share_question
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, traits_in
from shipcalc.records import dataclass, replace

AT_PORT = "is a charge of a port or an agent: what a vehicle pays goes into Port charges or Stage charges by hand"
ON_ALL = "is a surcharge on all freights of the page"
NO_BASIS = "is no surcharge of which is said what it is for"
NOT_KNOWN = "is no freight and no surcharge that is known, and is not taken"


@dataclass(frozen=True, slots=True)
class Item:
    """One charge: its name, the cell of its sum, what its row says beside it."""

    name: str
    spot: Spot
    traits: Traits = NO_TRAITS


def items_of(block: Block, body: Body) -> Iterator[Item]:
    """Yield the charges of a table."""
    page = block.page
    label = block.of("charge")[0]
    for one in body.rows:
        for price in block.prices:
            if (one.row, price.at) in page.values:
                said = [page.text(one.row, column.at) for column in block.of("basis", "currency", "container", "mode")]
                traits = NO_TRAITS
                for text in said:
                    traits = traits.over(
                        traits_in(text if text[:1] in "%/" or text.casefold().startswith("per") else f"per {text}")[0]
                    )
                    traits = traits.over(traits_in(text)[0])
                is_share = any("%" in text or "percent" in text.casefold() for text in said)
                yield Item(
                    page.text(one.row, label.at) + (" %" if is_share else ""),
                    (one.row, price.at),
                    traits.over(price.meaning.traits),
                )


def taken_charges(page: Page, items: Sequence[Item], around: Around, *, on_all: bool = False) -> Taken:
    """Return the freight and the surcharges of a quotation; without two ports, or without a freight, all is named alone.

    `on_all`: the freights stand in another table, and all that is a surcharge is on all of them.
    """
    facts = around.facts
    meanings = {item.spot: meaning_of(item.name.removesuffix(" %")) for item in items}
    has_freight = any(meaning.is_price for meaning in meanings.values())
    if not on_all and not (facts.pol and facts.pod and has_freight):
        at_port = (LeftOut(page.short(*one.spot), f"{one.name} {page.text(*one.spot)}", AT_PORT) for one in items)
        return Taken(left_out=tuple(at_port))
    rates: list[Rate] = []
    left: list[LeftOut] = []
    questions: list[Question] = []
    for item in items:
        made = _rate(page, item, meanings[item.spot], around)
        if isinstance(made, Question) and len(questions) < MOST_ASKED:
            questions.append(made)
        elif isinstance(made, Question):
            left.append(LeftOut(made.where, page.text(*item.spot), MAY_BE))
        elif isinstance(made, LeftOut):
            left.append(made)
        elif made is not None and on_all:
            on_every = replace(made, start=None, end=None)
            is_plain = made.label and (made.basis or made.percent is not None)
            rates += [on_every] if is_plain else []
            left.append(LeftOut(made.where, item.name, ON_ALL if is_plain else NO_BASIS, is_taken=bool(is_plain)))
        elif made is not None:
            rates.append(made)
    return Taken(tuple(rates), tuple(left), tuple(questions))


def mode_of(traits: Traits) -> str:
    """Return how vehicles go: as is said, or in a container of one's own where the price is for one of a size."""
    return traits.mode or ("container" if traits.basis in ("per 20′", "per 40′", "per 40′HC") else "")


def _rate(page: Page, item: Item, meaning: Meaning, around: Around) -> Rate | LeftOut | Question | None:
    where, text = page.short(*item.spot), page.text(*item.spot)
    what = f"{item.name} {text}"
    surcharge = meaning.field.removeprefix(SURCHARGE) if meaning.field.startswith(SURCHARGE) else ""
    if not surcharge and not meaning.is_price:
        return LeftOut(where, what, NOT_KNOWN)
    if surcharge and is_included(text):
        return None
    value, shown = page.values[item.spot], page.formats.get(item.spot, "")
    traits = meaning.traits.over(item.traits).over(around.facts.traits)
    figure = figure_in(value, shown, around.mark, finer=traits.basis in ("per W/M", "per m³"))
    if isinstance(figure, NoFigure):
        return LeftOut(where, what, figure.why or "has no sum")
    traits = figure.traits.over(traits)
    name = item.name.removesuffix(" %")
    answer = around.answers.columns.get(name, "")
    if answer == LEAVE_OUT:
        return LeftOut(where, what, "is left out by an answer")
    kind = kind_of(figure, surcharge, item.name, meaning.traits.over(item.traits), answer)
    if not kind:
        return share_question(name, where, f"{figure.number:f}")
    is_share = kind == PERCENT
    try:
        share, reading = share_in(figure) if is_share else (None, "")
    except ValueError as why:
        return LeftOut(where, what, str(why))
    if (is_share and not surcharge) or figure.mark or figure.minimum is not None or figure.number == 0:
        return LeftOut(where, what, "is no plain sum")
    facts = around.facts
    return Rate(
        target="Ocean quotations",
        where=where,
        row=page.sheet_row(*item.spot),
        carrier=around.sender,
        mode=""
        if surcharge and traits.basis in ("", "per shipment")
        else mode_of(traits) or around.answers.get("mode"),
        start=End(facts.pol, "port"),
        end=End(facts.pod, "port"),
        flat=None if is_share else figure.number,
        percent=share,
        reading=reading,
        basis="" if is_share else traits.basis or ("" if surcharge else around.answers.get("basis")),
        currency="" if is_share else "USD" if traits.currency == DOLLAR else traits.currency,
        valid_from=facts.valid_from,
        valid_to=facts.valid_to,
        reference=facts.reference or around.answers.get("reference"),
        free_days=facts.free_days if not surcharge else None,
        label=surcharge,
    )
