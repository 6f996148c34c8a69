"""The words that say trailer, container, unit, way by sea and vehicles, and whether fuel is in a price."""

import re

from shipcalc.ratebook.taking.vocabulary import MEASURES, any_of

# The variant of prices for what runs, one vehicle, the usual service.
STANDARD = "standard"
# The variant of prices for the way back, from where a lane ends to where it begins.
BACK_HAUL = "back-haul"
# What no price for all vehicles is taken from.
SOME_ALONE = frozenset(("does not run", "express", "motorcycle", "several vehicles", "whole trucks"))
# The unit of prices for a metre, a kilogram, an hour: no sheet has such prices of a carriage.
MEASURE = "measure"
_FUEL_WORD = (
    r"(?:treibstoff\w*|kraftstoff\w*|gazole|gasoil|gasoleo|gasolio|nafta|brandstof\w*|dieselzuschlag|dieseltoeslag|carburant|combustible|carburante|"
    r"fuel(?: surcharges?| s ?c)?|fsc|bunker|baf|diesel)"
)
# Between "including" and "fuel" other things may stand ("tolls and"), but nothing that turns the sense.
_AMONG = r"(?:(?!incl|excl|plus|without|not |no |ex )[\w&/+]+ ){0,4}"
_INCLUDES = (
    r"(?:incl(?:uding|udes|uded|ude|usive(?: of)?)?|inkl(?:usive)?|inbegrepen|einschl\w*|compris|"
    r"incluid[oa]|inclus[eoa]?)"
)
_EXCLUDES = (
    r"(?:excl(?:uding|udes|uded|ude|usive(?: of)?)?|exclus|excluid[oa]|esclus[oa]|exkl(?:usive)?|zuzugl\w*|zzgl|ohne|zonder|plus|"
    r"hors|sin|senza|without|w ?/? ?o|before|net of|ex|not incl(?:uding|uded|ude)?|subject to|(?:does|do) not include)"
)
_IS_IN = r"(?:already )?(?:incl(?:uded|usive)?|inclu\w+|inbegrepen|inkl\w*|enthalten|compris\w*|in)\b(?! ?(?:a|the|addition)\b)"
_IS_OUT = (
    r"(?:(?:not|no|nicht|niet|non) (?:yet )?(?:incl\w*|enthalten|inbegrepen|compris\w*)|excl(?:uded|usive)?|esclus\w+|excluid\w+|"
    r"exclus?|en sus|aparte?|a parte|extra|additional|"
    r"in addition|separate(?:ly)?|on top|billed separately|applies|will be added|added|to be added|charged separately)\b"
)
_LINK = r"(?:[: ] ?(?:is |are |surcharges? |charges? )*)"
FUEL_IN = re.compile(
    rf"\b{_INCLUDES}\b\.? ?{_AMONG}{_FUEL_WORD}\b|\b(?:with|w/?) ?{_FUEL_WORD}\b|"
    rf"\b{_FUEL_WORD}(?: and \w+)?{_LINK}{_IS_IN}|\ball ?in(?:clusive)?\b"
)
FUEL_OUT = re.compile(
    rf"\b{_EXCLUDES}\b\.? ?{_AMONG}{_FUEL_WORD}\b|\+ ?{_FUEL_WORD}\b|"
    rf"\b{_FUEL_WORD}(?: and \w+)?{_LINK}{_IS_OUT}|"
    r"\bline ?haul only\b"
)
TRAILER = (
    (
        "enclosed",
        re.compile(
            r"\b(?:enclosed|encl|enc|closed|covered|gesloten|geschlossene?[rn]?|gedeckt|ferme|cerrado|"
            r"chiuso|bache|hard ?side(?:d)?|soft ?side(?:d)?|box trailer|box truck)\b(?: (?:transport|"
            r"trailer|carrier|truck|rates?)\b)?"
        ),
    ),
    (
        "open",
        re.compile(
            r"\b(?:open|opn|offene?[rn]?|ouverte?|abiert[oa]|apert[oa]|open air|open deck|open top|"
            r"uncovered)\b(?! (?:date|account|item|until|for|to|from))(?: (?:transport|trailer|carrier|"
            r"truck|rates?)\b)?"
        ),
    ),
    ("open", re.compile(r"\b(?:flat ?bed|flat ?deck)\b")),
)
_FEET = r"\s?(?:'|′|’|ft\b|foot\b|feet\b|(?=\s?(?:hc|hq|gp|dv|dc|high|std|st|dry|container|cntr|box)\b))\s?"
BASIS = (
    ("per 40′HC", re.compile(rf"\b(?:per |/ ?|1 ?x ?)?40{_FEET}(?:hc|hq|high ?cubes?)\b(?: containers?| cntr)?")),
    (
        "per 40′",
        re.compile(
            rf"\b(?:per |/ ?|1 ?x ?)?40{_FEET}(?:gp|dv|dc|std|st|dry|standard)?(?: ?containers?\b| ?cntr\b| ?box\b)?"
        ),
    ),
    (
        "per 20′",
        re.compile(
            rf"\b(?:per |/ ?|1 ?x ?)?20{_FEET}(?:gp|dv|dc|std|st|dry|standard)?(?: ?containers?\b| ?cntr\b| ?box\b)?"
        ),
    ),
    ("per W/M", re.compile(r"(?:per |/ ?)?\b(?:w ?/ ?m|w m|wm|revenue tons?|rev ?tons?|freight tons?|frt|r/?t)\b")),
    ("per m³", re.compile(r"(?:per |/ ?|\b)(?:cbm|m3|m³|cubic met(?:er|re)s?)\b|/ ?m³|\bm³")),
    ("per shipment", re.compile(r"(?:per|/) ?(?:shipment|b/?l|bill of lading|bl|booking|shpt)\b")),
    ("per container", re.compile(r"(?:per|/) ?(?:container|cntr|ctr|box|ctnr)\b")),
    (
        "per vehicle",
        re.compile(
            r"(?:per|/|je|pro|par|por) ?(?:fahrzeug|pkw|voertuig|vehicule|vehiculo|veicolo|auto|wagen|"
            r"stuk|stuck|vehicle|veh|car|unit|automobile|auto|piece|pc)s?\b|\beach\b|"
            r"\bper ?unit\b|\blump ?sum\b"
        ),
    ),
)
_MEASURE = re.compile(
    rf"(?:\b{any_of(MEASURES['each'])}|(?<!w)(?<!w )/) ?(?:10+ ?)?(?:{any_of(MEASURES['started'])} )*{any_of(MEASURES['of'])}\b|"
    rf"(?:\b{any_of(MEASURES['each'])}|/) ?10+ ?(?:kms?|mi|miles?)\b"
)
UNIT = (
    ("cents a mile", re.compile(r"\b(?:cents?|cts|¢) ?(?:per |/ ?|a )?(?:mile|mi)\b|\bcpm\b|¢ ?/ ?mi\b")),
    ("km", re.compile(r"(?:per|/|a|je|pro|par|por|al) ?(?:km|kilomet(?:er|re))s?\b")),
    (MEASURE, _MEASURE),
    ("mi", re.compile(r"(?:per|/|a|each|je) ?(?:loaded )?(?:miles?|mi|ml)\b|\b(?:rpm|per ?mile|ppm|mileage rate)\b")),
)
MODE = (
    ("roro", re.compile(r"\bro ?[-/]? ?ro\b|\broll ?on(?: ?/?-? ?roll ?off)?\b")),
    ("shared container", re.compile(r"\b(?:shared|consolidated|lcl|groupage|consol)\b(?: containers?\b)?")),
    ("container", re.compile(r"\b(?:fcl|full container(?: load)?)\b")),
)
VARIANT = (
    (
        "does not run",
        re.compile(
            r"\b(?:inop(?:erable|s)?|non ?-?run(?:ning|ner)?s?|not running|does not run|disabled|dead|"
            r"forklift|nonoperable|non ?-?operable|non ?-?op)\b"
        ),
    ),
    (
        STANDARD,
        re.compile(
            r"\b(?:operable|running|runners?|drivable|runs|regular|standard service|standard|"
            r"std service)\b"
        ),
    ),
    ("express", re.compile(r"\b(?:express|expedited|rush|priority|guaranteed|hot ?shot|premium|top ?load)\b")),
    (
        "large vehicle",
        re.compile(
            r"\b(?:suvs?(?: ?[/&,] ?(?:vans?|pick ?ups?|trucks?))*|pick ?up trucks?|vans?|oversized?|"
            r"large|full ?size|dually|truck ?/ ?van|heavy|lwb|xl|4x4)\b"
        ),
    ),
    (
        "sedan",
        re.compile(
            r"\b(?:sedans?|saloons?|passenger cars?|compact|mid ?size|small(?: car)?|coupes?|roadsters?|"
            r"midsize|motor ?cars?)\b"
        ),
    ),
    ("motorcycle", re.compile(r"\b(?:motor ?cycles?|bikes?|motorbikes?)\b")),
    (
        "several vehicles",
        re.compile(
            r"\b(?:[2-9]|two|three|four|five|six|multi) ?(?:\+|-|to|or more)? ?(?:[2-9]+)? ?(?:vehicles?|"
            r"cars?|units?)\b|\bfull (?:load|truck(?: ?load)?)\b|\bftl\b|\bmulti ?-?(?:car|unit|"
            r"vehicle)s?\b"
        ),
    ),
    (STANDARD, re.compile(r"\b(?:1|one|single) (?:vehicle|car|unit)\b")),
    (
        "whole trucks",
        re.compile(
            r"(?:\b(?:per|par|je|pro|por)|/) ?(?:truck ?loads?|loads?|trucks?|camions?|lkw|vrachtwagen|full trailer)\b"
        ),
    ),
    (BACK_HAUL, re.compile(r"\bback ?-?haul\b")),
)
MINIMUM = re.compile(r"\b(?:min|minimum)\b")
