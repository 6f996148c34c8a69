"""All sheets of the rate book as rows, before and after they are checked; and the list of the sheets."""

from collections.abc import Mapping
from importlib import import_module
from typing import TYPE_CHECKING

from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.paperwork import DocumentRow, FromBuyerRow, TaskRow
from shipcalc.ratebook.rows.trucking import (
    Area,
    Carrier,
    ExtraCharge,
    FuelScheme,
    MileBand,
    PricingSetting,
    RoadFactor,
    Season,
    VehicleSize,
)
from shipcalc.ratebook.rows.yards import Storage, Terminal
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import dataclass, field

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad
    from shipcalc.ratebook.rows.imports import Country, EntryRule, Hold, ImportCharge
    from shipcalc.ratebook.rows.loading import LoadingWay
    from shipcalc.ratebook.rows.overseas import (
        ContainerType,
        Currency,
        MarineCover,
        OceanService,
        OnCarriage,
        Port,
        StageCharge,
    )
    from shipcalc.ratebook.rows.ways import BorderPort, Gateway, PassageState


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tables:
    """The usable rows of every sheet.

    `unread` maps a sheet to the names in its unusable rows (None: no row could be read), so that one slip is told once.
    """

    carriers: tuple[Carrier, ...] = ()
    bands: tuple[MileBand, ...] = ()
    extras: tuple[ExtraCharge, ...] = ()
    areas: tuple[Area, ...] = ()
    seasons: tuple[Season, ...] = ()
    fuel: tuple[FuelScheme, ...] = ()
    road_factors: tuple[RoadFactor, ...] = ()
    ferries: tuple[Ferry, ...] = ()
    storage: tuple[Storage, ...] = ()
    terminals: tuple[Terminal, ...] = ()
    sizes: tuple[VehicleSize, ...] = ()
    settings: tuple[PricingSetting, ...] = ()
    documents: tuple[DocumentRow, ...] = ()
    tasks: tuple[TaskRow, ...] = ()
    from_buyer: tuple[FromBuyerRow, ...] = ()
    ports: "tuple[Port, ...]" = ()
    ocean: "tuple[OceanService, ...]" = ()
    containers: "tuple[ContainerType, ...]" = ()
    loading_ways: "tuple[LoadingWay, ...]" = ()
    stage_charges: "tuple[StageCharge, ...]" = ()
    on_carriage: "tuple[OnCarriage, ...]" = ()
    ferries_abroad: "tuple[FerryAbroad, ...]" = ()
    gateways: "tuple[Gateway, ...]" = ()
    passages: "tuple[PassageState, ...]" = ()
    border_ports: "tuple[BorderPort, ...]" = ()
    marine_cover: "tuple[MarineCover, ...]" = ()
    currencies: "tuple[Currency, ...]" = ()
    countries: "tuple[Country, ...]" = ()
    import_charges: "tuple[ImportCharge, ...]" = ()
    entry_rules: "tuple[EntryRule, ...]" = ()
    holds: "tuple[Hold, ...]" = ()
    unread: Mapping[str, frozenset[str] | None] = field(default_factory=dict)

    def may_stand_in(self, sheet: str, name: str) -> bool:
        """Return whether `name` may stand in a row of that sheet which could not be read."""
        names = self.unread.get(sheet, frozenset())
        return names is None or name.casefold() in names


@dataclass(frozen=True, slots=True)
class SheetKind:
    """One sheet: its name, what its rows are, the field of Tables they fill, and three lines that explain it.

    `row` is the row's type, or where it is found ("overseas.Port"): a quote at home asks for none of those, and need not
    import them. Where `must_have_rows`, a sheet with nothing but headers is a fault; where `may_be_missing`, a workbook without
    it is sound.
    """

    name: str
    row: type[Row] | str
    rows: str
    about: tuple[str, str, str]
    must_have_rows: bool = False
    may_be_missing: bool = False

    @property
    def is_overseas(self) -> bool:
        """Return whether only overseas quotes ask for the sheet's rows."""
        return isinstance(self.row, str)

    @property
    def row_type(self) -> type[Row]:
        """Return what the sheet's rows are."""
        if not isinstance(self.row, str):
            return self.row
        module, _, name = self.row.partition(".")
        found: type[Row] = getattr(import_module(f"shipcalc.ratebook.rows.{module}"), name)
        return found


TRUCKING = "trucking.xlsx"
OVERSEAS = "overseas.xlsx"
PAPERWORK = "paperwork.xlsx"

CARRIERS = SheetKind(
    "Carriers",
    Carrier,
    "carriers",
    (
        "One row for each carrier and kind of trailer: where it picks up and delivers, what it takes, what is fixed.",
        "Blank limits are no limits; blank areas are everywhere on the home road network.",
        "The rate for each mile stands on the sheet Per mile.",
    ),
    must_have_rows=True,
)
PER_MILE = SheetKind(
    "Per mile",
    MileBand,
    "bands",
    (
        "The distance bands of each carrier: the first begins at 0 miles, each begins where the one before ends.",
        "Whole trip: all miles cost the rate of the trip's band. Graduated: each mile costs the rate of its own band.",
        "A longer trip never costs less: where a later band would be cheaper, the program charges that one.",
    ),
    must_have_rows=True,
)
EXTRA_CHARGES = SheetKind(
    "Extra charges",
    ExtraCharge,
    "extras",
    (
        "A decision table: a row is charged when everything it says about carrier, vehicle and trip is true.",
        "A blank cell is always true. Ranges are two columns: over (not itself included) and up to (included).",
        "Charge says which of the three amounts counts: flat, percent or per mile; the other two stay blank.",
    ),
)
AREAS = SheetKind(
    "Areas",
    Area,
    "areas",
    (
        "Names for parts of the country, as states, or as ZIPs or their first digits; several rows of a name add up.",
        "Carriers and seasons refer to these names.",
        "A row may carry a charge of its own, for a place that is remote or costly to reach.",
    ),
)
SEASONS = SheetKind(
    "Seasons",
    Season,
    "seasons",
    (
        "Times of the year when one direction costs more, or less: a percentage of the linehaul.",
        "The day of pickup decides. Yes under Every year: only day and month of the dates count.",
        "From and to are names of the sheet Areas; blank is any.",
    ),
)
FUEL = SheetKind(
    "Fuel",
    FuelScheme,
    "fuel",
    (
        "The weekly price of diesel, and how each scheme makes a surcharge of it. This is the sheet to keep current.",
        "Add a row a week; the latest not after the day of the quote counts, older rows explain older quotes.",
        "Per mile: (price - peg) / miles per gallon. Percent steps: so many percent for each started step over the peg.",
    ),
)
ROAD_FACTORS = SheetKind(
    "Road factors",
    RoadFactor,
    "road_factors",
    (
        "How much longer the road is than the straight line: for a country, a pair of states, or a lane you know.",
        "The closest match counts, in both directions: a lane's own miles before states, states before countries.",
        "Every row names its source; a figure of your own says so.",
    ),
)
FERRIES = SheetKind(
    "Ferries",
    Ferry,
    "ferries",
    (
        "Car ferries to places at home that no road reaches: a row serves the island that its second terminal is on.",
        "The truck drives to the terminal, crosses, and drives on; the price is a line of the quote of its own.",
        "A place without a row here is said not to be reached by road.",
    ),
    may_be_missing=True,
)
STORAGE = SheetKind(
    "Storage",
    Storage,
    "storage",
    (
        "What it costs to keep a vehicle at a yard until the buyer wants it: for each day, or for each started month.",
        "The first row of the vehicle's yard counts, else the first row without a yard.",
        "It is charged only where the buyer asks to have it kept (--keep-until).",
    ),
    may_be_missing=True,
)
TERMINALS = SheetKind(
    "Terminals",
    Terminal,
    "terminals",
    (
        "Terminals where trucks set vehicles down for buyers who come for them, instead of going to the door.",
        "The price is that of the truck to the terminal's ZIP, less the discount, with the terminal's fee.",
        "The one nearest to the buyer is told beside the price to the door.",
    ),
    may_be_missing=True,
)
VEHICLE_SIZES = SheetKind(
    "Vehicle sizes",
    VehicleSize,
    "sizes",
    (
        "Typical outer sizes of a body, for vehicles whose sizes are not known.",
        "What is taken from here is named as assumed in every quote.",
        "Measure the vehicle where it matters: a low or a long one is priced by its size.",
    ),
)
PRICING = SheetKind(
    "Pricing",
    PricingSetting,
    "settings",
    (
        "How cost becomes price: markups, rounding, how long a quote holds, the deposit.",
        "Valid from and Valid to bound every quote made from this workbook.",
        "A setting that is left out keeps the value the program has for it.",
    ),
)
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

PORTS = SheetKind(
    "Ports",
    "overseas.Port",
    "ports",
    (
        "One row for each sea port: what it handles, what it charges, how long it takes.",
        "Region is your own word for a group of ports; ocean services sail from region to region.",
        "Only ports that say yes under Ships from here are left from; every other is one to arrive at.",
    ),
)
OCEAN = SheetKind(
    "Ocean",
    "overseas.OceanService",
    "ocean",
    (
        "One row for each service of a line between two regions, and for each kind of transport it offers.",
        "Its freight is base + nautical miles × rate for each unit of the basis, so every pair of ports has a price.",
        "Surcharges are percentages of that freight; what the row avoids closes canals for this service only.",
    ),
)
CONTAINERS = SheetKind(
    "Containers",
    "overseas.ContainerType",
    "containers",
    (
        "One row for each size of container: its least inside and door sizes, and what loading one costs.",
        "A vehicle fits where it passes door and inside with the clearances; several stand nose to tail.",
        "Measured sizes of your own containers may be larger: write them in, and say so under Source.",
    ),
)
LOADING = SheetKind(
    "Ways of loading",
    "loading.LoadingWay",
    "loading_ways",
    (
        "How a vehicle goes onto the ship or into the container: the first row that holds for it and the line counts.",
        "A blank cell is always true. What no row holds for is left out, and the quote says why.",
        "Who loads decides: ask the line and the terminal before you promise what cannot be driven.",
    ),
    may_be_missing=True,
)
STAGE_CHARGES = SheetKind(
    "Stage charges",
    "overseas.StageCharge",
    "stage_charges",
    (
        "A decision table: a row is charged when everything it says about transport, country and vehicle is true.",
        "A blank cell is always true. Stage says where the cost arises; the delivery term decides who pays it.",
        "Fill the sum or the percentage of the vehicle's value, not both.",
    ),
)
ON_CARRIAGE = SheetKind(
    "On-carriage",
    "overseas.OnCarriage",
    "on_carriage",
    (
        "Carriage by road from the arrival port to the buyer, by the buyer's country: an estimate.",
        "Road miles come from the sheet Road factors of trucking.xlsx.",
        "A country without a row is priced to its arrival port, and the quote says so.",
    ),
)
FERRIES_ABROAD = SheetKind(
    "Ferries abroad",
    "ferries_abroad.FerryAbroad",
    "ferries_abroad",
    (
        "Car ferries on the last leg: a row serves the island that its second port is on, where no ship of the book calls.",
        "The truck drives to the first port, crosses, and drives on; the price is a line of the quote of its own.",
        "An island without a row here is priced to the port of arrival, and the quote says so.",
    ),
    may_be_missing=True,
)
GATEWAYS = SheetKind(
    "Gateways",
    "ways.Gateway",
    "gateways",
    (
        "The ports that the goods of a country customarily come in by, where it has none of its own, or besides them.",
        "A country without a row: its own ports on the sheet Ports; where it has none, those nearest by road.",
        "A way through a country that is held is never taken, whatever stands here.",
    ),
    may_be_missing=True,
)
PASSAGES = SheetKind(
    "Passages",
    "ways.PassageState",
    "passages",
    (
        "The state of the day of canals and straits: this sheet is to be kept current, as Fuel is.",
        "caution is said above the price of every way that passes there; closed: ships go around it, or not at all.",
        "A passage without a row is open. A surcharge is a line of its own in the price; the caution is said all the same.",
    ),
    may_be_missing=True,
)
BORDER_PORTS = SheetKind(
    "Border ports",
    "ways.BorderPort",
    "border_ports",
    (
        "When customs clear trucks where a road leads over the border. The crossing nearest to the way is named with its hours.",
        "Hours change: ask the customs agency before a truck sets out. Small crossings clear trucks on few hours.",
        "A country without a row: nothing is said of hours.",
    ),
    may_be_missing=True,
)
MARINE_COVER = SheetKind(
    "Marine cover",
    "overseas.MarineCover",
    "marine_cover",
    (
        "Marine cargo cover by its conditions: A covers most perils, C the fewest.",
        "The premium is counted of the insured sum, which contains the premium itself.",
        "A row with a Mode comes before one without.",
    ),
)
CURRENCIES = SheetKind(
    "Currencies",
    "overseas.Currency",
    "currencies",
    (
        "What one unit of the book's currency buys. This sheet is to be kept current, as Fuel is.",
        "Add a row with a later day; the latest not after the day of the quote counts, older rows explain older quotes.",
        "The buffer is added to a converted price against movements until the buyer pays.",
    ),
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

WORKBOOKS: Mapping[str, tuple[SheetKind, ...]] = {
    TRUCKING: (
        CARRIERS,
        PER_MILE,
        EXTRA_CHARGES,
        VEHICLE_SIZES,
        AREAS,
        SEASONS,
        FUEL,
        ROAD_FACTORS,
        FERRIES,
        STORAGE,
        TERMINALS,
        PRICING,
    ),
    OVERSEAS: (
        PORTS,
        OCEAN,
        CONTAINERS,
        LOADING,
        STAGE_CHARGES,
        ON_CARRIAGE,
        FERRIES_ABROAD,
        GATEWAYS,
        PASSAGES,
        BORDER_PORTS,
        MARINE_COVER,
        CURRENCIES,
    ),
    PAPERWORK: (DOCUMENTS, TASKS, FROM_BUYER, COUNTRIES, IMPORT_CHARGES, ENTRY_RULES, HOLDS),
}
SHEETS: tuple[SheetKind, ...] = tuple(sheet for sheets in WORKBOOKS.values() for sheet in sheets)
