"""The items of a checklist: what is to be done, by whom, by when, and how it stands."""

from datetime import date
from typing import Literal, get_args

from shipcalc.records import dataclass

State = Literal["open", "done", "not needed"]
STATES: tuple[State, ...] = get_args(State)


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One line of the checklist.

    `id` is the task's code, with the vehicle's stock number where it concerns one of several (`photographs/HV-014`): it
    stays the same when dates move and the list is made anew. `after` holds the ids of what has to be done first.
    `slack_days` is how many days the item may slip before it makes something dated later late; None where nothing waits for
    it. `due_by_hand`: somebody set the day it is due. `wanted` is what it yields (a proof, a paper); `remark` is what the
    office has noted.
    """

    id: str
    title: str
    owner: str
    due: date
    stage: str = ""
    after: tuple[str, ...] = ()
    slack_days: int | None = None
    due_by_hand: bool = False
    critical: bool = False
    wanted: str = ""
    note: str = ""
    source: str = ""
    vehicle: str | None = None
    state: State = "open"
    done_on: date | None = None
    done_by: str = ""
    remark: str = ""

    @property
    def is_open(self) -> bool:
        """Return whether it is still to be done."""
        return self.state == "open"


def item_id(code: str, vehicle: str | None) -> str:
    """Return the id of a task or paper: its code, with the vehicle's stock number where it is for one vehicle."""
    return f"{code}/{vehicle}" if vehicle else code
