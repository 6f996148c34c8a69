"""The answer in one breath on the terminal: a card of at most twelve lines, then the choices, and nothing else unasked.

Texts are cut so that card and choices never come to more lines than a usual screen has. A narrow one takes as many lines as it
needs, and a pipe gets one line a thing. Where everything is asked for, the same card and the same table are told whole.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal

from shipcalc.cli.look import Column, Look, clipped, paragraph, table
from shipcalc.cli.words import amount, days_shown, short_day, vehicle_name
from shipcalc.documents.offer.differences import Difference, differences, signed
from shipcalc.documents.offer.first_answer import Answer, answers, further, place_and_vehicles, rounded, warning_gist
from shipcalc.documents.wording import way
from shipcalc.quote.explain.stages import has_stages
from shipcalc.quote.model import Option, Quote
from shipcalc.quote.price.exchange import converted
from shipcalc.records import dataclass, replace

MOST_CARD_LINES = 12
MOST_LINES = {False: 26, True: 32}  # where the price has cost stages there is more to say
MOST_WARNING_LINES = 4
MOST_CHOICE_LINES = 2
CUT_FROM_WIDTH = 80
CUT = "…"
MORE = "More: --full, or --show lines, dates, papers, duty, included, assumed, cautions"


def card_lines(quote: Quote, look: Look, *, chosen: int, for_office: bool) -> list[str]:
    """Return the card of one choice and the list of all, within the lines that there may be."""
    option = quote.options[chosen]
    most_lines = MOST_LINES[has_stages(option)]
    below = _below(quote, look, chosen=chosen, for_office=for_office)
    told = _told(quote, option, chosen, for_office=for_office)
    blocks = [*_opening(quote, option, look), *_answered(look, told)]
    if for_office and _cuts(look) and len(below) + sum(block.whole for block in blocks) > most_lines:
        # Who carries the others stands on their own cards; without it a choice takes one line.
        below = _below(quote, look, chosen=chosen, for_office=False)
    most = min(MOST_CARD_LINES, most_lines - len(below))
    if _cuts(look):
        _shorten(blocks, most)
    lines = [line for block in blocks[1:] for line in block.shown()]
    has_room = look.width is not None and len(lines) + len(blocks[0].lines) < most and not option.before_price
    return [*blocks[0].shown(), *([""] if has_room else []), *lines, *below]


def _below(quote: Quote, look: Look, *, chosen: int, for_office: bool) -> list[str]:
    """Return what stands below the card: the choices, the recommended one, what else can be asked for."""
    below = [*_choices(quote, look, chosen=chosen, for_office=for_office), *_recommended(quote, look)]
    if look.width is not None:
        below += [look.faint(line) for line in _cut(look, paragraph(look, MORE), 1)]
    return below


def whole_card(quote: Quote, look: Look, *, chosen: int, for_office: bool) -> list[str]:
    """Return the same with what stands behind it, nothing cut: every vehicle, the way, the landed sum, the term, the cover."""
    option = quote.options[chosen]
    look = replace(look, whole=True)
    first, *warned = _opening(quote, option, look)
    vehicles = [vehicle_name(vehicle) for vehicle in quote.vehicles] if len(quote.vehicles) > 1 else []
    ways = [line for text in (*vehicles, *(way(leg, option) for leg in option.legs)) for line in paragraph(look, text)]
    told = [*_told(quote, option, chosen, for_office=for_office), *further(quote, chosen, _money)]
    answered = [line for block in (*warned, *_answered(look, told)) for line in block.shown()]
    gap = [""] if look.width is not None else []
    below = [*_choices(quote, look, chosen=chosen, for_office=for_office), *_recommended(quote, look)]
    return [*first.shown(), *ways, *gap, *answered, *below]


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


def _opening(quote: Quote, option: Option, look: Look) -> list[_Block]:
    """Return the place as it was understood with what goes there, and what may change the buyer's mind."""
    place, what = place_and_vehicles(quote)
    first = _block(look.strong, _cut(look, paragraph(look, f"{_number(quote)}To {place}: {what}"), 2))
    return [first, _warnings(option, look)] if option.before_price else [first]


def _number(quote: Quote) -> str:
    """Return the number of a kept quote, with its revision where there is more than one, to stand before the place."""
    if not quote.number:
        return ""
    return f"{quote.number}{f' r{quote.revision}' if (quote.revision or 1) > 1 else ''}  "


def _told(quote: Quote, option: Option, chosen: int, *, for_office: bool) -> list[Answer]:
    price, *others = answers(quote, chosen, _money)
    return [price, *([_margin(quote, option)] if for_office else []), *others]


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


def _answered(look: Look, told: Sequence[Answer]) -> list[_Block]:
    widest = max(len(answer.label) for answer in told)
    return [_answer(look, answer, widest) for answer in told]


def _answer(look: Look, answer: Answer, widest: int) -> _Block:
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
    """Return all choices: what differs, what it costs, what more, and by when it is there; no column that is empty.

    Where that is cut, all are told in fewer words, and the other currency without its cents.
    """

    def listed(*, brief: bool) -> list[str]:
        columns = _choice_columns(quote, look, chosen, for_office=for_office, brief=brief)
        rows = list(zip(*(cells for _, cells in columns), strict=True))
        most_lines = MOST_CHOICE_LINES if _cuts(look) else None
        return table(look, [column for column, _ in columns], rows, most_lines=most_lines)

    lines = listed(brief=False)
    return ["", *(listed(brief=True) if _cuts(look) and any(CUT in line for line in lines) else lines)]


_Filled = tuple[Column, list[str]]


def _choice_columns(quote: Quote, look: Look, chosen: int, *, for_office: bool, brief: bool) -> list[_Filled]:
    told = differences(quote)
    has_others = any(one.altogether != one.price for one in told)
    columns = [
        (Column(""), [f"{one.number}{' *' if one.number - 1 == quote.recommended else ''}" for one in told]),
        (
            Column("Choices", wraps=True),
            [
                f"{one.brief if brief else one.told}{_behind(quote, look, one, chosen, for_office=for_office)}"
                for one in told
            ],
        ),
        *_beside(look, _sums(quote, "", [one.price for one in told], brief=brief)),
    ]
    if look.whole and has_others:
        others = [one.altogether - one.price for one in told]
        columns += _beside(look, _sums(quote, "to others", others, brief=brief))
    more = "more" if not has_others else "in all" if brief else "altogether"
    columns.append((Column(more, "right"), _more(told, has_others=has_others)))
    if look.whole:
        dates = [option.dates for option in quote.options]
        windows = (("picked up", [one.pickup for one in dates]), ("delivered", [one.delivery for one in dates]))
        columns += _beside(look, [(title, [days_shown(one, look.width) for one in days]) for title, days in windows])
    else:
        by = [one.there_by.isoformat() if look.width is None else short_day(one.there_by) for one in told]
        columns.append((Column("there by", "right"), by))
    return columns


def _behind(quote: Quote, look: Look, one: Difference, chosen: int, *, for_office: bool) -> str:
    """Return what stands behind a choice: who carries it (office), that it is the one of the card, what it is the best in."""
    legs = quote.options[one.number - 1].legs
    held = quote.options[one.number - 1].in_hand
    reference = f", ref {held.reference}" if held and held.reference else ""
    carrier = f", {legs[0].carrier}{reference}" if for_office and legs else ""
    shown = " (shown above)" if chosen != quote.recommended and one.number - 1 == chosen else ""
    best_in = f": {', '.join(one.good_for)}" if look.whole and one.good_for else ""
    return f"{carrier}{shown}{best_in}"


def _sums(quote: Quote, title: str, amounts: Sequence[Decimal], *, brief: bool) -> list[tuple[str, list[str]]]:
    """Return (title, cells) of a sum in each currency of the quote."""
    told = [(f"{title} {quote.currency}".strip(), [amount(one) for one in amounts])]
    if (exchange := quote.exchange) is not None:
        theirs = [converted(one, exchange) for one in amounts]
        cells = [f"{one:,.0f}" if brief else amount(one) for one in theirs]
        told.append((f"{title} {exchange.currency}".strip(), cells))
    return told


def _beside(look: Look, told: Sequence[tuple[str, list[str]]]) -> list[_Filled]:
    """Return a column for each; on a terminal, where everything is asked for, one column with one below the other."""
    if look.width is None or not look.whole:
        return [(Column(title, "right"), cells) for title, cells in told]
    titles, cells = zip(*told, strict=True)
    return [(Column("\n".join(titles), "right"), ["\n".join(one) for one in zip(*cells, strict=True)])]


def _more(told: Sequence[Difference], *, has_others: bool) -> list[str]:
    """Return what each choice costs more; where others ask a part of it, beside all that the recommended one comes to."""
    best = [f"{rounded(one.altogether):,f}" if has_others else "" for one in told]
    return [base if one.more is None else signed(one.more) for one, base in zip(told, best, strict=True)]


def _recommended(quote: Quote, look: Look) -> list[str]:
    return _cut(look, paragraph(look, f"* Recommended. {quote.reason}"), 2)


def _cuts(look: Look) -> bool:
    """Return whether texts are cut to few lines: on a screen that is wide enough for them, where not all is asked for."""
    return look.width is not None and look.width >= CUT_FROM_WIDTH and not look.whole


def _cut(look: Look, lines: list[str], most: int) -> list[str]:
    return clipped(lines, most) if _cuts(look) else lines
