"""A short letter to the buyer of a shipment under way: what has come true, when it arrives, the numbers to ask by."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from shipcalc.documents import wording
from shipcalc.quote.model import Option, Quote, Window

_CAME_TRUE = {
    "pickup": "was picked up on {day}",
    "port": "was handed in at the terminal on {day}",
    "sailing": "left on its {called.carrier} on {day}",
    "arrival": "arrived at the {called.place} on {day}",
    "release": "was released on {day}",
    "delivery": "was delivered on {day}",
}
_TO_COME = {
    "pickup": "Pickup",
    "sailing": "{called.departure}",
    "arrival": "Arrival at the {called.place}",
    "delivery": "There by",
}
ESTIMATES = "These days are estimates: weather, ports and customs may move them. We write again when they do."
RECEIPT = "When it arrives, look at it all round and write any damage on the delivery receipt before you sign it."
DELIVERED = "If you find anything that was not noted when you signed, write to us at once, with photographs."


def news_letter(
    quote: Quote,
    option: Option,
    news: Mapping[str, date],
    moments: Mapping[str, Window],
    references: Sequence[tuple[str, str]],
    *,
    recorded: Mapping[str, date],
) -> str:
    """Return the letter; `news` are days that came true, by moment, `recorded` those and all that were known before."""
    return "\n".join(_lines(quote, option, news, moments, references, recorded)) + "\n"


def _lines(
    quote: Quote,
    option: Option,
    news: Mapping[str, date],
    moments: Mapping[str, Window],
    references: Sequence[tuple[str, str]],
    recorded: Mapping[str, date],
) -> Iterator[str]:
    if quote.number:
        yield f"Our reference: {wording.reference(quote)}"
        yield ""
    yield f"Dear {quote.buyer}," if quote.buyer else "Good day,"
    yield ""
    yield f"News of {wording.vehicles(quote.vehicles)} to {wording.place(quote.to)}."
    several = len(quote.vehicles) > 1
    for stage, day in news.items():
        told = _CAME_TRUE[stage].format(day=wording.day(day), called=wording.called_on(option))
        yield f"{'They' if several else 'It'} {told.replace('was ', 'were ', 1) if several else told}."
    if references:
        yield ""
        yield from (f"{label}: {value}" for label, value in references)
    expected = _expected(option, moments, recorded)
    if expected:
        yield ""
        yield "What we expect now:"
        yield from (f"  {line}" for line in expected)
        yield ESTIMATES
    yield ""
    yield DELIVERED if "delivery" in recorded else RECEIPT
    yield ""
    yield "Kind regards"
    yield quote.dealer.name
    yield from (way for way in (quote.dealer.phone, quote.dealer.email, quote.dealer.website) if way)


def _expected(option: Option, moments: Mapping[str, Window], recorded: Mapping[str, date]) -> list[str]:
    """Return what is still to come: behind the last moment that came true."""
    stages = list(moments)
    passed = max((stages.index(stage) for stage in recorded if stage in stages), default=-1)
    called = wording.called_on(option)
    labels = {stage: wording.sentence_case(told.format(called=called)) for stage, told in _TO_COME.items()}
    labels |= {} if option.arrives else {"delivery": "Ready for you"}
    return [f"{labels[stage]}: {wording.window(moments[stage])}" for stage in stages[passed + 1 :] if stage in labels]
