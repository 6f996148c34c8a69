"""A vehicle as the program knows it."""

from typing import Literal

from shipcalc.records import dataclass

TitleKind = Literal["clean", "lien", "salvage", "foreign", "bill of sale only", "missing"]


# The stock number of a vehicle that was described, and is on no list.
AS_DESCRIBED = "as described"


# What works on a vehicle, as conditions of how it is loaded.
WORKS = ("runs", "rolls", "steers", "brakes")


@dataclass(frozen=True, slots=True, kw_only=True)
class Vehicle:
    """One vehicle: what it measures, what works on it, what it is worth.

    Lengths in millimetres over everything that sticks out, mass in grams, engine in cubic centimetres, money in minor
    units of `currency`; `photo` is the name of a picture beside the stock list. None means unknown. `assumed` names the
    fields that were filled from the table of typical sizes: they are said in every quote.
    """

    stock_number: str
    year: int | None = None
    make: str = ""
    model: str = ""
    body: str = ""
    serial: str = ""
    length_mm: int | None = None
    width_mm: int | None = None
    height_mm: int | None = None
    clearance_mm: int | None = None
    mass_grams: int | None = None
    runs: bool = True
    rolls: bool = True
    steers: bool = True
    brakes: bool = True
    modified: bool = False
    original_state: bool | None = None
    value_minor: int | None = None
    currency: str = "USD"
    yard: str = ""
    title: TitleKind = "clean"
    engine_cc: int | None = None
    fuel: str = ""
    built_in: str = ""
    note: str = ""
    photo: str = ""
    assumed: tuple[str, ...] = ()

    @property
    def drives(self) -> bool:
        """Return whether it can be driven by its own means, onto a ship or a truck: it runs, rolls, steers and brakes."""
        return self.runs and self.rolls and self.steers and self.brakes

    @property
    def name(self) -> str:
        """Return what people call it: `1961 Larkspur Minnow roadster`."""
        body = "" if self.body.casefold() in self.model.casefold() else self.body
        parts = (str(self.year) if self.year else "", self.make, self.model, body)
        return " ".join(part for part in parts if part) or self.stock_number


def what_fails(vehicle: Vehicle) -> str:
    """Return what does not work on a vehicle: `does not run, roll or brake`; nothing where all works."""
    failing = [work.removesuffix("s") for work in WORKS if not getattr(vehicle, work)]
    if not failing:
        return ""
    *others, last = failing
    return f"does not {', '.join(others)} or {last}" if others else f"does not {last}"
