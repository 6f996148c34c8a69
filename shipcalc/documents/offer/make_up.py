"""What the price of a choice is made of, and what is paid to others beside it, as bars that add up."""

import re
from collections.abc import Iterable, Sequence
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.offer.first_answer import about, rounded
from shipcalc.documents.offer.itemised import included_charges, local_charges
from shipcalc.documents.offer.landing import altogether
from shipcalc.pictures.adding_up import Bar, adding_up
from shipcalc.pictures.scene import Scene
from shipcalc.quote.explain.stages import has_stages, stage_title
from shipcalc.quote.model import Charge, Option, Quote

_IN_BRACKETS = re.compile(r" ?\([^)]*\)")
MOST_PARTS = 9
REST = "All else"


def make_up_scene(quote: Quote, option: Option, *, width: float) -> Scene | None:
    """Return the picture of what a choice costs, `width` points wide; None where nothing is to pay."""
    bars = make_up(quote, option)
    if not bars:
        return None
    told = "; ".join(f"{bar.what} {bar.told}" for bar in bars)
    return adding_up(bars, width=width, title="What it is made of", description=f"Bars that add up. {told}.")


def make_up(quote: Quote, option: Option) -> tuple[Bar, ...]:
    """Return the parts of the price and the price, then what is paid to others and all of it, an estimate."""
    ours = _parts(option, included_charges(option))
    if not ours:
        return ()
    bars = [Bar(what, wording.money(amount, quote.currency), amount) for what, amount in ours]
    bars.append(Bar("Our price", wording.money(option.total, quote.currency), option.total, is_sum=True))
    if option.buyer_pays_locally:
        bars += [
            Bar(what, about(amount, quote.currency, wording.money_told), amount, to_others=True)
            for what, amount in _parts(option, local_charges(option))
        ]
        every = altogether(option)
        bars.append(
            Bar(
                "Altogether",
                about(rounded(every), quote.currency, wording.money_told),
                every,
                to_others=True,
                is_sum=True,
            )
        )
    return tuple(bars)


def _parts(option: Option, charges: Iterable[Charge]) -> Sequence[tuple[str, Decimal]]:
    """Return (what, amount) by stage of cost, or by line where there is one; the smallest of many as one."""
    sums: dict[str, Decimal] = {}
    for charge in charges:
        what = stage_title(charge.stage, option) if has_stages(option) else _IN_BRACKETS.sub("", charge.label)
        sums[what] = sums.get(what, Decimal(0)) + charge.amount
    parts = [(what, amount) for what, amount in sums.items() if amount]
    if len(parts) <= MOST_PARTS:
        return parts
    kept = sorted(parts, key=lambda part: -abs(part[1]))[: MOST_PARTS - 1]
    rest = sum((amount for part in parts if part not in kept for amount in part[1:]), Decimal(0))
    return [*(part for part in parts if part in kept), (REST, rest)]
