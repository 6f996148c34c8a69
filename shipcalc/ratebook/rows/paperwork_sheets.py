"""The sheets of `paperwork.xlsx`, in their order."""

from shipcalc.ratebook.rows.paperwork import DocumentRow, FromBuyerRow, TaskRow
from shipcalc.ratebook.rows.sheet_kind import SheetKind

PAPERWORK = "paperwork.xlsx"

DOCUMENTS = SheetKind(
    "Documents",
    DocumentRow,
    "documents",
    (
        "A decision table: a paper is needed when everything the row says about the shipment is true.",
        "A blank cell is always true. Several rows may share a code, one below the other: the first that is true counts.",
        "Due by and Days say when: two days before pickup is pickup and -2.",
    ),
)

TASKS = SheetKind(
    "Tasks",
    TaskRow,
    "tasks",
    (
        "A decision table: somebody must do this when everything the row says about the shipment is true.",
        "A blank cell is always true; of rows with one code the first counts. After names the tasks that come first, by code.",
        "Due by and Days say when; Proof says what shows that it is done.",
    ),
)

FROM_BUYER = SheetKind(
    "From the buyer",
    FromBuyerRow,
    "from_buyer",
    (
        "A decision table: the buyer is asked for this when everything the row says about the shipment is true.",
        "A blank cell is always true. Several rows may share a code, one below the other: the first that is true counts.",
        "The sentences stand in the message and the workbook that the buyer gets.",
    ),
    may_be_missing=True,
)

COUNTRIES = SheetKind(
    "Countries",
    "imports.Country",
    "countries",
    (
        "The buyer's countries: currency, side of the steering wheel, from which age a vehicle may be a collector's piece.",
        "A country without a row is priced without duty and tax, and the quote says so.",
        "Every row says where it was read and how far to trust it; the country's customs decide.",
    ),
    may_be_missing=True,
)

IMPORT_CHARGES = SheetKind(
    "Import charges",
    "imports.ImportCharge",
    "import_charges",
    (
        "Duty and tax on the buyer's side, as estimates. The rows of a country apply in the order of the sheet.",
        "Fill a percentage and what it is of, or a flat sum. Later rows may count on the duty and tax of earlier ones.",
        "Rows for ordinary and for collector treatment stand side by side; a blank Treatment holds for both.",
    ),
    may_be_missing=True,
)

ENTRY_RULES = SheetKind(
    "Entry rules",
    "imports.EntryRule",
    "entry_rules",
    (
        "Rules of entry that are said before the price: a vehicle that is barred gets none.",
        "A row counts when the vehicle's age and kind meet it; a blank cell is always true.",
        "Every row says where it was read and how far to trust it; the country's authorities decide.",
    ),
    may_be_missing=True,
)

HOLDS = SheetKind(
    "Holds",
    "imports.Hold",
    "holds",
    (
        "Destinations that are never quoted, or only once whoever is responsible for export compliance has released them.",
        "To release what the program ships as held, write released in its row, with reason and source.",
        "What is embargoed is refused whatever stands here. Rules change at short notice: look at the sources.",
    ),
    may_be_missing=True,
)


PAPERWORK_SHEETS = (
    DOCUMENTS,
    TASKS,
    FROM_BUYER,
    COUNTRIES,
    IMPORT_CHARGES,
    ENTRY_RULES,
    HOLDS,
)
