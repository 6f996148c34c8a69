"""The words of the trade that the program computes with: one list for each thing, and what tells its members apart.

Where a rule asks for a mode, a cost stage, a moment, a trailer or a payer, it asks for one of these. What a word means in a price
or a sentence stands beside it, so that a new one is added here and in the rate book.
"""

from collections.abc import Iterable, Mapping
from typing import Literal

from shipcalc.records import dataclass, field

Trailer = Literal["open", "enclosed"]
Payer = Literal["seller", "buyer"]
Mode = Literal["truck", "roro", "container", "shared container"]
Ocean = Literal["roro", "container"]
Unit = Literal["mi", "nmi"]
Conditions = Literal["A", "B", "C"]
Treatment = Literal["ordinary", "collector", "preference"]

# What a service drives with; a hired driver brings no trailer.
DRIVEN = "driven"
TRAILERS = ("open", "enclosed", DRIVEN)


@dataclass(frozen=True, slots=True)
class CostStage:
    """Where a cost arises: who pays it is what a delivery term decides.

    `told` is the stage within a sentence. `estimated`: what arises there is known to the dealer only roughly, whoever pays it.
    """

    name: str
    told: str
    estimated: bool = False


# In the order of the journey. Who pays each under each delivery term stands in quote/price/terms.py.
STAGES = (
    CostStage("export packing", "preparing the vehicle"),
    CostStage("loading at origin", "loading"),
    CostStage("pre-carriage", "the truck to the port"),
    CostStage("export clearance", "export papers and clearance"),
    CostStage("origin terminal", "the port of departure"),
    CostStage("loading on vessel", "loading on the ship"),
    CostStage("main carriage", "the carriage by sea"),
    CostStage("cargo insurance", "marine cargo cover"),
    CostStage("destination terminal", "the port of arrival", estimated=True),
    CostStage("on-carriage", "the truck to your door", estimated=True),
    CostStage("unloading", "unloading", estimated=True),
    CostStage("import clearance", "customs clearance there", estimated=True),
    CostStage("duty and tax", "duty and tax", estimated=True),
)
COST_STAGES = tuple(stage.name for stage in STAGES)
COVER_STAGE, DUTY_STAGE = "cargo insurance", "duty and tax"
# The one stage of a transport at home, where there is nothing to share out.
AT_HOME = "road carriage"
# Where a vehicle waits in the yard because the buyer wishes it: no part of its carriage, so neither cover nor customs count it.
KEPT = "storage"
# What the seller is paid for under every delivery term.
NO_TERM_SHARES_OUT = (AT_HOME, KEPT)
# Where the line stands that brings the total up to a round price; no delivery term says who pays that.
ROUNDING = "rounding"


MILES_IN_WORDS: dict[Unit, str] = {"mi": "miles", "nmi": "nautical miles"}


@dataclass(frozen=True, slots=True)
class Called:
    """What people call the place where vehicles are handed over to a carrier, what it carries them in, when that sets out, what
    is paid for it, and the paper that it gives; `aboard` is how a vehicle goes on by its own means, `along` where it runs,
    `cover` and `cargo_cover` what insures it.

    Its miles are counted in `unit` ("nmi" or "mi"), and `pace` is what its row of *Ocean* calls knots.
    """

    place: str = "port"
    carrier: str = "ship"
    departure: str = "sailing"
    leaves: str = "sails"
    freight: str = "ocean freight"
    document: str = "bill of lading"
    aboard: str = "driven aboard"
    along: str = "sea lanes"
    cover: str = "marine cover"
    cargo_cover: str = "marine cargo cover"
    unit: Unit = "nmi"
    pace: str = "knots"

    @property
    def miles(self) -> str:
        """Return what its miles are called."""
        return MILES_IN_WORDS[self.unit]


SHIP = Called()


@dataclass(frozen=True, slots=True)
class Crossing:
    """A mode of the longest leg, in a buyer's words: how it travels (`told`), the choice (`title`), its `freight` as a line, and
    the stages that it calls otherwise (`stages`). `called` is how its carrier, places and departures are spoken of.

    `shelter` is how well it shelters a vehicle (our own order, no source; more is better); `ocean` what a buyer asks for to get
    it, None without a ship. `handled` is the column of *Ports* by which a port takes it, `bases` what its freight is counted by.
    """

    mode: Mode
    told: str
    shelter: int
    ocean: Ocean | None = None
    handled: Literal["roro", "container", ""] = ""
    bases: tuple[str, ...] = ()
    title: str = ""
    freight: str = "Ocean freight"
    stages: Mapping[str, str] = field(default_factory=dict)
    called: Called = SHIP

    @property
    def is_driven_aboard(self) -> bool:
        """Return whether a vehicle goes aboard by itself, on its wheels or in tow, and is handed over alongside."""
        return self.handled == "roro"

    @property
    def is_packed(self) -> bool:
        """Return whether the vehicles fill containers of their own, which are what is charged."""
        return self.bases == _BY_CONTAINER


_BY_SIZE = ("per vehicle", "per W/M", "per m³")
_BY_CONTAINER = ("per 20′", "per 40′", "per 40′HC")
CROSSINGS = (
    Crossing("container", "in a container of its own", 2, "container", "container", _BY_CONTAINER),
    Crossing("roro", "by RoRo ship", 0, "roro", "roro", _BY_SIZE, "RoRo", "Ocean freight, RoRo ship"),
    Crossing(
        "shared container",
        "in a shared container",
        1,
        "container",
        "container",
        _BY_SIZE,
        "Shared container",
        "Ocean freight, shared container",
    ),
    Crossing("truck", "by road alone", 2, stages={"main carriage": "the truck all the way to your door"}),
)
CROSSING_BY_MODE: dict[str, Crossing] = {crossing.mode: crossing for crossing in CROSSINGS}
OCEAN_MODES: tuple[Mode, ...] = ("roro", "container", "shared container")


def called_by(modes: Iterable[str]) -> tuple[Called, ...]:
    """Return how those among some modes are spoken of that go by port and timetable, each once; a ship where there is none."""
    found = dict.fromkeys(CROSSING_BY_MODE[mode].called for mode in modes if mode in OCEAN_MODES)
    return tuple(found) or (SHIP,)


OCEAN_BASES = (*_BY_SIZE, *_BY_CONTAINER)
CONTAINER_SIZES = tuple(basis.removeprefix("per ") for basis in _BY_CONTAINER)
# What a forwarder quotes by, too: a surcharge for a container of any size, a lump sum for the whole shipment.
QUOTED_BASES = (*OCEAN_BASES, "per container", "per shipment")
# The stages that a quotation of ocean freight may hold; the last is the freight itself.
QUOTED_STAGES = ("pre-carriage", "loading at origin", "origin terminal", "destination terminal", "main carriage")
PORT_PER = ("vehicle", "revenue ton", "container", "shipment", "vehicle a day")
STAGE_MODES = ("truck", *OCEAN_MODES)
# What papers and tasks ask for: also the vehicle that the buyer collects at the yard, and the one that a hired driver delivers.
COLLECTED = "collected"
PAPER_MODES = (*STAGE_MODES, COLLECTED, DRIVEN)

# How a vehicle goes onto what carries it: driven or towed aboard a ship, standing on a platform with wheels (static), packed in a
# container, on a truck over a border or all the way.
SEA_LOADINGS = ("driven", "towed", "static", "container")
LOADINGS = (*SEA_LOADINGS, "truck", "own wheels")

# The moments of a shipment that a document or a task is due by, in the order they come. The middle ones are of shipments that
# leave by sea: into the export terminal, the last moment for papers and vehicle there, departure, discharge, cleared.
MOMENTS = (
    "agreed",
    "ready",
    "pickup",
    "port",
    "cut-off",
    "sailing",
    "arrival",
    "release",
    "delivery",
    "after delivery",
)
SEA_MOMENTS = MOMENTS[3:8]
WINDOW_ENDS = ("first", "last")

# When the balance of a price is due (sheet Pricing).
BALANCES = ("before pickup", "before the papers are released", "on delivery")
PER = ("vehicle", "container", "shipment")
WEEK = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
# A base is for a whole container, too; a rate for one mile is not.
LARGEST_BASE = 20_000
# What an amount in a currency of its own may be; what it comes to is held to the limits of the book's.
LARGEST_AMOUNT = 50_000_000
COVER_CONDITIONS = ("A", "B", "C")
# The eleven rules of Incoterms 2020 by their codes; who pays what under each stands in quote/price/terms.py.
DELIVERY_TERMS = ("EXW", "FCA", "FAS", "FOB", "CFR", "CIF", "CPT", "CIP", "DAP", "DPU", "DDP")
TREATMENTS = ("ordinary", "collector")
IMPORT_TREATMENTS = (*TREATMENTS, "preference")
OWNERS = ("sales", "office", "yard", "carrier", "forwarder", "customs broker", "buyer")
TITLES = ("clean", "lien", "salvage", "foreign", "bill of sale only", "missing")
