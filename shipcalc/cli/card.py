"""The answer in one breath on the terminal: a card of at most twelve lines, then the choices, and nothing else unasked.

Texts are cut so that card and choices never come to more lines than a usual screen has. A narrow one takes as many lines as it
needs, and a pipe gets one line a thing.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal

from shipcalc.cli.look import Column, Look, clipped, paragraph, table
from shipcalc.cli.words import amount, short_day
from shipcalc.documents.offer.differences import Difference, differences, signed
from shipcalc.documents.offer.first_answer import Answer, answers, place_and_vehicles, rounded, warning_gist
from shipcalc.quote.explain.stages import is_staged
from shipcalc.quote.model import Option, Quote
from shipcalc.quote.price.exchange import converted
from shipcalc.records import dataclass

MOST_CARD_LINES = 12
MOST_LINES = {False: 26, True: 32}  # at home; over the sea or a border
MOST_WARNING_LINES = 4
MOST_CHOICE_LINES = 2
CUT_FROM_WIDTH = 80
CUT = "…"
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
    """A text of the card. `within` gives its lines, without colour, in at most so many; `look_of` gives a line its look.

    In fewer lines than `whole` it ends in the middle. What `goes_first` is shortened before anything else.
    """

    within: Callable[[int], list[str]]
    look_of: Callable[[str], str]
    room: int
    whole: int = 1
    goes_first: bool = False

    @property
    def lines(self) -> list[str]:
        """Return the lines within the room there is."""
        return self.within(self.room)

    def shown(self) -> list[str]:
        """Return the lines as they are printed."""
        return [self.look_of(line) for line in self.lines]


def _block(look_of: Callable[[str], str], *told: list[str], goes_first: bool = False) -> _Block:
    """Return a block of a text that is told in ever fewer words: the longest that there is room for, else the last, cut."""

    def within(room: int) -> list[str]:
        return next((lines for lines in told if len(lines) <= room), clipped(told[-1], room))

    return _Block(within, look_of, len(told[0]), min(map(len, told)), goes_first)


def _card(quote: Quote, option: Option, look: Look, chosen: int, most: int, *, for_office: bool) -> list[str]:
    place, what = place_and_vehicles(quote)
    told = list(answers(quote, chosen, _money))
    if for_office:
        told.insert(1, _margin(quote, option))
    widest = max(len(answer.label) for answer in told)
    first = _block(look.strong, _cut(look, paragraph(look, f"To {place}: {what}"), 2))
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
    in_full = [paragraph(look, text, first="! ") for text in option.before_price]
    if not _cuts(look):
        return _block(look.warm, [line for lines in in_full for line in lines])
    in_brief = [paragraph(look, warning_gist(text), first="! ") for text in option.before_price]

    def within(room: int) -> list[str]:
        for told in (in_full, in_brief):
            if sum(map(len, told)) <= room:
                return [line for lines in told for line in lines]
        if len(in_brief) == 1:
            return clipped(in_brief[0], room)
        kept: list[str] = []
        for number, lines in enumerate(in_brief):
            if len(kept) + len(lines) >= room:
                kept = kept or clipped(lines, room - 1)
                return [*kept, f"! and {len(in_brief) - max(number, 1)} more: --full"]
            kept += lines
        return kept

    whole = len(in_brief[0]) + (len(in_brief) > 1)
    return _Block(within, look.warm, min(MOST_WARNING_LINES, sum(map(len, in_full))), whole)


def _answered(look: Look, answer: Answer, widest: int) -> _Block:
    if look.width is None:
        return _block(str, [f"{answer.label}\t{answer.text}"])
    first = f"{answer.label:<{widest}}  "
    told = [paragraph(look, text, first=first) for text in (answer.text, answer.brief) if text]
    if answer.what == "missing" and _cuts(look):
        told = [_as_many_as_fit(look, answer.text, first)]

    def look_of(line: str) -> str:
        if not line.startswith(answer.label):
            return line
        if answer.what == "price":
            price = " ".join(answer.text.split(" ")[:2]).rstrip(",")
            line = line.replace(price, look.strong(price), 1)
        return line.replace(answer.label, look.faint(answer.label), 1)

    return _block(look_of, *told, goes_first=answer.what == "also")


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
    """Tell the longest texts in fewer words, the last of them first, until all come to `most` lines; then cut them."""
    for may_cut in (False, True):
        while sum(len(block.lines) for block in blocks) > most:
            spare = [block.room - (1 if may_cut else block.whole) for block in blocks]
            longest = max(
                range(len(blocks)),
                key=lambda number: (blocks[number].goes_first and spare[number] > 0, spare[number], number),
            )
            if spare[longest] <= 0:
                break
            blocks[longest].room -= 1


def _money(value: Decimal, currency: str) -> str:
    return f"{value:,f} {currency}"


def _choices(quote: Quote, look: Look, *, chosen: int, for_office: bool) -> list[str]:
    """Return all choices, one or two lines each: what differs, what it costs, what more, and by when it is there.

    Where that cuts one, all are told in fewer words, and the other currency without its cents.
    """
    staged, other = is_staged(quote.options[0]), quote.exchange
    most = MOST_CHOICE_LINES if _cuts(look) else None

    def listed(title: str, words: Callable[[Difference], str], money: Callable[[Decimal], str]) -> list[str]:
        columns = (
            Column(""),
            Column("Choices", wraps=True),
            Column(quote.currency, "right"),
            *((Column(other.currency, "right"),) if other else ()),
            Column(title if staged else "more", "right"),
            Column("there by", "right"),
        )
        rows = [
            (
                _mark(quote, one),
                f"{words(one)}{_beside_it(quote, one, chosen=chosen, for_office=for_office)}",
                amount(one.price),
                *((money(converted(one.price, other)),) if other else ()),
                _more(one, staged=staged),
                one.there_by.isoformat() if look.width is None else short_day(one.there_by),
            )
            for one in differences(quote)
        ]
        return table(look, columns, rows, most_lines=most)

    lines = listed("altogether", lambda one: one.told, amount)
    if most and any(CUT in line for line in lines):
        lines = listed("in all", lambda one: one.brief, lambda value: f"{value:,.0f}")
    return ["", *lines]


def _mark(quote: Quote, one: Difference) -> str:
    return f"{one.number}{' *' if one.number - 1 == quote.recommended else ''}"


def _beside_it(quote: Quote, one: Difference, *, chosen: int, for_office: bool) -> str:
    """Return what stands behind a choice: to the office who carries it, and that it is the one of the card."""
    legs = quote.options[one.number - 1].legs
    is_shown = chosen != quote.recommended and one.number - 1 == chosen
    return f"{f', {legs[0].carrier}' if for_office and legs else ''}{' (shown above)' if is_shown else ''}"


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
