"""What the office's pages are told: one shape for each thing that can be done, by the names of the terminal's options."""

from datetime import date
from typing import Annotated

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo

from shipcalc.checklist.items import State
from shipcalc.schedule.said_days import check_planned
from shipcalc.trade import MOMENTS

_LONGEST = 500
Text = Annotated[str, Field(max_length=_LONGEST)]


def _none_if_empty(value: object) -> object:
    return None if value == "" else value


def _can_be_meant(value: date | None, told: ValidationInfo) -> date | None:
    return None if value is None else check_planned(value, (told.field_name or "day").replace("_", " "))


Day = Annotated[date | None, BeforeValidator(_none_if_empty), AfterValidator(_can_be_meant)]
Needed = Annotated[date, AfterValidator(_can_be_meant)]
Count = Annotated[int | None, BeforeValidator(_none_if_empty)]


class Said(BaseModel):
    """Who does it, for the record; whoever has signed in acts in their own name."""

    model_config = ConfigDict(extra="forbid")

    who: Text = ""


class OfLine(Said):
    """A line of a checklist, and the version of it that was looked at."""

    line: Text
    seen: int | None = None


class Ticked(OfLine):
    """A line is done, not needed, or open again."""

    state: State = "done"
    on: Day = None


class Assigned(OfLine):
    """A line is somebody's; nobody's own, where no name is given."""

    to: Text = ""


class Noted(OfLine):
    """A note on a line; an empty one takes it away."""

    text: Text = ""


class DueOn(OfLine):
    """A line is due on another day."""

    due: Needed


class Moved(Said):
    """A moment has another first day, or comes so many days later. `seen` is what a look said would change."""

    stage: Text
    to: Day = None
    days: Count = None
    look: bool = False
    seen: Annotated[list[Text], Field(max_length=200)] | None = None


class Named(Said):
    """References by their names; an empty one is taken away."""

    references: dict[Annotated[str, Field(max_length=40)], Text] = Field(max_length=40)


class News(Said):
    """Days that came true, or were announced, by moment; the container and the ship where they are told with them."""

    pickup: Day = None
    port: Day = None
    sailing: Day = None
    arrival: Day = None
    release: Day = None
    delivery: Day = None
    container: Text = ""
    vessel: Text = ""
    look: bool = False

    def days(self) -> dict[str, date]:
        """Return the days that were told, by moment."""
        told = {stage: getattr(self, stage, None) for stage in MOMENTS}
        return {stage: day for stage, day in told.items() if day is not None}

    def references(self) -> list[str]:
        """Return the references that were told, as the action takes them."""
        told = (("container", self.container), ("vessel", self.vessel))
        return [f"{name}={value}" for name, value in told if value.strip()]


class Billed(Said):
    """What somebody billed."""

    carrier: Text = ""
    kind: Text = "all-in"
    amount: Text = ""
    currency: Text = "USD"
    day: Day = None
    reference: Text = ""


class OneBill(Said):
    """A bill, by its number in the list."""

    bill: int


class InBook(Said):
    """Somebody for the address book; `known`: whose details are changed."""

    role: Text
    name: Text
    known: bool = False
    telephone: Text = ""
    evening: Text = ""
    mail: Text = ""
    address: Text = ""
    remark: Text = ""


class Accepted(Said):
    """The buyer's yes: to which choice, counted from 1, on which day, and who said it."""

    choice: Count = None
    on: Day = None
    by: Text = ""


class Declined(Said):
    """The buyer's no, or a yes taken back: why, on which day, and who said it."""

    why: Text = ""
    on: Day = None
    by: Text = ""


class Extended(Said):
    """The day until which a price is to hold."""

    until: Needed
