"""What every set paper begins with: whose it is, which quote, on which size of paper."""

from collections.abc import Mapping
from typing import Any

from shipcalc.documents import wording
from shipcalc.documents.logo import Logo
from shipcalc.quote.model import Dealer, Quote
from shipcalc.settings import Paper

# Where letters are written on US Letter: Unicode CLDR 48, supplemental data, paperSize. Everywhere else it is A4.
_ON_LETTER = frozenset("BZ CA CL CO CR GT MX NI PA PH PR SV US VE".split())


def paper_for(country: str) -> Paper:
    """Return the size of paper that a country (ISO 3166-1) prints on."""
    return "letter" if country in _ON_LETTER else "a4"


def head(quote: Quote, logo: Logo | None = None) -> Mapping[str, Any]:
    """Return `dealer` and `reference` as `typeset/house.typ` takes them; `logo` as `read_logo` gives it."""
    day = f"  ·  {wording.day(quote.as_of)}" if quote.number else ""
    shown = {} if logo is None else {"logo": logo}
    return {"dealer": {**dealer_lines(quote.dealer), **shown}, "reference": f"{wording.reference(quote)}{day}"}


def dealer_lines(dealer: Dealer) -> Mapping[str, Any]:
    """Return the dealer's name, and address, telephone, mail, website, licence and colour as far as they are set."""
    told = (dealer.address, dealer.phone, dealer.email, dealer.website, dealer.licence)
    accent = {"accent": dealer.accent} if dealer.accent else {}
    return {"name": dealer.name, "lines": [part for part in told if part], **accent}
