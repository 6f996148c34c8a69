"""`quote.pdf`: the offer on two pages, to read, print and sign. It holds no cost, margin, source cell or private carrier."""

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from shipcalc.documents import stationery, wording
from shipcalc.documents.buyer.pdf_lines import customs, lines
from shipcalc.documents.logo import Logo
from shipcalc.documents.notes import Notes, notes
from shipcalc.documents.offer.acceptance import WINDOWS, accepts, bank_told, payment_told, sent_back_told
from shipcalc.documents.offer.differences import Difference, differences, signed
from shipcalc.documents.offer.first_answer import answers, rounded
from shipcalc.documents.offer.itemised import figures
from shipcalc.documents.offer.opening import marks, reason, under_title
from shipcalc.documents.offer.plain_words import explained
from shipcalc.documents.offer.route import route_scene
from shipcalc.documents.offer.small_print import assumed, missing, noted, terms
from shipcalc.documents.offer.timeline import step_notes, time_scene
from shipcalc.documents.photographs import photograph
from shipcalc.pictures.scene import Scene
from shipcalc.pictures.svg import to_svg
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Option, Quote
from shipcalc.typeset.typesetting import typeset
from shipcalc.vehicles.vehicle import Vehicle

if TYPE_CHECKING:
    from shipcalc.languages.reader import Reader

TEMPLATE = "documents/buyer/quote.typ"
_MAP_WIDTH, _MAP_HEIGHT, _LINE_WIDTH = 280.0, 138.0, 500.0  # points
_SEA_KEY = "Whole lines go by road and are drawn straight, dashed lines by sea."
# The template has no words of its own.
_HEADINGS = {
    "choices": "Your choices",
    "number": "No.",
    "line": "What it is for",
    "duty": "Duty or tax",
    "way": "How it travels",
    "days": "When it happens",
    "accept": "How to accept",
    "others": "What you pay to others (estimate)",
    "together": "Together",
    "customs": "Duty and tax where you live",
    "words": "Words explained",
    "book": "Yes, please book it",
    "name": "Name",
    "signature": "Signature",
    "signed_at": "Place and day",
}
# Who we are, and pictures, whose texts were said where they were drawn.
_AS_IT_IS = ("dealer", "photo", "svg", "alt")
_FACTS = ("price", "when", "ready", "else", "altogether", "also", "missing", "book")


def quote_pdf(
    quote: Quote, *, photos: Path | None = None, logo: Logo | None = None, reader: "Reader | None" = None
) -> bytes:
    """Return the offer of any quote as a PDF, on the paper of the buyer's country; what is not the buyer's is taken out.

    `photos` is the folder that the names of pictures in the stock list start from, `logo` as `read_logo` gives it. `reader`
    says it in another language than English.
    """
    shown = for_buyer(quote)
    paper = stationery.paper_for(shown.to.country)
    language = "en" if reader is None else reader.language
    return typeset(TEMPLATE, quote_data(shown, photos, reader, logo), paper=paper, language=language, day=shown.as_of)


def quote_data(
    quote: Quote, photos: Path | None = None, reader: "Reader | None" = None, logo: Logo | None = None
) -> Mapping[str, Any]:
    """Return all that the template sets: words and pictures as every face has them."""
    best = quote.options[quote.recommended]
    say = str if reader is None else reader.say
    told = {
        **stationery.head(quote, logo),
        "headings": {**_HEADINGS, "amount": quote.currency},
        "title": wording.headline(quote),
        "under_title": under_title(quote),
        "vehicles": [_vehicle(vehicle, photos) for vehicle in quote.vehicles],
        "decisive": _list("decisive", quote, best),
        "answers": [
            {"label": one.label, "text": wording.sentence_case(one.text)}
            for one in answers(quote, quote.recommended, wording.money_told)
            if one.what in _FACTS
        ],
        "choices": _choices(quote),
        "reason": reason(quote),
        "map": _picture(route_scene(quote, best, width=_MAP_WIDTH, height=_MAP_HEIGHT, say=say)),
        "map_key": _SEA_KEY if any(leg.unit == "nmi" for leg in best.legs) else "",
        "legs": [wording.way(leg, best) for leg in best.legs],
        "accept": [sent_back_told(quote), payment_told(quote, best), WINDOWS],
        "chosen": f"{wording.choice_name(quote.recommended)}, line by line"
        if len(quote.options) > 1
        else "Line by line",
        "currency": wording.currency_name(quote.currency),
        **lines(quote, best),
        "time": _picture(time_scene(quote, best, width=_LINE_WIDTH, say=say)),
        "time_notes": {"title": "Notes to the days", "sentences": step_notes([best])},
        "customs": customs(quote, best),
        "needed": _list("needed", quote, best),
        "terms": {"title": "The terms in plain words", "sentences": terms(quote, best)},
        "missing": _told(missing(quote, best)),
        "noted": {"title": "", "sentences": noted(quote, best)},
        "assumed": {"title": notes("assumed", quote).title, "sentences": assumed(quote)},
        "cautions": _list("cautions", quote),
        "boxes": accepts(quote),
        "bank": bank_told(quote),
    }
    data = {**told, "explained": [{"word": one.word, "meaning": one.meaning} for one in explained(_texts(told))]}
    if reader is None:
        return data
    page_of = reader.say("page 1 of 2").replace("1", "{n}").replace("2", "{m}")
    return {**reader.say_all(data, leave=_AS_IT_IS), "words": {"page_of": page_of}}


def _vehicle(vehicle: Vehicle, photos: Path | None) -> Mapping[str, Any]:
    return {"name": vehicle.name, "marks": marks(vehicle), "photo": photograph(vehicle, photos)}


def _choices(quote: Quote) -> Mapping[str, Any]:
    """Return the choices side by side, as a header and rows; what is an estimate is rounded to what it is worth."""
    to_others = any(option.buyer_pays_locally for option in quote.options)
    altogether = ["Altogether"] if to_others else []
    return {
        "header": ["What it is, and how it differs", f"Price, {quote.currency}", *altogether, "More", "There by"],
        "rows": [_choice(one, quote, to_others=to_others) for one in differences(quote)],
    }


def _choice(one: Difference, quote: Quote, *, to_others: bool) -> Mapping[str, Any]:
    more = "" if one.more is None else signed(one.more)
    altogether = [f"about {figures(rounded(one.altogether))}"] if to_others else []
    return {
        "number": str(one.number),
        "told": wording.sentence_case(one.told),
        "good_for": ", ".join(one.good_for),
        "figures": [figures(one.price), *altogether, more, wording.day(one.there_by)],
        "best": one.number == quote.recommended + 1,
    }


def _list(subject: str, quote: Quote, *options: Option) -> Mapping[str, Any]:
    return _told(notes(subject, quote, *options))


def _told(told: Notes) -> Mapping[str, Any]:
    return {"title": told.title, "sentences": list(told.sentences)}


def _picture(scene: Scene | None) -> Mapping[str, str] | None:
    """Return a scene as an SVG with what it shows in words."""
    return None if scene is None else {"svg": to_svg(scene).decode(), "alt": scene.description}


def _texts(told: object) -> Iterator[str]:
    """Yield every text of the paper, to find the words in it that want explaining."""
    if isinstance(told, str):
        yield told if not told.startswith("<") else ""  # a drawing
    elif isinstance(told, Mapping):
        for one in told.values():
            yield from _texts(one)
    elif isinstance(told, Sequence) and not isinstance(told, bytes):
        for one in told:
            yield from _texts(one)
