"""A short letter to the buyer of a shipment under way: what has come true, when it arrives, the numbers to ask by."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from shipcalc.documents import wording
from shipcalc.documents.letter import Letter, Part, greeting, signed_by
from shipcalc.quote.model import Option, Quote, Window
from shipcalc.trade import OCEAN_MODES

_CAME_TRUE = {
    "pickup": "was picked up on {day}",
    "port": "was handed in at the terminal on {day}",
    "sailing": "left on its {called.carrier} on {day}",
    "arrival": "arrived at the {place} on {day}",
    "release": "was released on {day}",
    "delivery": "was delivered on {day}",
}
_TO_COME = {
    "pickup": "We expect the truck to come for {it} {when}.",
    "sailing": "The {called.carrier} should leave {when}.",
    "arrival": "We expect {it} at the {place} {when}.",
    "delivery": "We expect {it} to be with you {when}.",
}
_READY = "We expect {it} to be ready for you {when}."
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
) -> Letter:
    """Return the letter; `news` are days that came true, by moment, `recorded` those and all that were known before."""
    expected = tuple(_expected(quote, option, moments, recorded))
    numbers = tuple(f"{label}: {value}" for label, value in references)
    parts = (
        Part(sentences=tuple(_happened(quote, option, news))),
        Part(title="What comes next", sentences=(*expected, ESTIMATES) if expected else ()),
        Part(title="The numbers to ask by", points=numbers),
        Part(sentences=(DELIVERED if "delivery" in recorded else RECEIPT,)),
    )
    what, where = wording.vehicles(quote.vehicles), wording.place(quote.to)
    return Letter(
        subject=f"News of {what} to {where} – {wording.reference(quote)}",
        greeting=greeting(quote.buyer),
        parts=tuple(part for part in parts if part.sentences or part.points),
        signature=signed_by(quote.dealer, wording.reference(quote)),
    )


def _happened(quote: Quote, option: Option, news: Mapping[str, date]) -> Iterator[str]:
    what, where = wording.vehicles(quote.vehicles), wording.place(quote.to)
    yield f"We have news of {what} on the way to {where}."
    several = len(quote.vehicles) > 1
    for stage, day in news.items():
        told = _CAME_TRUE[stage].format(
            day=wording.day(day), called=wording.called_on(option), place=_arrives_at(option)
        )
        yield f"{'They' if several else 'It'} {told.replace('was ', 'were ', 1) if several else told}."


def _expected(
    quote: Quote, option: Option, moments: Mapping[str, Window], recorded: Mapping[str, date]
) -> Iterator[str]:
    """Yield what is still to come: behind the last moment that came true."""
    stages = list(moments)
    passed = max((stages.index(stage) for stage in recorded if stage in stages), default=-1)
    called, it = wording.called_on(option), "them" if len(quote.vehicles) > 1 else "it"
    told = _TO_COME if option.arrives else {**_TO_COME, "delivery": _READY}
    for stage in stages[passed + 1 :]:
        if stage in told:
            yield told[stage].format(
                called=called, it=it, when=wording.within(moments[stage]), place=_arrives_at(option)
            )


def _arrives_at(option: Option) -> str:
    """Return what it arrives at before it is released: the border, where trucks alone bring it into the country."""
    by_sea = any(leg.mode in OCEAN_MODES for leg in option.legs)
    return wording.called_on(option).place if by_sea else "border"
