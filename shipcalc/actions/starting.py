"""Where a vehicle starts from: what was said, else the yard it stands in."""

from collections.abc import Sequence

from shipcalc.errors import WrongInput, asked
from shipcalc.places.gazetteer.find import find_place, get_place
from shipcalc.places.place import Place
from shipcalc.ratebook.rows.yards import Terminal
from shipcalc.records import dataclass, replace
from shipcalc.settings import FILE_NAME, Settings
from shipcalc.vehicles.vehicle import Vehicle


@dataclass(frozen=True, slots=True)
class Start:
    """A place to start from, and a sentence where it was not said by the user; `taken` is how its place was understood."""

    place: Place
    note: str = ""
    taken: str = ""


def start_of(vehicle: Vehicle, said: str, settings: Settings, terminals: Sequence[Terminal] = ()) -> Start:
    """Return where the vehicle starts: `said` (the name of a yard or terminal, or a place), else its yard, else the first yard.

    Raises WrongInput where none of these is a place.
    """
    if said:
        return _said(said, settings, terminals)
    if vehicle.yard:
        return _yard_of(vehicle, settings)
    if not settings.yards:
        raise WrongInput(
            f"it is not said where {vehicle.name} starts from",
            remedy=f"say {asked('from')} PLACE, or name your yards in {FILE_NAME}",
        )
    yard, text = settings.yards[0]
    found = get_place(text)
    assert found.place is not None, "get_place raises where there is none"
    at_yard = replace(found.place, yard=yard)
    return Start(at_yard, f"{vehicle.name} is in no yard's list: taken as starting from the yard {yard}.")


def _said(said: str, settings: Settings, terminals: Sequence[Terminal]) -> Start:
    yard = settings.find_yard(said)
    terminal = (
        None if yard else next((one for one in terminals if one.terminal.casefold() == said.strip().casefold()), None)
    )
    if terminal is not None:
        there = get_place(terminal.zip_code).place
        assert there is not None, "get_place raises where there is none"
        note = f"It starts from the {terminal.terminal}: bringing it there is not in the price."
        return Start(replace(there, terminal=terminal.terminal), note)
    found = get_place(yard or said)
    assert found.place is not None, "get_place raises where there is none"
    return Start(replace(found.place, yard=said.strip()) if yard else found.place, found.note)


def _yard_of(vehicle: Vehicle, settings: Settings) -> Start:
    """Return the vehicle's yard as a place; a vehicle at another than the first yard is said to start there."""
    text = settings.find_yard(vehicle.yard)
    found = find_place(text or vehicle.yard)
    if found.place is None:
        known = ", ".join(yard for yard, _ in settings.yards)
        raise WrongInput(
            f'"{text or vehicle.yard}" is not a place shipcalc knows',
            where=f"yard of {vehicle.stock_number}",
            remedy=f"name it under [yards] in {FILE_NAME}{f' (there now: {known})' if known else ''}, or say "
            f"{asked('from')} PLACE",
        )
    place = replace(found.place, yard=vehicle.yard)
    if text and vehicle.yard.casefold() == settings.yards[0][0].casefold():
        return Start(place)
    note = f"{vehicle.name} stands in the yard {vehicle.yard} and starts from there."
    return Start(place, note, "" if text else found.note)
