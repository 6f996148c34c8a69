"""Areas, seasons, fuel, road factors, sizes and settings of the rate book that comes with the program.

Charges and prices are made up. What is not made up says its source on its row.
"""

# Every contiguous state and the District of Columbia lies in one region.
HOME_REGIONS = {
    "Northwest": "WA OR ID",
    "West": "CA NV AZ",
    "Mountain": "MT WY UT CO NM",
    "Plains": "ND SD NE KS OK MN IA MO",
    "Great Lakes": "WI IL MI IN OH",
    "South": "TX AR LA MS TN KY",
    "Southeast": "AL GA SC NC VA WV",
    "Florida": "FL",
    "Northeast": "PA NY NJ CT RI MA VT NH ME MD DE DC",
}

CANADIAN_REGIONS = {
    "Western Canada": "BC AB SK MB YT NT",
    "Eastern Canada": "ON QC NB NS PE",
}

CHARGED_FIELDS = "area zip_from zip_to label amount_minor extra_days"
CHARGED_AREAS = """
Olympic coast       | 98326 |       | Remote: the far coast of the Olympic Peninsula | 120 | 1
Olympic coast       | 98331 |       | Remote: the far coast of the Olympic Peninsula | 120 | 1
Olympic coast       | 98357 |       | Remote: the far coast of the Olympic Peninsula | 120 | 1
Olympic coast       | 98381 |       | Remote: the far coast of the Olympic Peninsula | 120 | 1
Northern Maine      | 047   |       | Remote: northern Maine                         | 165 | 2
Upper Peninsula     | 498   | 499   | Remote: the Upper Peninsula of Michigan        | 145 | 2
Big Bend            | 798   |       | Remote: the Big Bend of Texas                  | 150 | 2
Montana plains      | 592   |       | Remote: the plains of Montana                  | 155 | 2
Montana plains      | 595   |       | Remote: the plains of Montana                  | 155 | 2
Sandhills           | 692   |       | Remote: the Sandhills of Nebraska              | 125 | 1
Great Basin         | 893   |       | Remote: the Great Basin                        | 140 | 1
Great Basin         | 898   |       | Remote: the Great Basin                        | 140 | 1
Florida Keys        | 33036 | 33037 | Over the bridges to the Keys                   | 110 | 1
Florida Keys        | 33040 | 33045 | Over the bridges to the Keys                   | 110 | 1
Florida Keys        | 33050 | 33052 | Over the bridges to the Keys                   | 110 | 1
Florida Keys        | 33070 |       | Over the bridges to the Keys                   | 110 | 1
Outer Banks         | 27920 |       | Over the bridges to the Outer Banks            | 115 | 1
Outer Banks         | 27948 | 27949 | Over the bridges to the Outer Banks            | 115 | 1
Outer Banks         | 27954 | 27959 | Over the bridges to the Outer Banks            | 115 | 1
Cape Cod            | 026   |       | Cape Cod                                       | 75  | 1
Manhattan           | 100   | 102   | Manhattan: bridges, and no room to unload      | 160 | 0
Boston              | 021   | 022   | Boston: narrow streets and tunnels             | 85  | 0
San Francisco       | 941   |       | San Francisco: hills and narrow streets        | 95  | 0
Washington, D.C.    | 200   | 205   | The capital: permits for large trucks          | 60  | 0
"""

SEASON_FIELDS = "season label first_day last_day from_area to_area percent_ppm"
SEASONS = """
Snowbirds south, northeast | Autumn demand, southbound     | 2026-10-01 | 2026-12-20 | Northeast   | Florida     | 9 %
Snowbirds south, lakes     | Autumn demand, southbound     | 2026-10-01 | 2026-12-20 | Great Lakes | Florida     | 8 %
Snowbirds north, northeast | Spring demand, northbound     | 2027-03-15 | 2027-05-31 | Florida     | Northeast   | 9 %
Snowbirds north, lakes     | Spring demand, northbound     | 2027-03-15 | 2027-05-31 | Florida     | Great Lakes | 8 %
Empty trucks south         | Spring reduction, southbound  | 2027-03-15 | 2027-05-31 | Northeast   | Florida     | -5 %
Winter, to the mountains   | Winter roads in the mountains | 2026-11-15 | 2027-03-31 |             | Mountain    | 7 %
Winter, from the mountains | Winter roads in the mountains | 2026-11-15 | 2027-03-31 | Mountain    |             | 4 %
"""

# By region; "" is the whole country.
DIESEL_PRICES = {
    "": {
        "2026-01-05": "3.612",
        "2026-06-01": "3.745",
        "2026-11-09": "3.871",
        "2026-11-16": "3.842",
        "2026-11-23": "3.856",
    },
    "West Coast": {
        "2026-01-05": "4.243",
        "2026-06-01": "4.418",
        "2026-11-09": "4.602",
        "2026-11-16": "4.571",
        "2026-11-23": "4.588",
    },
}
FUEL_FIELDS = "scheme method diesel_region peg_e4 miles_per_gallon step_e4 step_percent_ppm source"
FUEL_SCHEMES = """
Per mile             | per mile      |            | 3.00 | 6.5 |      |     |
Per mile, enclosed   | per mile      |            | 3.00 | 5.5 |      |     |
Per mile, West Coast | per mile      | West Coast | 3.60 | 6.5 |      |     |
Percent steps        | percent steps |            | 2.50 |     | 0.13 | 1 % | Steps: GSA Freight Management Program table
Curlew's table       | step table    |            |      |     |      |     |
"""
MARKUP_FIELDS = "carrier buyer country linehaul_ppm extras_ppm ocean_ppm port_ppm least_minor note"
MARKUPS = """
                         | dealer |    | 9 %  | 5 % | 7 %  | 5 % | 60 | Dealers who come back.
Hummingbird and Teaspoon |        |    | 11 % |     |      |     |    |
                         |        | NZ |      |     | 14 % |     |    | It takes long to settle.
"""
FUEL_STEP_FIELDS = "scheme from_price_e4 percent_ppm rate_e4"
FUEL_STEPS = """
Curlew's table | 2.60 |      | 0.05
Curlew's table | 2.90 |      | 0.10
Curlew's table | 3.15 |      | 0.16
Curlew's table | 3.50 |      | 0.22
Curlew's table | 3.75 |      | 0.31
Curlew's table | 4.20 |      | 0.42
"""

# Ballou, Rahardja & Sakai 2002, Transportation Research Part A 36(9), table 1, without regions that have no country code
# (Europe, England) and with the size of the smallest samples said where it is known.
COUNTRY_FACTORS = {
    "US-AK": "1.79",
    "AR": "1.22", "AU": "1.28", "BY": "1.12", "BR": "1.23", "CA": "1.30", "CN": "1.33", "EG": "2.10", "FR": "1.65",
    "DE": "1.32", "IT": "1.18", "ES": "1.58", "HU": "1.35", "IN": "1.31", "ID": "1.43", "JP": "1.41", "MX": "1.46",
    "NZ": "2.05", "PL": "1.21", "RU": "1.37", "SA": "1.34", "ZA": "1.23", "TH": "1.42", "TR": "1.36", "UA": "1.29",
}  # fmt: skip
SMALL_SAMPLES = ("EG", "FR", "NZ")

# For the last leg abroad. The table's rows of England and of Europe stand for the countries there without a row of their own (and
# for roads between two countries of Europe); elsewhere the median of its 26 countries stands for those without one.
ENGLAND = ("GB", "GG", "IE", "IM", "JE")
EUROPE_FACTOR = "1.46"
EUROPE = (
    "AD AL AT AX BA BE BG CH CY CZ DK EE FI FO GR HR IS LI LT LU LV MC MD ME MK MT NL NO PT RO RS SE SI SK SM VA XK"
)
ACROSS_EUROPE = f"{EUROPE} DE ES FR GI HU IT PL"
MEDIAN_FACTOR = "1.335"
ELSEWHERE = (
    "AE AG AM AS AW BB BH BJ BM BN BS BW BZ CI CL CO CR CW DO DZ EC FJ GD GE GH GM GP GT GU HK HN IL JM JO KE KR KW KY LB LC "
    "LK LS MA MO MP MQ MU MY MZ NA NC NI OM PA PE PF PH PK PR PY QA RE RW SC SG SN SV SZ TC TG TN TT TW TZ UG UY VI VN "
    "AF AO AZ BD BF BI BO BQ BT CD CF CG CK CM CV DJ DM EH ER ET FM GA GF GL GN GQ GW GY HT IQ KG KH KI KM KN KZ LA LR LY "
    "MF MG MH ML MM MN MR MS MV MW NE NG NP NR NU PG PM PS SB SD SL SO SR SS ST SX SY TD TJ TL TM TO TV UZ VC VE VG VU WF "
    "WS YE YT ZM ZW"
)
# Countries that the sea is reached from by roads over a border: the median stands in for those roads too.
ACROSS_ELSEWHERE = (
    "AF AM AZ BF BI BO BT BW CF ET EH GE KG KZ LA LS MF ML MN MW NE NP PS PY RW SS SV SZ TD TJ TM UG UZ ZM ZW"
)

# A lane whose road miles are known: Seattle to Boston.
KNOWN_LANE_FIELDS = "from_place to_place road_mi source"
KNOWN_LANES = """
981 | 021 | 3020.5 | Length of I-90, FHWA Route Log and Finder List, table 1
"""

SIZE_FIELDS = "body also length_mm width_mm height_mm clearance_mm mass_grams"
SIZES = """
roadster              | spider; open two-seater            | 3900 mm | 1530 mm | 1250 mm | 125 mm | 920 kg
convertible           | cabriolet; drophead                | 4400 mm | 1650 mm | 1350 mm | 135 mm | 1150 kg
coupe                 | fastback; hardtop                  | 4300 mm | 1700 mm | 1280 mm | 130 mm | 1150 kg
saloon                | sedan; four-door                   | 4300 mm | 1600 mm | 1450 mm | 150 mm | 1050 kg
mid-size two-door     | two-door sedan                     | 4700 mm | 1870 mm | 1300 mm | 140 mm | 1500 kg
full-size saloon      | full-size sedan; full-size convertible; limousine | 5500 mm | 2000 mm | 1420 mm | 150 mm | 2000 kg
estate                | wagon; shooting brake              | 4500 mm | 1650 mm | 1480 mm | 155 mm | 1200 kg
microcar              | bubble car                         | 3000 mm | 1400 mm | 1350 mm | 150 mm | 600 kg
off-roader            | 4x4; four-wheel drive              | 3700 mm | 1680 mm | 1960 mm | 210 mm | 1350 kg
camper                | camper van; motor caravan          | 4300 mm | 1750 mm | 1950 mm | 180 mm | 1350 kg
van                   | panel van; minibus                 | 4300 mm | 1750 mm | 1950 mm | 180 mm | 1250 kg
pick-up               | pickup truck; utility              | 4900 mm | 1950 mm | 1780 mm | 200 mm | 1650 kg
motorcycle            | motorbike; scooter                 | 2150 mm | 800 mm  | 1150 mm | 130 mm | 200 kg
sidecar outfit        | motorcycle combination             | 2350 mm | 1650 mm | 1200 mm | 130 mm | 350 kg
"""
SIZES_SOURCE = {"source": "Common sizes, within about 5 %", "trust": "memory"}

SETTINGS = {
    "Currency": "USD",
    "Valid from": "2026-01-01",
    "Valid to": "2027-12-31",
    "Markup on linehaul": "14 %",
    "Markup on fuel": "0 %",
    "Markup on extra charges": "10 %",
    "Rounding step": "5",
    "Days valid": "14",
    "Deposit": "20 %",
    "Enclosed from": "75000",
    "Road speed (mph)": "55",
    "Fuel price stale after (days)": "14",
    "Source stale after (days)": "365",
    "Markup, ocean freight": "12 %",
    "Markup, ports, papers and on-carriage": "10 %",
    "Least margin abroad": "0",
    "Overseas term": "DAP",
    "Cover conditions": "A",
    "Farthest export port (mi)": "3500",
    "Currency rate stale after (days)": "14",
    "Balance due": "before pickup",
    "Miles a day": "450",
}
# By the day of pickup from which the other value holds.
LATER_SETTINGS = {"Markup on extra charges": ("2027-07-01", "11 %")}
