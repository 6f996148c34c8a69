"""The words that columns about overseas shipments choose from: apart from the sheets, which a quote at home need not import."""

# The stages at which a cost arises, in the order they come: who pays each is what a delivery term decides.
COST_STAGES = (
    "export packing",
    "loading at origin",
    "pre-carriage",
    "export clearance",
    "origin terminal",
    "loading on vessel",
    "main carriage",
    "cargo insurance",
    "destination terminal",
    "on-carriage",
    "unloading",
    "import clearance",
    "duty and tax",
)
OCEAN_MODES = ("roro", "container", "shared container")
OCEAN_BASES = ("per vehicle", "per W/M", "per m³", "per 20′", "per 40′", "per 40′HC")
STAGE_MODES = ("truck", *OCEAN_MODES)
# What papers and tasks ask for: also the vehicle that nobody carries, since the buyer collects it at the yard.
# or whom a hired driver delivers it on its own wheels.
PAPER_MODES = (*STAGE_MODES, "collected", "driven")
# How a vehicle goes onto what carries it: driven or towed aboard a ship, standing on a platform with wheels (static), packed in a
# container, on a truck over a border or all the way.
SEA_LOADINGS = ("driven", "towed", "static", "container")
LOADINGS = (*SEA_LOADINGS, "truck", "own wheels")
# When the balance of a price is due (sheet Pricing).
BALANCES = ("before pickup", "before the papers are released", "on delivery")
PER = ("vehicle", "container", "shipment")
WEEK = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
# A base is for a whole container, too; a rate for one mile is not.
LARGEST_BASE = 20_000
COVER_CONDITIONS = ("A", "B", "C")
# The eleven rules of Incoterms 2020 by their codes; who pays what under each stands in quote/terms.py.
DELIVERY_TERMS = ("EXW", "FCA", "FAS", "FOB", "CFR", "CIF", "CPT", "CIP", "DAP", "DPU", "DDP")
TREATMENTS = ("ordinary", "collector")
IMPORT_TREATMENTS = (*TREATMENTS, "preference")
