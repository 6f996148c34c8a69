"""What the trade's words mean, for a buyer who has never shipped a vehicle: of all of them those that an offer uses.

The meanings are ours. A contract, a carrier's conditions and the full text of a delivery rule say what binds.
"""

import re
from collections.abc import Iterable

from shipcalc.documents import wording
from shipcalc.quote.model import Option
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Explained:
    """A word of the trade, how it is found in a text, and its meaning, which begins with a small letter."""

    word: str
    found: str
    meaning: str


def explained(texts: Iterable[str]) -> tuple[Explained, ...]:
    """Return the words that occur in some texts, in the order of the alphabet."""
    told = "\n".join(texts)
    return tuple(one for one in WORDS if re.search(one.found, told))


def term_in_plain_words(option: Option) -> str:
    """Return what the delivery term of a choice means for the buyer, with its named place; nothing where none is agreed."""
    meaning = TERMS.get(option.term, "")
    if not option.risk_passes or not meaning:
        return ""
    return f"{wording.term(option)} (Incoterms 2020) means: {meaning.format(place=option.term_place)}"


# Who pays what under each stands in quote/price/terms.py; a test holds these sentences to it.
_FROM_THERE = "From there the way is at your cost and risk."
_ON_BOARD = "From the moment the vehicle is on board the ship the risk is yours"
_HANDED_OVER = "From the moment the first carrier has the vehicle the risk is yours"
TERMS = {
    "EXW": "you fetch the vehicle at our yard. Loading it, its export and the whole way are at your cost and risk.",
    "FCA": f"we clear the vehicle for export and hand it over in {{place}} to the carrier. {_FROM_THERE}",
    "FAS": f"we clear the vehicle for export and bring it alongside the ship in {{place}}. {_FROM_THERE}",
    "FOB": f"we clear the vehicle for export and bring it on board the ship in {{place}}. {_FROM_THERE}",
    "CFR": f"we pay the carriage to {{place}}. {_ON_BOARD}, and insuring it too.",
    "CIF": f"we pay the carriage to {{place}} and a marine cover for you. {_ON_BOARD}.",
    "CPT": f"we pay the carriage to {{place}}. {_HANDED_OVER}, and insuring it too.",
    "CIP": f"we pay the carriage to {{place}} and a marine cover for you. {_HANDED_OVER}.",
    "DAP": "we bring the vehicle to {place} at our expense and risk. Unloading it, customs clearance, duty and tax are yours.",
    "DPU": "we bring the vehicle to {place} and unload it at our expense and risk. Customs clearance, duty and tax are yours.",
    "DDP": (
        "we bring the vehicle to {place} at our expense and risk, cleared through customs, duty and tax paid. "
        "Unloading it is yours."
    ),
}

# (word, how it is found in a text, its meaning)
_MEANINGS = (
    ("ABN", r"\bABN\b", "the Australian business number"),
    ("Bill of lading", r"[Bb]ills? of lading", "the carrier's receipt; whoever it names gets the vehicle"),
    ("CFC", r"\bCFC\b", "cooling gases that harm the ozone layer"),
    (
        "Conditions A, B, C",
        r"conditions [ABC]\b",
        "what a marine cover answers for: A for most perils, B and C for named ones",
    ),
    ("Consignee", r"[Cc]onsignee", "who receives the vehicle"),
    ("Customs broker", r"[Cc]ustoms broker", "who is licensed to clear goods through customs for others"),
    ("EEI", r"\bEEI\b", "the electronic export information that customs in the United States ask for"),
    (
        "Enclosed trailer",
        r"[Ee]nclosed tr",
        "with walls and a roof; on an open one it stands in wind and rain, as new cars do",
    ),
    ("EORI number", r"\bEORI\b", "by which customs in the European Union know who imports"),
    ("Excess", r"\ban excess\b", "what you bear of a loss yourself before the cover pays"),
    ("Forwarder", r"[Ff]orwarder", "who arranges the carriage over sea and its papers"),
    ("Fuel surcharge", r"[Ff]uel surcharge", "what a carrier adds or takes off as the price of fuel moves"),
    ("General average", r"[Gg]eneral average", "a loss made on purpose to save ship and cargo"),
    ("GST, HST", r"\b[GH]ST\b", "taxes on goods and services, also on imports"),
    (
        "Incoterms 2020",
        r"Incoterms",
        "rules of the International Chamber of Commerce: who pays and bears the risk up to where",
    ),
    ("Lashed", r"\b[Ll]ash(ed|ing)", "tied down on the deck or in the container"),
    ("Lien", r"\b[Ll]ien\b", "somebody else's claim on the vehicle until a debt is paid"),
    ("Lift gate", r"[Ll]ift gate", "a platform that lowers the vehicle from the truck"),
    ("Marine cover", r"[Mm]arine (cargo )?cover", "insurance of the vehicle on its way over the sea"),
    ("Nautical mile", r"[Nn]autical mile", "1,852 metres"),
    ("NOM", r"\bNOM\b", "official Mexican standards"),
    ("RoRo", r"\bRoRo\b", "roll-on, roll-off: a ship onto which vehicles are driven or towed"),
    ("THC", r"\bTHC\b", "terminal handling charge, for moving a container between gate and ship"),
    ("Title", r"\b[Tt]itle\b", "the official document of who owns the vehicle"),
    ("t or m³", r"t or m³|W/M", "tonnes of weight or cubic metres of room, whichever is more"),
    ("USDOT number", r"\bUSDOT\b", "under which the United States register a motor carrier"),
    ("VAT", r"\bVAT\b", "value added tax, also on imports"),
    ("Wharfage", r"[Ww]harfage|[Qq]uay dues", "what a port asks for goods that pass over its quay"),
)
WORDS = tuple(Explained(*one) for one in _MEANINGS)
