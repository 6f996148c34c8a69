"""The answer in one breath on the terminal: a card of at most twelve lines, then the choices, and nothing else unasked.

Texts are cut so that card and choices never come to more lines than a usual screen has. A narrow one takes as many lines as it
needs, and a pipe gets one line a thing.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal

from shipcalc.cli.look import Column, Look, clipped, paragraph, table
from shipcalc.cli.words import amount, short_day
from shipcalc.documents.offer.differences import Difference, differences, signed
from shipcalc.documents.offer.first_answer import Answer, answers, place_and_vehicles, rounded
from shipcalc.quote.explain.stages import is_staged
from shipcalc.quote.model import Option, Quote
from shipcalc.quote.price.exchange import converted
from shipcalc.records import dataclass

MOST_CARD_LINES = 12
MOST_LINES = {False: 26, True: 32}  # at home; over the sea or a border
MOST_WARNING_LINES = 4
MOST_CHOICE_LINES = 2
CUT_FROM_WIDTH = 80
MORE = "More: --full, or --show lines, dates, papers, duty, included, assumed, cautions"


def card_lines(quote: Quote, look: Look, *, chosen: int, for_office: bool) -> list[str]:
    """Return the card of one choice and the list of all, within the lines that there may be."""
    option = quote.options[chosen]
    below = [*_choices(quote, look, chosen=chosen, for_office=for_office), *_recommended(quote, look)]
    if look.width is not None:
        below += [look.faint(line) for line in _cut(look, paragraph(look, MORE), 1)]
    most = min(MOST_CARD_LINES, MOST_LINES[is_staged(option)] - len(below))
    return [*_card(quote, option, look, chosen, most, for_office=for_office), *below]


@dataclass(slots=True)
class _Block:
    """A text of the card. `within` gives its lines, without colour, in at most so many; `look_of` gives a line its look."""

    within: Callable[[int], list[str]]
    look_of: Callable[[str], str]
    room: int
    fewest: int = 1

    @property
    def lines(self) -> list[str]:
        """Return the lines within the room there is."""
        return self.within(self.room)

    def shown(self) -> list[str]:
        """Return the lines as they are printed."""
        return [self.look_of(line) for line in self.lines]


def _block(lines: list[str], look_of: Callable[[str], str]) -> _Block:
    return _Block(lambda room: clipped(lines, room), look_of, len(lines))


def _card(quote: Quote, option: Option, look: Look, chosen: int, most: int, *, for_office: bool) -> list[str]:
    place, what = place_and_vehicles(quote)
    told = list(answers(quote, chosen, _money))
    if for_office:
        told.insert(1, _margin(quote, option))
    widest = max(len(answer.label) for answer in told)
    first = _block(_cut(look, paragraph(look, f"To {place}: {what}"), 2), look.strong)
    warned = [_warnings(option, look)] if option.before_price else []
    blocks = [first, *warned, *(_answered(look, answer, widest) for answer in told)]
    if _cuts(look):
        _shorten(blocks, most)
    has_room = look.width is not None and sum(len(block.lines) for block in blocks) < most and not warned
    lines = [line for block in blocks[1:] for line in block.shown()]
    return [*first.shown(), *([""] if has_room else []), *lines]


def _margin(quote: Quote, option: Option) -> Answer:
    cost = option.total_cost or Decimal(0)
    told = f"{_money(option.total - cost, quote.currency)}, cost {_money(cost, quote.currency)}"
    carriers = ", ".join(dict.fromkeys(leg.carrier for leg in option.legs))
    return Answer("margin", "Margin", f"{told}; {carriers}")


def _warnings(option: Option, look: Look) -> _Block:
    """Return what may change the buyer's mind, above the price: as much as a few lines hold, and how much more there is."""
    texts = option.before_price
    if not _cuts(look):
        lines = [line for text in texts for line in paragraph(look, text, first="! ")]
        return _block(lines, look.warm)

    def within(room: int) -> list[str]:
        lines: list[str] = []
        for number, text in enumerate(texts):
            free = room - len(lines) - (number < len(texts) - 1)
            own = paragraph(look, text, first="! ")
            if lines and len(own) > free:
                return [*lines, f"! and {len(texts) - number} more: --full"]
            lines += clipped(own, max(free, 1))
        return lines

    return _Block(within, look.warm, MOST_WARNING_LINES, fewest=min(len(texts), 2))


def _answered(look: Look, answer: Answer, widest: int) -> _Block:
    if look.width is None:
        return _block([f"{answer.label}\t{answer.text}"], str)
    first = f"{answer.label:<{widest}}  "
    lines = paragraph(look, answer.text, first=first)
    if answer.what == "missing" and _cuts(look):
        lines = _as_many_as_fit(look, answer.text, first)

    def look_of(line: str) -> str:
        if not line.startswith(answer.label):
            return line
        if answer.what == "price":
            price = answer.text.split(", ")[0]
            line = line.replace(price, look.strong(price), 1)
        return line.replace(answer.label, look.faint(answer.label), 1)

    return _block(lines, look_of)


def _as_many_as_fit(look: Look, text: str, first: str) -> list[str]:
    """Return what is not included in one line: as many entries as it holds, and how many there are beside them."""
    entries = text.split("; ")
    for kept in range(len(entries), 0, -1):
        left = f"; {len(entries) - kept} more" if kept < len(entries) else ""
        lines = paragraph(look, f"{'; '.join(entries[:kept])}{left}", first=first)
        if len(lines) == 1:
            return lines
    return lines


def _shorten(blocks: Sequence[_Block], most: int) -> None:
    """Cut the longest texts, the last of them first, until all of them come to `most` lines."""
    while sum(len(block.lines) for block in blocks) > most:
        longest = max(reversed(blocks), key=lambda block: len(block.lines) - block.fewest)
        if len(longest.lines) <= longest.fewest:
            return
        longest.room = len(longest.lines) - 1


def _money(value: Decimal, currency: str) -> str:
    return f"{value:,f} {currency}"


def _choices(quote: Quote, look: Look, *, chosen: int, for_office: bool) -> list[str]:
    """Return all choices, one or two lines each: what differs, what it costs, what more, and by when it is there."""
    staged, exchange = is_staged(quote.options[0]), quote.exchange
    columns = (
        Column(""),
        Column("Choices", wraps=True),
        Column(quote.currency, "right"),
        *((Column(exchange.currency, "right"),) if exchange else ()),
        *((Column("altogether", "right"),) if staged else (Column("more", "right"),)),
        Column("there by", "right"),
    )
    rows = []
    for one in differences(quote):
        option = quote.options[one.number - 1]
        mark = f"{one.number}{' *' if one.number - 1 == quote.recommended else ''}"
        carrier = f", {option.legs[0].carrier}" if for_office and option.legs else ""
        rows.append(
            (
                mark,
                f"{one.told}{carrier}{' (shown above)' if chosen != quote.recommended and one.number - 1 == chosen else ''}",
                amount(one.price),
                *((amount(converted(one.price, exchange)),) if exchange else ()),
                _more(one, staged=staged),
                one.there_by.isoformat() if look.width is None else short_day(one.there_by),
            )
        )
    lines = table(look, columns, rows, most_lines=MOST_CHOICE_LINES if _cuts(look) else None)
    return ["", *lines]


def _more(one: Difference, *, staged: bool) -> str:
    if one.more is not None:
        return signed(one.more)
    return f"{rounded(one.altogether):,f}" if staged else ""


def _recommended(quote: Quote, look: Look) -> list[str]:
    return _cut(look, paragraph(look, f"* Recommended. {quote.reason}"), 2)


def _cuts(look: Look) -> bool:
    """Return whether texts are cut to few lines: on a screen that is wide enough for them."""
    return look.width is not None and look.width >= CUT_FROM_WIDTH


def _cut(look: Look, lines: list[str], most: int) -> list[str]:
    return clipped(lines, most) if _cuts(look) else lines
