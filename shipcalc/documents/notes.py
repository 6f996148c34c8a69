"""The lists of sentences that belong to a price, and its papers: each under one title and composed once, for every face."""

from collections import Counter
from collections.abc import Iterable
from datetime import date
from operator import attrgetter
from typing import Any

from shipcalc.documents.wording import by_choice
from shipcalc.quote.model import Option, Quote
from shipcalc.records import dataclass

_OF_CHOICES = {
    "decisive": ("Please know before anything else", attrgetter("before_price")),
    "included": ("What is included", attrgetter("included")),
    "missing": ("What is not included", attrgetter("not_included")),
    "needed": ("What we need from you", attrgetter("needed_from_buyer")),
    "noted": ("Please note", attrgetter("warnings")),
}
_OF_ALL = {"assumed": ("What we assumed", attrgetter("assumptions")), "cautions": ("Cautions", attrgetter("cautions"))}


@dataclass(frozen=True, slots=True)
class Notes:
    """Sentences under their title."""

    title: str
    sentences: tuple[str, ...]


def notes(subject: str, quote: Quote, *options: Option) -> Notes:
    """Return what is said of a subject ("noted"): of some choices, or of all; each once, with its choices where not of all."""
    if subject in _OF_ALL:
        title, sentences = _OF_ALL[subject]
        return Notes(title, sentences(quote))
    title, sentences = _OF_CHOICES[subject]
    return Notes(title, tuple(by_choice([sentences(option) for option in options or quote.options])))


def papers(option: Option, *, for_office: bool = False) -> list[tuple[str, str, date]]:
    """Return (title, who prepares it, when it is due) of the papers that the buyer gets or gives; for the office of all."""
    own = [one for one in option.documents if for_office or "buyer" in (one.prepared_by, one.given_to)]
    titles = [f"{one.title} ({one.copies})" if one.copies else one.title for one in own]
    return _each_once((title, one.prepared_by, one.due) for title, one in zip(titles, own, strict=True))


def requests(option: Option) -> list[tuple[str, date]]:
    """Return (what, by when) of what the buyer is asked to do."""
    return _each_once((task.title, task.due) for task in option.tasks if task.owner == "buyer")


def _each_once(rows: Iterable[tuple[Any, ...]]) -> list[tuple[Any, ...]]:
    """Return every row once; what there is several times is told to be for each vehicle."""
    return [
        (f"{title}, for each vehicle" if count > 1 else title, *rest) for (title, *rest), count in Counter(rows).items()
    ]
