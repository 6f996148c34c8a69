"""The codes of states, provinces and countries that the rate book may name.

States and the District of Columbia: US Postal Service two-letter codes (also ISO 3166-2:US). Provinces and territories:
ISO 3166-2:CA. Countries: ISO 3166-1 alpha-2. A test compares them with the GeoNames tables.
"""

_STATES = (
    "AL AK AZ AR CA CO CT DE DC FL GA HI ID IL IN IA KS KY LA ME MD MA MI MN MS MO MT NE NV NH NJ NM NY NC ND OH OK OR "
    "PA RI SC SD TN TX UT VT VA WA WV WI WY"
)
_PROVINCES = "AB BC MB NB NL NS NT NU ON PE QC SK YT"

US_STATES = tuple(_STATES.split())
CANADIAN_PROVINCES = tuple(_PROVINCES.split())

# Reached by the contiguous road network of the United States: the states without Alaska and Hawaii.
CONTIGUOUS_STATES = tuple(state for state in US_STATES if state not in ("AK", "HI"))

SUBDIVISIONS = {"US": frozenset(US_STATES), "CA": frozenset(CANADIAN_PROVINCES)}

_COUNTRIES = (
    "AD AE AF AG AI AL AM AO AQ AR AS AT AU AW AX AZ BA BB BD BE BF BG BH BI BJ BL BM BN BO BQ BR BS BT BV BW BY BZ "
    "CA CC CD CF CG CH CI CK CL CM CN CO CR CU CV CW CX CY CZ DE DJ DK DM DO DZ EC EE EG EH ER ES ET FI FJ FK FM FO FR "
    "GA GB GD GE GF GG GH GI GL GM GN GP GQ GR GS GT GU GW GY HK HM HN HR HT HU ID IE IL IM IN IO IQ IR IS IT JE JM JO "
    "JP KE KG KH KI KM KN KP KR KW KY KZ LA LB LC LI LK LR LS LT LU LV LY MA MC MD ME MF MG MH MK ML MM MN MO MP MQ MR "
    "MS MT MU MV MW MX MY MZ NA NC NE NF NG NI NL NO NP NR NU NZ OM PA PE PF PG PH PK PL PM PN PR PS PT PW PY QA RE RO "
    "RS RU RW SA SB SC SD SE SG SH SI SJ SK SL SM SN SO SR SS ST SV SX SY SZ TC TD TF TG TH TJ TK TL TM TN TO TR TT TV "
    "TW TZ UA UG UM US UY UZ VA VC VE VG VI VN VU WF WS YE YT ZA ZM ZW"
)
# Kosovo has no code of ISO 3166-1: XK is one of those that the standard leaves to users, and GeoNames and the customs use it.
COUNTRIES = frozenset([*_COUNTRIES.split(), "XK"])

# Codes that people write and ISO does not have, with the one they mean.
MISTAKEN_COUNTRIES = {"UK": "GB", "USA": "US", "UAE": "AE", "EN": "GB", "EL": "GR"}
