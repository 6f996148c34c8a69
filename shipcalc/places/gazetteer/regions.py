"""Countries, states and provinces by name, code and usual abbreviation."""

from functools import cache

from shipcalc.places.gazetteer.pages import countries
from shipcalc.places.gazetteer.spelling import spelling_key
from shipcalc.records import dataclass


def _by_code(text: str) -> dict[str, str]:
    """Return {code: name} for each "code name" of a list divided by ;."""
    pairs = (entry.partition(" ") for entry in text.split(";"))
    return {code: name for code, _, name in pairs}


US_STATES = _by_code(
    "AL Alabama;AK Alaska;AZ Arizona;AR Arkansas;CA California;CO Colorado;CT Connecticut;DE Delaware;"
    "DC District of Columbia;FL Florida;GA Georgia;HI Hawaii;ID Idaho;IL Illinois;IN Indiana;IA Iowa;KS Kansas;"
    "KY Kentucky;LA Louisiana;ME Maine;MD Maryland;MA Massachusetts;MI Michigan;MN Minnesota;MS Mississippi;MO Missouri;"
    "MT Montana;NE Nebraska;NV Nevada;NH New Hampshire;NJ New Jersey;NM New Mexico;NY New York;NC North Carolina;"
    "ND North Dakota;OH Ohio;OK Oklahoma;OR Oregon;PA Pennsylvania;RI Rhode Island;SC South Carolina;SD South Dakota;"
    "TN Tennessee;TX Texas;UT Utah;VT Vermont;VA Virginia;WA Washington;WV West Virginia;WI Wisconsin;WY Wyoming"
)
CANADIAN_PROVINCES = _by_code(
    "AB Alberta;BC British Columbia;MB Manitoba;NB New Brunswick;NL Newfoundland and Labrador;NS Nova Scotia;"
    "NT Northwest Territories;NU Nunavut;ON Ontario;PE Prince Edward Island;QC Quebec;SK Saskatchewan;YT Yukon"
)
AUSTRALIAN_STATES = _by_code(
    "ACT Australian Capital Territory;NSW New South Wales;NT Northern Territory;QLD Queensland;SA South Australia;"
    "TAS Tasmania;VIC Victoria;WA Western Australia"
)
UK_NATIONS = {"ENG": "England", "SCT": "Scotland", "WLS": "Wales", "NIR": "Northern Ireland"}

# Territories with a country code of their own (ISO 3166-1) that the post counts among the states.
US_TERRITORIES = ("PR", "GU", "VI", "AS", "MP", "FM", "PW", "MH")

_STATE_ABBREVIATIONS = (
    "Ala AL;Ariz AZ;Ark AR;Calif CA;Cal CA;Colo CO;Conn CT;Del DE;Fla FL;Ill IL;Ind IN;Kan KS;Kans KS;Mass MA;Mich MI;Minn MN;"
    "Miss MS;Mont MT;Neb NE;Nebr NE;Nev NV;Okla OK;Ore OR;Oreg OR;Penn PA;Penna PA;Tenn TN;Tex TX;Wash WA;WVa WV;Wis WI;"
    "Wisc WI;Wyo WY"
)
_PROVINCE_ABBREVIATIONS = (
    "Alta AB;PQ QC;Que QC;Ont ON;Sask SK;Man MB;PEI PE;Newfoundland NL;Labrador NL;Nfld NL;Yukon Territory YT;NWT NT"
)
_COUNTRY_NAMES = (
    "UK GB;Britain GB;Great Britain GB;UAE AE;Emirates AE;USA US;America US;United States of America US;KSA SA;"
    "Netherlands NL;Holland NL;Czech Republic CZ;Korea KR;Republic of Korea KR;DPRK KP;Burma MM;Turkiye TR;Macedonia MK;"
    "Cape Verde CV;Swaziland SZ;DRC CD;DR Congo CD;Congo CG;Cote d'Ivoire CI;Macau MO;East Timor TL;Eire IE;"
    "Republic of Ireland IE;Russian Federation RU;PRC CN;Viet Nam VN;Vatican City VA;Palestine PS;Bosnia BA;"
    "Saint Martin MF;Saint Barth BL;"
    "Saint Kitts KN;Saint Vincent VC;Antigua AG;Trinidad TT;Tobago TT;Turks and Caicos TC;"
    "US Virgin Islands VI;USVI VI;BVI VG;CNMI MP;Saipan MP;The Bahamas BS;The Gambia GM;"
    "Deutschland DE;Osterreich AT;Oesterreich AT;Schweiz CH;Suisse CH;Svizzera CH;Espana ES;Italia IT;Norge NO;Sverige SE;"
    "Danmark DK;Suomi FI;Polska PL;Brasil BR;Belgie BE;Belgique BE;Nederland NL;NZ NZ;RSA ZA;Aotearoa NZ"
)


@dataclass(frozen=True, slots=True)
class Region:
    """A country, or a state, province or nation in it (`subdivision` is then not empty)."""

    country: str
    subdivision: str
    name: str


def regions_named(key: str) -> tuple[Region, ...]:
    """Return what a name or code can mean, likeliest first: "ga" is Georgia the state, then Gabon; () where nothing."""
    return _by_key().get(key, ())


def country_name(code: str) -> str:
    """Return the English name of a country by its two letters."""
    return countries()[code].name if code in countries() else code


def region_name(country: str, subdivision: str) -> str:
    """Return how a person names where a place lies: "Oregon", "British Columbia", "Germany"."""
    states = {"US": US_STATES, "CA": CANADIAN_PROVINCES}.get(country, {})
    return states.get(subdivision) or country_name(country)


@cache
def _by_key() -> dict[str, tuple[Region, ...]]:
    """Return all regions by spelling key; where several share one, US states come first and Australian ones last."""
    found: dict[str, list[Region]] = {}
    for name, region in (*_american(), *_all_countries(), *_commonwealth()):
        regions = found.setdefault(spelling_key(name), [])
        if region not in regions:
            regions.append(region)
    return {key: tuple(regions) for key, regions in found.items()}


def _american() -> list[tuple[str, Region]]:
    """Return every name and code of the US states and the Canadian provinces."""
    named: list[tuple[str, Region]] = []
    for country, states, short in (
        ("US", US_STATES, _STATE_ABBREVIATIONS),
        ("CA", CANADIAN_PROVINCES, _PROVINCE_ABBREVIATIONS),
    ):
        regions = {code: Region(country, code, name) for code, name in states.items()}
        named += regions.items()
        named += [(region.name, region) for region in regions.values()]
        named += [(name, regions[code]) for name, code in _pairs(short)]
    return named


def _all_countries() -> list[tuple[str, Region]]:
    """Return every country by alpha-2, alpha-3, name and the other names above."""
    named: list[tuple[str, Region]] = []
    for code, country in countries().items():
        region = Region(code, "", country.name)
        named += [(code, region), (country.alpha3, region), (country.name, region)]
    return named + [(name, Region(code, "", country_name(code))) for name, code in _pairs(_COUNTRY_NAMES)]


def _commonwealth() -> list[tuple[str, Region]]:
    """Return the Australian states and the nations of the United Kingdom."""
    australian = [(name, Region("AU", code, AUSTRALIAN_STATES[code])) for code in AUSTRALIAN_STATES
                  for name in (code, AUSTRALIAN_STATES[code])]  # fmt: skip
    return australian + [(name, Region("GB", code, name)) for code, name in UK_NATIONS.items()]


def _pairs(text: str) -> list[tuple[str, str]]:
    """Return (name, code) for each "name code" of a list divided by ;."""
    pairs = (entry.rpartition(" ") for entry in text.split(";"))
    return [(name, code) for name, _, code in pairs]
