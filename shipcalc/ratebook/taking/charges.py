"""A quotation that lists its charges one below the other: the freight between two ports, and what is asked on top of it.

As a table (charge, basis, currency, amount), or as a form of labels and what stands behind them ("BAF: 12 %").
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block
from shipcalc.ratebook.taking.body import Body
from shipcalc.ratebook.taking.figures import Mark, NoFigure, figure_in, is_included
from shipcalc.ratebook.taking.meanings import SURCHARGE, Meaning, meaning_of
from shipcalc.ratebook.taking.page import Page, Spot
from shipcalc.ratebook.taking.rate import LeftOut, Rate
from shipcalc.ratebook.taking.spots import End
from shipcalc.ratebook.taking.traits import DOLLAR, NO_TRAITS, Traits, traits_in
from shipcalc.records import dataclass, replace

AT_PORT = "is a charge of a port or an agent: what a vehicle pays goes into Port charges or Stage charges by hand"
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


def items_of_form(page: Page, rows: Sequence[int]) -> Iterator[Item]:
    """Yield the charges of a form: a label, and behind it its sum."""
    for row in rows:
        cells = sorted(page.row(row))
        for at, behind in pairwise(cells):
            name = page.text(row, at).rstrip(" :")
            if meaning_of(name).is_price or meaning_of(name).field.startswith(SURCHARGE):
                yield Item(name, (row, behind))


def taken_charges(page: Page, items: Sequence[Item], around: Around) -> tuple[tuple[Rate, ...], tuple[LeftOut, ...]]:
    """Return the freight and the surcharges of a quotation; without two ports, or without a freight, all is named alone."""
    facts = around.facts
    meanings = {item.spot: meaning_of(item.name.removesuffix(" %")) for item in items}
    has_freight = any(meaning.is_price for meaning in meanings.values())
    if not (facts.pol and facts.pod and has_freight):
        return (), tuple(
            LeftOut(page.short(*item.spot), f"{item.name} {page.text(*item.spot)}", AT_PORT) for item in items
        )
    rates: list[Rate] = []
    left: list[LeftOut] = []
    for item in items:
        made = _rate(page, item, meanings[item.spot], around)
        if isinstance(made, LeftOut):
            left.append(made)
        elif made is not None:
            rates.append(made)
    return tuple(rates), tuple(left)


def surcharge_rates(page: Page, spot: Spot, meaning: Meaning, like: Rate, mark: Mark) -> tuple[Rate, ...]:
    """Return the surcharge in a cell beside or below a freight as a rate of its own. Raises ValueError with the reason."""
    text = page.text(*spot)
    if is_included(text):
        return ()
    figure = figure_in(page.values[spot], page.formats.get(spot, ""), mark)
    if isinstance(figure, NoFigure):
        if figure.why:
            raise ValueError(figure.why)
        return ()
    is_share = figure.percent or "%" in meaning.header
    traits = figure.traits.over(meaning.traits)
    if figure.number == 0:
        return ()
    if figure.mark or figure.minimum is not None:
        raise ValueError("is no plain sum")
    return (
        replace(
            like,
            where=page.short(*spot),
            row=page.sheet_row(*spot),
            label=meaning.field.removeprefix(SURCHARGE),
            flat=None if is_share else figure.number,
            percent=figure.number if is_share else None,
            basis="" if is_share else traits.basis or like.basis,
            mode="" if traits.basis == "per shipment" else like.mode,
            currency="" if is_share else traits.currency if traits.currency not in ("", DOLLAR) else like.currency,
            minimum=None,
            free_days=None,
            remark="",
        ),
    )


def mode_of(traits: Traits) -> str:
    """Return how vehicles go: as is said, or in a container of one's own where the price is for one of a size."""
    return traits.mode or ("container" if traits.basis in ("per 20′", "per 40′", "per 40′HC") else "")


def _rate(page: Page, item: Item, meaning: Meaning, around: Around) -> Rate | LeftOut | None:
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
    is_share = figure.percent or item.name.endswith(" %")
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
        percent=figure.number if is_share else None,
        basis="" if is_share else traits.basis or ("" if surcharge else around.answers.get("basis")),
        currency="" if is_share else "USD" if traits.currency == DOLLAR else traits.currency,
        valid_from=facts.valid_from,
        valid_to=facts.valid_to,
        reference=facts.reference or around.answers.get("reference"),
        free_days=facts.free_days if not surcharge else None,
        label=surcharge,
    )
