"""The sheets of `trucking.xlsx`, in their order."""

from shipcalc.ratebook.rows.areas import Area, Season
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.diesel import DieselPrice
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.fuel_steps import FuelStep
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.ratebook.rows.markups import MarkupRow
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.occasions import Occasion
from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.service_classes import ServiceClass
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.ratebook.rows.vehicles_loaded import VehiclesLoaded
from shipcalc.ratebook.rows.yards import Storage, Terminal

TRUCKING = "trucking.xlsx"

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

LANES = SheetKind(
    "Lanes",
    LaneRow,
    "lanes",
    (
        "What a carrier quoted for a lane: a sum, or so much a mile. It counts in place of the carrier's prices a mile, dearer or not.",
        "Of several rows that meet a shipment the most specific counts: one ZIP before a city, its first digits, a state, an area.",
        "Percent or Minimum alone change the carrier's own prices in one direction: a dear way out, a cheap way back.",
    ),
    may_be_missing=True,
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
        "How each scheme makes a surcharge of the price of diesel, which is typed once a week on the sheet Diesel.",
        "Per mile: (price - peg) / miles per gallon. Percent steps: so many percent for each started step over the peg.",
        "Step table: as its rows on the sheet Fuel steps say. A price typed here, with its day, counts for its scheme alone.",
    ),
)

DIESEL = SheetKind(
    "Diesel",
    DieselPrice,
    "diesel",
    (
        "The weekly price of diesel, for all schemes of the sheet Fuel. This is the sheet to keep current.",
        "Add a row a week; the latest not after the day of the quote counts, older rows explain older quotes.",
        "A blank region is the whole country; a scheme that goes by a region's price names it.",
    ),
    may_be_missing=True,
)

FUEL_STEPS = SheetKind(
    "Fuel steps",
    FuelStep,
    "fuel_steps",
    (
        "A carrier's own table of surcharges: from each price of diesel on, a percentage of the linehaul or dollars a mile.",
        "A row counts up to the next row's price of the same scheme; below the first there is no surcharge.",
        "Only schemes whose method on the sheet Fuel is step table go by it.",
    ),
    may_be_missing=True,
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
        "The truck drives to the terminal, crosses, and drives on; the price is a line of its own, a carrier's own where it has a row.",
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
        "The price is that of the truck to its ZIP, less the discount, with its fee; a row of Lanes that names it, without the discount.",
        "The one nearest to the buyer is told beside the price to the door; --from with its name starts there.",
    ),
    may_be_missing=True,
)

PRICING = SheetKind(
    "Pricing",
    PricingSetting,
    "settings",
    (
        "How cost becomes price: markups, rounding, how long a quote holds, the deposit.",
        "The settings Valid from and Valid to bound every quote made from this workbook; what is left out keeps the program's value.",
        "A markup may change on a day: a second row for it, with the days of pickup that each holds for in its own columns.",
    ),
)

VEHICLES_LOADED = SheetKind(
    "Vehicles loaded",
    VehiclesLoaded,
    "loaded",
    (
        "What each vehicle pays where a carrier loads several at one place: a share of the linehaul, or so much less.",
        "A row counts from its number of vehicles up to the next row's; a carrier without a row asks the same for each.",
        "How many there are is the number of vehicles of one quote that stand in the same yard.",
    ),
    may_be_missing=True,
)

SERVICE_CLASSES = SheetKind(
    "Service classes",
    ServiceClass,
    "classes",
    (
        "Classes of a carrier beside its ordinary service: a pick-up that it guarantees within some days, for a surcharge.",
        "Each class is a choice of its own in a quote; what it takes, its miles and its days on the road are the service's.",
        "If missed is what the carrier's own terms promise; the buyer reads it as it stands.",
    ),
    may_be_missing=True,
)

WHEN_IT_HAPPENS = SheetKind(
    "When it happens",
    Occasion,
    "occasions",
    (
        "What a carrier asks for what may come: waiting, storage, a night on the way, a trip for nothing.",
        "It is in no price: it is told with what the price does not hold, and to the office at the carrier's own figure.",
        "A carrier's own row stands in place of the one for all with the same name, a row with the trailer before one without.",
    ),
    may_be_missing=True,
)

MARKUPS = SheetKind(
    "Markups",
    MarkupRow,
    "markups",
    (
        "Other markups than those of the sheet Pricing: for a carrier, a kind of buyer, a country, or for all shipments.",
        "Cell by cell the row counts that names the most of carrier, kind of buyer and country; a blank cell says nothing.",
        "Least margin: our price of a truck's linehaul is so much above the carrier's at least, for each vehicle.",
    ),
    may_be_missing=True,
)


TRUCKING_SHEETS = (
    CARRIERS,
    PER_MILE,
    LANES,
    EXTRA_CHARGES,
    VEHICLE_SIZES,
    AREAS,
    SEASONS,
    DIESEL,
    FUEL,
    FUEL_STEPS,
    ROAD_FACTORS,
    FERRIES,
    STORAGE,
    TERMINALS,
    VEHICLES_LOADED,
    SERVICE_CLASSES,
    WHEN_IT_HAPPENS,
    MARKUPS,
    PRICING,
)
