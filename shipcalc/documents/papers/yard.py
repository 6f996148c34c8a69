"""What is written with a pen beside the vehicle: hand-over and condition sheet, and the look over how it is tied down."""

from shipcalc.documents import wording
from shipcalc.documents.handover import BY_TRUCK, MARKS, NEW_MARKS, PHOTOGRAPHS, READINGS, SIGNATURES, TIED_DOWN, course
from shipcalc.documents.papers.facts import Facts
from shipcalc.documents.papers.invoices import stock_column
from shipcalc.documents.papers.outlines import VIEWS, views
from shipcalc.documents.papers.paper import BY_HAND, Field, Paper, Table
from shipcalc.documents.securing import CAUTIONS, SOURCE, is_tied_down
from shipcalc.measures import grams_to_pounds
from shipcalc.vehicles.vehicle import Vehicle

HANDOVER = "documents/papers/handover.typ"
_MARK_LINES = 5
_TIE_DOWNS = 8


def handover(facts: Facts, vehicle: Vehicle) -> Paper:
    """Return the hand-over and condition sheet of one vehicle, one page."""
    start, to, by = course(facts.quote, facts.option, vehicle)
    carrier = facts.reference("carrier") or by
    on_truck = is_tied_down(facts.option)
    receipt = "the carrier's delivery receipt" if on_truck else "both copies"
    told = NEW_MARKS.format(receipt=receipt)
    drawn = views(vehicle.body)
    return Paper(
        code="handover",
        title="Hand-over and condition",
        vehicle=vehicle.stock_number,
        boxes=(
            (Field("Vehicle", f"{vehicle.name}, {vehicle.stock_number}"), _serial(vehicle)),
            (Field("From", wording.place(start)), Field("To", wording.place(to))),
            (
                Field("Carrier", carrier) if carrier else Field("Fetched by", facts.quote.buyer, BY_HAND),
                Field("Our reference", facts.number),
            ),
        ),
        sentences=(f"{told} {BY_TRUCK}" if on_truck else told,),
        signatures=tuple(f"{who}: name, signature, day, time" for who in SIGNATURES),
        draft="",
        template=HANDOVER,
        drawing={
            "readings": READINGS,
            "marks": MARKS,
            "lines": _MARK_LINES,
            "views": [{"name": name, "drawn": drawn[name]} for name in VIEWS],
            "photographs": (*PHOTOGRAPHS, TIED_DOWN) if on_truck else PHOTOGRAPHS,
        },
    )


def securing(facts: Facts, vehicle: Vehicle) -> Paper:
    """Return the sheet to look over how one vehicle is tied down."""
    pounds = None if vehicle.mass_grams is None else grams_to_pounds(vehicle.mass_grams)
    assumed = " (typical for the body, not weighed)" if "mass_grams" in vehicle.assumed else ""
    weight = stock_column("Weight", vehicle)
    return Paper(
        code="securing",
        title="Securing on the truck",
        vehicle=vehicle.stock_number,
        boxes=(
            (Field("Vehicle", f"{vehicle.name}, {vehicle.stock_number}"), _serial(vehicle)),
            (
                Field("Weight", f"{pounds:,.0f} lb{assumed}" if pounds else "", weight),
                Field(
                    "Half of it, which all limits together must reach",
                    f"{pounds / 2:,.0f} lb" if pounds else "",
                    weight,
                ),
            ),
        ),
        table=Table(
            columns=(
                ("Tie-down", False),
                ("Front or rear", False),
                ("Limit on its tag, lb", False),
                ("Direct or over", False),
                ("Counts, lb", False),
            ),
            rows=tuple(
                (Field("Tie-down", str(number)), *(Field(what, "") for what in _WRITTEN))
                for number in range(1, _TIE_DOWNS + 1)
            ),
            wide=3,
            by_hand=True,
        ),
        sentences=(
            _COUNTS,
            "☐ At least two tie-downs in front.    ☐ At least two behind.    ☐ What counts reaches half the weight.",
        ),
        cautions=CAUTIONS,
        signatures=("Checked by: name, signature, day, time", "Driver: name, signature"),
        after=SOURCE,
        draft="",
    )


_COUNTS = (
    "Direct, from trailer to vehicle, counts half its limit; over or around and back to the other side counts whole."
)
_WRITTEN = ("Front or rear", "Limit", "Direct or over", "Counts")


def _serial(vehicle: Vehicle) -> Field:
    return Field("Serial number", vehicle.serial or "read it off the vehicle:")
