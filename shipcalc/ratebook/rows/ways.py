"""The sheets of `overseas.xlsx` about ways: gateways of countries without ports, passages at sea, crossings of land borders."""

import re
from datetime import date

from shipcalc.places.sea.passages import PASSAGE_NAMES
from shipcalc.ratebook.rows.sourced import (
    checked_on_column,
    office_note_column,
    pickup_from_column,
    pickup_to_column,
    trust_column,
)
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.records import dataclass

STATES = ("open", "caution", "closed")
_HOURS = re.compile(r"(\d{1,2})\s*(?:to|-|–)\s*(\d{1,2})")


def hours_in(text: str) -> tuple[int, int] | None:
    """Return from and until of hours as a manager writes them, 7 to 24; None where the text says none."""
    found = _HOURS.fullmatch(text.strip())
    start, end = (int(found[1]), int(found[2])) if found else (0, 0)
    return (start, end) if 0 <= start < end <= 24 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Gateway(Row):
    """A port that a country's goods customarily come in by, in another country."""

    country: str = column("Country", Kind.COUNTRY, "Two letters (ISO 3166-1).", example="ML", required=True)
    port: str = column(
        "UN/LOCODE", Kind.CODE, "A port of the sheet Ports.", example="SNDKR", required=True, refers_to="Ports"
    )
    note: str | None = column("Note", Kind.TEXT, "What should be known of the corridor.", example="")
    source: str | None = column("Source", Kind.TEXT, "Who says so.", example="the line's notice")
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class PassageState(Row):
    """How a passage at sea stands today: open, to be said with a caution, or closed to the ships of the book."""

    passage: str = column(
        "Passage", Kind.CHOICE, "Its name.", choices=PASSAGE_NAMES, example="bab-el-mandeb", required=True
    )
    state: str = column(
        "State",
        Kind.CHOICE,
        "open: nothing is said. caution: said above the price. closed: ships go around it, or not at all.",
        choices=STATES,
        example="caution",
        required=True,
    )
    since: date | None = column("Since", Kind.DATE, "First day of this state.", example="2026-11-28")
    note: str | None = column(
        "Note",
        Kind.TEXT,
        "The sentence the buyer reads.",
        example="Ships may be sent around the Cape of Good Hope.",
    )
    source: str | None = column("Source", Kind.TEXT, "Who says so.", example="the line's notice")
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column()
    surcharge_minor: int | None = column(
        "Surcharge, vehicle ($)",
        Kind.MONEY,
        "What the line asks for each vehicle that passes here, for war risk or the like. Blank: nothing.",
        example="180",
    )
    surcharge_ppm: int | None = column(
        "Surcharge, share of value",
        Kind.PERCENT,
        "The same as a percentage of each vehicle's value; both may be set. Blank: nothing.",
        example="0.25 %",
    )
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class BorderPort(Row):
    """When customs clear trucks at a crossing of a land border that leads out of the country."""

    crossing: str = column("Crossing", Kind.TEXT, "Its name.", example="Laredo, World Trade Bridge", required=True)
    country: str = column("To country", Kind.COUNTRY, "Two letters (ISO 3166-1).", example="MX", required=True)
    latitude: float = column(
        "Latitude", Kind.FACTOR, "Degrees north; south is negative.", example="27.60", required=True, signed=True
    )
    longitude: float = column(
        "Longitude", Kind.FACTOR, "Degrees east; west is negative.", example="-99.53", required=True, signed=True
    )
    weekdays: str = column(
        "Monday to Friday",
        Kind.TEXT,
        "Hours for trucks, as 7 to 24; 0 to 24: all day.",
        example="7 to 24",
        required=True,
    )
    saturday: str | None = column("Saturday", Kind.TEXT, "The same. Blank: no trucks.", example="8 to 16")
    sunday: str | None = column("Sunday", Kind.TEXT, "The same. Blank: no trucks.", example="10 to 14")
    holidays: bool = column(
        "On holidays too", Kind.YES_NO, "no: no trucks on public holidays.", example="no", default=True
    )
    source: str | None = column("Source", Kind.TEXT, "Who says so.", example="the customs agency's notice")
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column("2026-11-28")
