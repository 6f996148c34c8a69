"""The invented carriers of the rate book that comes with the program: their services, bands and extra charges.

Names and prices are made up; no existing carrier is meant. Each line reads as on its sheet, cells divided by |.
"""

from shipcalc.ratebook.making.invented_lanes import HOME_REGIONS

CARRIER_FIELDS = (
    "carrier trailer cover_minor base_minor minimum_minor bands fuel_scheme "
    "pickup_from_days pickup_to_days express_pickup_days spare_days miles_a_day currency"
)
CARRIERS = """
Three Puffins Haulage   | open     | 150000  | 85  | 380  | whole trip | Per mile           | 2 | 7 | 2 | 3 | |
Wren and Thistle        | open     | 75000   | 60  | 325  | graduated  | Percent steps      | 3 | 9 |   | 4 | |
Moonlit Plover Lines    | open     | 250000  | 95  | 425  | whole trip | Percent steps      | 1 | 5 | 2 | 2 | |
Moonlit Plover Lines    | enclosed | 400000  | 140 | 725  | graduated  | Percent steps      | 2 | 6 | 2 | 2 | 500 |
Kestrel and Umbrella    | open     | 125000  | 50  | 275  | graduated  | Per mile, West Coast | 1 | 4 | 1 | 1 | |
Marsh Hen Wagonry       | open     | 110000  | 55  | 290  | whole trip | Per mile           | 1 | 4 | 1 | 1 | |
Magpie and Compass      | open     | 200000  | 110 | 450  | graduated  | Per mile           | 1 | 6 | 2 | 3 | |
Fogbell Osprey          | open     | 130000  | 70  | 340  | graduated  | Per mile           | 2 | 6 |   | 2 | |
Fogbell Osprey          | enclosed | 300000  | 120 | 640  | graduated  | Per mile, enclosed | 3 | 8 |   | 2 | |
Lantern Gull Carriage   | enclosed | 600000  | 160 | 795  | whole trip | Per mile, enclosed | 2 | 7 | 2 | 3 | 550 |
Velvet Albatross        | enclosed | 1500000 | 350 | 1450 | graduated  | Per mile, enclosed | 1 | 3 | 1 | 1 | 600 |
Hummingbird and Teaspoon | enclosed | 60000  | 75  | 295  | graduated  | Percent steps      | 2 | 8 |   | 3 | |
Two Loons Freight       | open     | 160000  | 180 | 745  | graduated  | Percent steps      | 2 | 8 |   | 4 | | CAD
Two Loons Freight       | enclosed | 450000  | 190 | 890  | graduated  | Per mile, enclosed | 3 | 9 |   | 4 | |
Bittern and Anvil       | open     | 175000  | 320 | 1250 | graduated  | Percent steps      | 4 | 12 |  | 4 | |
Hobnail Curlew          | open     | 250000  | 340 | 1500 | graduated  | Curlew's table     | 5 | 14 |  | 5 | |
Corncrake Drivers       | driven   | 150000  | 390 | 690  | graduated  |                    | 3 | 9 |   | 2 | 500 |
Agave and Wheelbarrow   | open     | 120000  | 140 | 560  | graduated  | Percent steps      | 3 | 10 |  | 5 | |
"""

# A cheaper lane and dearer ones, one that ends soon, ways back that run empty, and a region that is costly to reach.
LANE_FIELDS = "carrier trailer from_end to_end flat_minor rate_e4 minimum_minor percent_ppm fuel_included both_ways"
LANES = """
Three Puffins Haulage | open     | yard Savannah | 786-787     | 965  |      |     |       | yes | no
Wren and Thistle      | open     |               | Aspen, CO   | 2950 |      |     |       | no  | no
Moonlit Plover Lines  |          | USBAL         | Northeast   |      | 1.95 | 390 |       | no  | no
Lantern Gull Carriage | enclosed | WA            | 850-853     | 2240 |      |     |       | yes | yes
Magpie and Compass    | open     | Florida       | Northeast   |      |      |     | -12 % | no  | no
Magpie and Compass    | open     | Northeast     | Florida     |      |      |     | 6 %   | no  | no
Kestrel and Umbrella  | open     |               | Great Basin |      |      | 525 |       | no  | yes
Moonlit Plover Lines  | open     | yard Bellingham | Denver terminal | 1040 |    |     |       | yes | no
Moonlit Plover Lines  | open     | Denver terminal | Northeast |      | 0.61 | 640 |       | no  | no
"""
LANE_TERM_FIELDS = "valid_from valid_to reference note"
LANE_TERMS = """
2026-11-01 | 2027-03-31 | 3P-1107 |
2026-11-01 | 2027-04-30 | WT-88   | The last miles go by a smaller truck.
           |            |         |
2026-11-15 | 2026-12-31 | LG-4410 | A truck that returns from a show.
           |            |         |
           |            |         |
           |            |         |
2026-11-01 | 2027-06-30 | MP-2203 | To the terminal, without a stop at a door.
2026-11-01 | 2027-06-30 | MP-2204 |
"""

LIMIT_FIELDS = (
    "carrier trailer longest_mm widest_mm highest_mm higher_than_mm lowest_clearance_mm heaviest_grams "
    "cover_can_rise takes_inoperable winch lift_gate"
)
LIMITS = """
Three Puffins Haulage   | open     | 240 | 84 | 84 |     |     | 7500  | no  | yes | yes | no
Wren and Thistle        | open     | 222 | 80 | 78 |     | 4.5 | 6000  | no  | no  | no  | no
Moonlit Plover Lines    | open     | 252 | 86 | 88 |     |     | 9000  | no  | yes | no  | no
Moonlit Plover Lines    | enclosed | 228 | 82 | 78 |     | 3.5 | 7000  | no  | yes | yes | no
Kestrel and Umbrella    | open     | 230 | 82 | 82 |     |     | 7000  | no  | yes | no  | no
Marsh Hen Wagonry       | open     | 230 | 82 | 80 |     |     | 7000  | no  | no  | no  | no
Magpie and Compass      | open     | 264 | 88 | 90 |     |     | 10000 | no  | yes | yes | no
Fogbell Osprey          | open     | 228 | 82 | 80 |     |     | 6500  | no  | yes | no  | no
Fogbell Osprey          | enclosed | 220 | 80 | 76 |     | 4   | 6000  | no  | no  | no  | no
Lantern Gull Carriage   | enclosed | 234 | 84 | 80 |     |     | 7500  | yes | yes | no  | yes
Velvet Albatross        | enclosed | 246 | 86 | 84 |     |     | 9000  | yes | yes | yes | yes
Hummingbird and Teaspoon | enclosed | 122 | 58 | 64 |     |    | 1500  | no  | yes | yes | yes
Two Loons Freight       | open     | 246 | 86 | 86 |     |     | 9000  | no  | yes | yes | no
Two Loons Freight       | enclosed | 232 | 84 | 80 |     |     | 7500  | yes | yes | yes | yes
Bittern and Anvil       | open     | 420 | 102 | 118 |     |     | 20000 | yes | yes | yes | no
Hobnail Curlew          | open     | 540 | 102 | 138 |     |     | 40000 | yes | yes | yes | no
Corncrake Drivers       | driven   | 540 | 102 | 156 | 90  |     | 26000 | no  | no  | no  | no
Agave and Wheelbarrow   | open     | 242 | 85 | 85 |     |     | 8000  | no  | yes | yes | no
"""

LOADED_FIELDS = "carrier trailer vehicles percent_ppm less_minor"
LOADED = """
                      |          | 2 | 95 % |
                      |          | 4 | 91 % |
Magpie and Compass    | open     | 2 | 94 % |
Magpie and Compass    | open     | 3 | 89 % |
Lantern Gull Carriage | enclosed | 2 |      | 120
"""

CLASS_FIELDS = "carrier trailer name within_days amount_minor percent_ppm if_missed"
CLASSES = """
Magpie and Compass | open | Compass Day | 2 | 165 | | the surcharge is paid back
"""

OCCASION_FIELDS = "carrier trailer name amount_minor per free when"
OCCASIONS = """
                 |  | Waiting          | 75  | hour | 2 | where nobody can hand over or receive the vehicle
                 |  | Trip in vain     | 190 | time |   | where the vehicle cannot be loaded or delivered as agreed
Velvet Albatross |  | Waiting          | 110 | hour | 3 | where nobody can hand over or receive the vehicle
Velvet Albatross |  | Layover          | 420 | day  |   | where the driver must stay overnight for it
Two Loons Freight |  | Storage         | 35  | day  | 2 | where the vehicle must wait at the carrier's yard
"""

REGION_FIELDS = "carrier trailer from_areas to_areas private note"
REGIONS = """
Three Puffins Haulage   | open     |  |  | yes | The whole country.
Wren and Thistle        | open     |  |  | yes | The whole country, cheap, with little cover.
Moonlit Plover Lines    | open     |  |  | no  | The whole country.
Moonlit Plover Lines    | enclosed |  |  | no  | The whole country, with a winch.
Kestrel and Umbrella    | open     | Northwest; West; Mountain | Northwest; West; Mountain | yes | The west only.
Marsh Hen Wagonry       | open     | Southeast; Florida; South | Southeast; Florida; South | yes | The southeast only.
Magpie and Compass      | open     |  |  | yes | Long and heavy vehicles.
Fogbell Osprey          | open     | Northeast; Southeast; Florida | Northeast; Southeast; Florida; Great Lakes | yes | The east.
Fogbell Osprey          | enclosed | Northeast; Southeast; Florida | Northeast; Southeast; Florida; Great Lakes | yes | The east.
Lantern Gull Carriage   | enclosed |  |  | yes | Lift gate.
Velvet Albatross        | enclosed |  |  | no  | One vehicle a truck, two drivers.
Hummingbird and Teaspoon | enclosed |  |  | yes | Motorcycles and the smallest cars only.
Two Loons Freight       | open     | {US} | Western Canada; Eastern Canada | yes | Over the border to Canada.
Two Loons Freight       | enclosed | {US} | Western Canada; Eastern Canada | yes | Over the border to Canada.
Bittern and Anvil       | open     |  |  | yes | Step-decks: high, long and heavy vehicles.
Hobnail Curlew          | open     |  |  | yes | Lowbeds: what a step-deck cannot take under the bridges.
Corncrake Drivers       | driven   |  |  | yes | Hired drivers for motor homes; insurance of their own.
Agave and Wheelbarrow   | open     | {US} | Mexico | yes | Over the border to Mexico.
""".replace("{US}", "; ".join(HOME_REGIONS))

BAND_FIELDS = "carrier trailer from_mi to_mi rate_e4"
BANDS = """
Three Puffins Haulage   | open     | 0    | 250  | 1.65
Three Puffins Haulage   | open     | 250  | 500  | 1.22
Three Puffins Haulage   | open     | 500  | 1000 | 0.94
Three Puffins Haulage   | open     | 1000 | 1800 | 0.76
Three Puffins Haulage   | open     | 1800 |      | 0.66
Wren and Thistle        | open     | 0    | 300  | 1.30
Wren and Thistle        | open     | 300  | 900  | 0.72
Wren and Thistle        | open     | 900  | 2000 | 0.58
Wren and Thistle        | open     | 2000 |      | 0.50
Moonlit Plover Lines    | open     | 0    | 400  | 1.55
Moonlit Plover Lines    | open     | 400  | 1200 | 1.02
Moonlit Plover Lines    | open     | 1200 |      | 0.74
Moonlit Plover Lines    | enclosed | 0    | 300  | 2.60
Moonlit Plover Lines    | enclosed | 300  | 1000 | 1.55
Moonlit Plover Lines    | enclosed | 1000 | 2200 | 1.10
Moonlit Plover Lines    | enclosed | 2200 |      | 0.92
Kestrel and Umbrella    | open     | 0    | 200  | 1.45
Kestrel and Umbrella    | open     | 200  | 600  | 0.95
Kestrel and Umbrella    | open     | 600  |      | 0.72
Marsh Hen Wagonry       | open     | 0    | 150  | 1.70
Marsh Hen Wagonry       | open     | 150  | 400  | 1.15
Marsh Hen Wagonry       | open     | 400  | 1600 | 0.88
Magpie and Compass      | open     | 0    | 350  | 1.70
Magpie and Compass      | open     | 350  | 1100 | 0.92
Magpie and Compass      | open     | 1100 |      | 0.64
Fogbell Osprey          | open     | 0    | 200  | 1.60
Fogbell Osprey          | open     | 200  | 800  | 0.86
Fogbell Osprey          | open     | 800  | 2000 | 0.62
Fogbell Osprey          | enclosed | 0    | 200  | 2.45
Fogbell Osprey          | enclosed | 200  | 800  | 1.42
Fogbell Osprey          | enclosed | 800  | 2000 | 1.08
Lantern Gull Carriage   | enclosed | 0    | 350  | 2.45
Lantern Gull Carriage   | enclosed | 350  | 900  | 1.80
Lantern Gull Carriage   | enclosed | 900  | 1600 | 1.38
Lantern Gull Carriage   | enclosed | 1600 |      | 1.08
Velvet Albatross        | enclosed | 0    | 500  | 3.40
Velvet Albatross        | enclosed | 500  | 1500 | 2.05
Velvet Albatross        | enclosed | 1500 |      | 1.55
Two Loons Freight       | open     | 0    | 400  | 2.35
Two Loons Freight       | open     | 400  | 1200 | 1.45
Two Loons Freight       | open     | 1200 |      | 1.19
Two Loons Freight       | enclosed | 0    | 400  | 2.70
Two Loons Freight       | enclosed | 400  | 1200 | 1.72
Two Loons Freight       | enclosed | 1200 |      | 1.36
Bittern and Anvil       | open     | 0    | 500  | 3.10
Bittern and Anvil       | open     | 500  | 1500 | 2.25
Bittern and Anvil       | open     | 1500 |      | 1.90
Hobnail Curlew          | open     | 0    | 500  | 3.90
Hobnail Curlew          | open     | 500  | 1500 | 3.05
Hobnail Curlew          | open     | 1500 |      | 2.60
Corncrake Drivers       | driven   | 0    | 500  | 1.65
Corncrake Drivers       | driven   | 500  |      | 1.20
Hummingbird and Teaspoon | enclosed | 0    | 500  | 0.95
Hummingbird and Teaspoon | enclosed | 500  | 1500 | 0.60
Hummingbird and Teaspoon | enclosed | 1500 |      | 0.42
Agave and Wheelbarrow   | open     | 0    | 400  | 1.85
Agave and Wheelbarrow   | open     | 400  | 1200 | 1.20
Agave and Wheelbarrow   | open     | 1200 |      | 0.98
"""

# Two lines for each extra charge: its code and label; its conditions and amount as field: value.
EXTRA_CHARGES = """
inoperable-open | Loading a vehicle that does not run
    trailer: open, runs: no, rolls: yes, charge: flat, amount_minor: 150
inoperable-enclosed | Loading a vehicle that does not run
    trailer: enclosed, runs: no, rolls: yes, charge: flat, amount_minor: 195
skates | Winching over skates a vehicle that does not roll
    rolls: no, charge: flat, amount_minor: 335
no-steering | Wheel dollies for a vehicle that does not steer
    steers: no, charge: flat, amount_minor: 95
no-brakes | Holding line for a vehicle without brakes
    brakes: no, charge: flat, amount_minor: 60
altered | Measuring and fitting an altered vehicle
    modified: yes, charge: flat, amount_minor: 75
long-open | Over 18 feet long
    trailer: open, length_over_mm: 216, length_up_to_mm: 228, charge: flat, amount_minor: 95
very-long-open | Over 19 feet long
    trailer: open, length_over_mm: 228, charge: flat, amount_minor: 240
long-enclosed | Over 17 feet long
    trailer: enclosed, length_over_mm: 204, charge: flat, amount_minor: 225
wide | Over 80 inches wide
    width_over_mm: 80, charge: flat, amount_minor: 120
high | Over 72 inches high
    height_over_mm: 72, height_up_to_mm: 78, charge: flat, amount_minor: 85
very-high | Over 78 inches high
    height_over_mm: 78, charge: flat, amount_minor: 190
heavy | Over 5,000 pounds
    mass_over_grams: 5000, mass_up_to_grams: 6500, charge: flat, amount_minor: 110
very-heavy | Over 6,500 pounds
    mass_over_grams: 6500, charge: per mile, rate_e4: 0.14
chock | Chock and straps for a motorcycle
    mass_up_to_grams: 1000, length_up_to_mm: 110, charge: flat, amount_minor: 45
low-open | Long ramps for a low car
    trailer: open, clearance_up_to_mm: 4.5, charge: flat, amount_minor: 85
low-enclosed | Careful loading of a low car
    trailer: enclosed, clearance_up_to_mm: 4, charge: flat, amount_minor: 60
lift-gate | Lift gate loading, as asked for
    lift_gate: yes, charge: flat, amount_minor: 125
narrow-open | Meeting the truck on a narrow street
    trailer: open, limited_access: yes, charge: flat, amount_minor: 95
narrow-enclosed | Smaller vehicle for the last miles
    trailer: enclosed, limited_access: yes, charge: flat, amount_minor: 145
express | Express pickup
    express: yes, charge: percent, percent_ppm: 12 %, of: linehaul
soft-straps | Soft straps over the tires
    trailer: enclosed, value_over_minor: 60000, charge: flat, amount_minor: 45
valuable | Handling of a valuable vehicle
    trailer: enclosed, value_over_minor: 150000, charge: percent, percent_ppm: 0.2 %, of: value
more-cover | Cargo cover for the rest of the value, excess 1,000 a claim
    charge: percent, percent_ppm: 0.9 %, of: value above cover
guarded-stop | Overnight stops behind a locked gate
    trailer: enclosed, value_over_minor: 90000, miles_over: 600, charge: flat, amount_minor: 110
driven-fuel | Fuel that the vehicle itself burns, estimated
    trailer: driven, charge: per mile, rate_e4: 0.45
driven-papers | Roadworthiness inspection and temporary plate
    trailer: driven, charge: flat, amount_minor: 245
driver-home | The driver's way home, long trips
    trailer: driven, miles_over: 400, charge: flat, amount_minor: 380
eastern-tolls | Tolls on the eastern turnpikes
    carrier: Fogbell Osprey, charge: percent, percent_ppm: 3 %, of: linehaul and fuel
border | Waiting and manifest at the Canadian border
    carrier: Two Loons Freight, charge: flat, amount_minor: 185
pass-detour | Winter detour below the passes
    carrier: Kestrel and Umbrella, charge: flat, amount_minor: 40, valid_from: 2026-11-01, valid_to: 2027-04-30
border-mexico | Change of trucks and manifest at the Mexican border
    carrier: Agave and Wheelbarrow, charge: flat, amount_minor: 290
"""
