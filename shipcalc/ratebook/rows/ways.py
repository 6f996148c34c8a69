"""The sheets of `overseas.xlsx` about ways: the customary ports of a country without its own, the state of passages at sea."""

from datetime import date

from shipcalc.places.sea.passages import PASSAGE_NAMES
from shipcalc.ratebook.rows.sourced import office_note_column, trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.records import dataclass

STATES = ("open", "caution", "closed")


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
    checked_on: date | None = column(
        "Checked on",
        Kind.DATE,
        "The day of the copy that somebody read; blank unless it was read.",
        example="2026-11-25",
    )


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
    checked_on: date | None = column(
        "Checked on",
        Kind.DATE,
        "The day of the copy that somebody read; blank unless it was read.",
        example="2026-11-25",
    )
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
