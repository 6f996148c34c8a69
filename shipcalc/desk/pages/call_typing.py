"""What the call page offers while somebody types: vehicles of the stock list, with their pictures, and places."""

from typing import Annotated

from fastapi import APIRouter, Query, Response
from fastapi import Path as PathParameter

from shipcalc.actions.place import offered_places
from shipcalc.actions.stock import look_through_stock
from shipcalc.desk.clerk import Clerk
from shipcalc.documents import wording
from shipcalc.documents.photographs import photograph
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.measures import grams_to_pounds, mm_to_inches
from shipcalc.money import to_decimal
from shipcalc.vehicles.vehicle import Vehicle, what_fails

MOST = 8
Text = Annotated[str, Query(max_length=200)]
Offers = list[dict[str, str]]


def paths(clerk: Clerk) -> APIRouter:
    """Return the paths."""
    router = APIRouter()

    @router.get("/offered/vehicles")
    async def vehicles(text: Text = "") -> Offers:
        """Return vehicles of the stock list that have the words, or nearly; none for what is in no list."""
        sources = await clerk.do(clerk.sources)
        if sources.stock is None:
            return []
        path = sources.stock.path
        try:
            found = await clerk.do(lambda: look_through_stock(path, text))
        except NoAnswer:
            return []
        return [_vehicle(one) for one in found.vehicles[:MOST]]

    @router.get("/offered/places")
    async def places(text: Text = "") -> Offers:
        """Return the places that a text may mean, likeliest first."""
        found = await clerk.do(lambda: offered_places(text)) if text.strip() else ()
        return [{"text": one.text, "name": one.name, "told": one.where, "more": _people(one.people)} for one in found]

    @router.get("/photo/{number}")
    async def photo(number: Annotated[str, PathParameter(max_length=60)]) -> Response:
        """Return the picture of a vehicle in stock."""
        sources = await clerk.do(clerk.sources)
        found = await clerk.do(lambda: look_through_stock(sources.get_stock(), number))
        vehicle = next((one for one in found.vehicles if one.stock_number == number), None)
        made = await clerk.do(lambda: photograph(vehicle, sources.photos)) if vehicle is not None else None
        if made is None:
            raise WrongInput("there is no picture", where=number)
        return Response(made, media_type="image/jpeg")

    return router


def _vehicle(vehicle: Vehicle) -> dict[str, str]:
    told = (
        _size(vehicle),
        f"{grams_to_pounds(vehicle.mass_grams):,} lb" if vehicle.mass_grams is not None else "",
        _worth(vehicle),
        f"in {vehicle.yard}" if vehicle.yard else "",
        what_fails(vehicle),
        f"title: {vehicle.title}" if vehicle.title != "clean" else "",
    )
    return {
        "text": vehicle.stock_number,
        "name": vehicle.name,
        "told": " · ".join(filter(None, told)),
        "more": vehicle.stock_number,
        "photo": vehicle.stock_number if vehicle.photo else "",
    }


def _worth(vehicle: Vehicle) -> str:
    if not vehicle.value_minor:
        return ""
    value = to_decimal(vehicle.value_minor, vehicle.currency)
    return f"worth {wording.money_told(value, vehicle.currency).removesuffix('.00')}"


def _size(vehicle: Vehicle) -> str:
    sides = (vehicle.length_mm, vehicle.width_mm, vehicle.height_mm)
    if all(side is None for side in sides):
        return "size unknown"
    return f"{' × '.join('?' if side is None else f'{mm_to_inches(side):g}' for side in sides)} in"


def _people(count: int) -> str:
    """Return how large a place is, to tell namesakes apart: `2.1 million people`."""
    if not count:
        return ""
    if count >= 1_000_000:
        return f"{count / 1_000_000:.1f} million people"
    return f"{round(count, -3) or count:,} people"
