"""What a request's prices have on the carriers' rates: by where it goes, and what kind of buyer it is for."""

from shipcalc.errors import WrongInput, asked
from shipcalc.pricing.line import Markup
from shipcalc.pricing.markups import kinds_of_buyers, selling_markup
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook


def markup_on(request: Request, book: RateBook) -> Markup:
    """Return the markup on a request's prices."""
    return selling_markup(book, request.to.country, request.wishes.buyer_is)


def check_kind_of_buyer(request: Request, book: RateBook) -> None:
    """Raise WrongInput for a kind of buyer that the rate book has no markup for: nobody would see that it is the usual one."""
    kinds, said = kinds_of_buyers(book), request.wishes.buyer_is
    if said and said.casefold() not in map(str.casefold, kinds):
        remedy = (
            f"say {' or '.join(kinds)}, or leave it out" if kinds else "add rows to the sheet Markups (trucking.xlsx)"
        )
        raise WrongInput(f'the rate book has no markup for "{said}"', where=asked("buyer_is"), remedy=remedy)
