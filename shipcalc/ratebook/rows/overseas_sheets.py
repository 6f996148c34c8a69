"""The sheets of `overseas.xlsx`, in their order."""

from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.sheet_kind import SheetKind

OVERSEAS = "overseas.xlsx"

PORTS = SheetKind(
    "Ports",
    "ports.Port",
    "ports",
    (
        "One row for each sea port: what it handles, what it charges, how long it takes.",
        "Region is your own word for a group of ports; ocean services sail from region to region.",
        "Only ports that say yes under Ships from here are left from; every other is one to arrive at.",
    ),
)

OCEAN = SheetKind(
    "Ocean",
    "ocean.OceanService",
    "ocean",
    (
        "One row for each service of a line between two regions, and for each kind of transport it offers.",
        "Its freight is base + nautical miles × rate for each unit of the basis, so every pair of ports has a price.",
        "Surcharges are percentages of that freight; what the row avoids closes canals for this service only.",
    ),
)

QUOTATIONS = SheetKind(
    "Ocean quotations",
    "quotations.OceanQuotation",
    "quotations",
    (
        "Freight as forwarders and lines quote it: a row for the freight between two ports, and one for each surcharge on it.",
        "A row that holds on the day prices the ships of the sheet Ocean there; a pair of ports counts before their groups.",
        "Where no row holds, the freight is estimated from the distance (sheet Ocean), and the quote says so.",
    ),
    may_be_missing=True,
)

PORT_CHARGES = SheetKind(
    "Port charges",
    "port_charges.PortCharge",
    "port_charges",
    (
        "What a terminal asks, line by line, with its period. A port without a row of the day: the sums of the sheet Ports.",
        "Rows for a port and mode stand in place of its gate, wharfage and terminal handling there.",
        "Storage: rows for a vehicle a day, each from its day after the free ones on; in place of the storage there.",
    ),
    may_be_missing=True,
)

CONTAINERS = SheetKind(
    "Containers",
    "containers.ContainerType",
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
    without="the usual ways of loading count",
)

STAGE_CHARGES = SheetKind(
    "Stage charges",
    "stage_charges.StageCharge",
    "stage_charges",
    (
        "A decision table: a row is charged when everything it says about transport, country and vehicle is true.",
        "A blank cell is always true. Stage says where the cost arises; the delivery term decides who pays it.",
        "Fill the sum or the percentage of the vehicle's value, not both.",
    ),
)

ON_CARRIAGE = SheetKind(
    "On-carriage",
    "on_carriage.OnCarriage",
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
    "marine_cover.MarineCover",
    "marine_cover",
    (
        "Marine cargo cover by its conditions: A covers most perils, C the fewest.",
        "The premium is counted of the insured sum, which contains the premium itself.",
        "A row with a Mode comes before one without.",
    ),
)

CURRENCIES = SheetKind(
    "Currencies",
    Currency,
    "currencies",
    (
        "What one unit of the book's currency buys. This sheet is to be kept current, as Fuel is.",
        "Add a row with a later day; the latest not after the day of the quote counts, older rows explain older quotes.",
        "The buffer is added to a converted price against movements until the buyer pays.",
    ),
)


OVERSEAS_SHEETS = (
    PORTS,
    OCEAN,
    QUOTATIONS,
    PORT_CHARGES,
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
)
