"""What is asked of the interface: the options of `shipcalc quote` by their names, days as people say them."""

from datetime import date
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from shipcalc.actions.quoting import Order
from shipcalc.errors import WrongInput
from shipcalc.schedule.said_days import HOW_TO_SAY_A_DAY, check_planned, days_meant

_LONGEST = 500
Text = Annotated[str, Field(max_length=_LONGEST)]


def _listed(value: object) -> object:
    return [value] if isinstance(value, str) else value


Texts = Annotated[list[Text], BeforeValidator(_listed), Field(max_length=20)]


class AskedQuote(BaseModel):
    """The body of `POST /api/quote`. A name may be written with a hyphen, as the command's option is."""

    model_config = ConfigDict(extra="forbid", populate_by_name=True, title="Order")

    vehicles: Texts = Field(
        description="Stock numbers, or descriptions of vehicles that are in no list.", examples=[["HV-1042"]]
    )
    to: Text = Field(description='A ZIP, "City, ST", "City, Country", or "lat, lon".', examples=["Bozeman, MT"])
    start: Text = Field("", alias="from", description="Where it starts; else the yard that it stands in.")
    ready: Text = Field("", description="First day it can be picked up: 2026-12-15, or as people say it.")
    by: Text = Field("", description="It must be there by this day.")
    as_of: Text = Field("", description="The day of the quote; else today.")
    trailer: Text = Field("", description="open or enclosed")
    lift_gate: bool = False
    limited_access: bool = False
    express: bool = False
    ocean: Text = Field("", description="roro or container")
    term: Text = Field("", description="One of the eleven codes of Incoterms 2020.")
    cover: Text = Field("", description="Conditions of the marine cover: A, B or C.")
    insure_for: Text = ""
    currency: Text = Field("", description="The buyer's currency, by its code (ISO 4217).")
    sailing: Text = ""
    spot: Texts = Field(default_factory=list, description="Prices in hand: carrier, sum, until which day, reference.")
    released_by: Text = ""
    keep_until: Text = ""
    collect: bool = False
    terminal: bool = False
    buyer_is: Text = ""
    buyer: Text = ""

    @model_validator(mode="before")
    @classmethod
    def _with_hyphens(cls, data: Any) -> Any:
        return {str(name).replace("-", "_"): value for name, value in data.items()} if isinstance(data, dict) else data

    def day(self, today: date) -> date:
        """Return the day of the quote. Raises WrongInput for what is none."""
        return _day(self.as_of, "as_of", today) or today

    def order(self, today: date) -> Order:
        """Return what the action is asked. Raises WrongInput for what is no day."""
        return Order(
            vehicles=tuple(self.vehicles),
            to=self.to,
            start=self.start,
            ready=_day(self.ready, "ready", today),
            by=_day(self.by, "by", today),
            trailer=self.trailer,
            lift_gate=self.lift_gate,
            limited_access=self.limited_access,
            express=self.express,
            ocean=self.ocean,
            cover=self.cover,
            insure_for=self.insure_for,
            term=self.term,
            currency=self.currency,
            released_by=self.released_by,
            keep_until=_day(self.keep_until, "keep_until", today),
            collect=self.collect,
            terminal=self.terminal,
            sailing=_day(self.sailing, "sailing", today),
            spot=tuple(self.spot),
            buyer_is=self.buyer_is,
            buyer=self.buyer,
        )


def _day(text: str, field: str, today: date) -> date | None:
    """Return the day that is meant, None where none is named. Raises WrongInput for what is no day, or can be two."""
    said = text.strip()
    if not said:
        return None
    where = field.replace("_", " ")
    try:
        return check_planned(date.fromisoformat(said), where)
    except ValueError:
        days = days_meant(said, today=today)
    if len(days) > 1:
        which = " or ".join(day.isoformat() for day in days)
        raise WrongInput(f'"{said}" can be {which}', where=where, remedy="write one of them")
    if not days:
        raise WrongInput(f'"{said}" is not a date', where=where, remedy=HOW_TO_SAY_A_DAY)
    return days[0]
