"""Ocean services of the rate book that comes with the program: lines, prices, days and speeds are made up.

Speeds are of the kind of ship: the median vehicle carrier went 14.3 knots, the median container ship 13.8 (EU MRV reports
2018–2022, computed).
"""

# The coasts that ships leave from, by the letter that the lanes below name.
COASTS = {
    "N": "US North Atlantic",
    "S": "US South Atlantic",
    "G": "US Gulf",
    "C": "US California",
    "P": "US Pacific Northwest",
}

# What each line charges: base and rate a nautical mile for each unit, its surcharges, rhythm, speed, days in ports.
LINE_FIELDS = (
    "line carrier mode basis base_e4 per_nmi_e4 minimum_minor bunker_ppm currency_ppm bill_minor "
    "takes_inoperable inoperable_minor highest_mm knots"
)
LINES = """
tideway   | Tideway          | roro             | per W/M     | 42   | 0.0112 | 620 | 14 % | 4 % | 65 | yes | 390 |    | 14.3
halcyon   | Halcyon Reach    | roro             | per W/M     | 54   | 0.0124 | 690 | 12 % | 3 % | 70 | no  |     |    | 15.6
meridian  | Meridian Swell   | roro             | per W/M     | 47   | 0.0118 | 650 | 15 % | 3 % | 65 | yes | 450 |    | 14.0
lanterns  | Lanternfish      | roro             | per m³      | 49   | 0.0121 | 640 | 13 % | 5 % | 60 | yes | 480 |    | 13.6
islands   | Coral Wake       | roro             | per W/M     | 52   | 0.0190 | 560 | 14 % |     | 55 | yes | 320 |    | 13.0
saltmarsh | Saltmarsh Box    | container        | per 20′     | 980  | 0.205  |     | 15 % | 4 % | 75 | yes |     |    | 13.8
saltmarsh | Saltmarsh Box    | container        | per 40′     | 1420 | 0.312  |     | 15 % | 4 % | 75 | yes |     |    | 13.8
saltmarsh | Saltmarsh Box    | container        | per 40′HC   | 1460 | 0.318  |     | 15 % | 4 % | 75 | yes |     |    | 13.8
longfetch | Long Fetch       | container        | per 20′     | 1120 | 0.228  |     | 12 % | 3 % | 70 | yes |     |    | 16.0
longfetch | Long Fetch       | container        | per 40′HC   | 1690 | 0.345  |     | 12 % | 3 % | 70 | yes |     |    | 16.0
cabotage  | Aurora Wake      | container        | per 20′     | 1450 | 0.52   |     | 22 % |     | 45 | yes |     |    | 14.5
cabotage  | Aurora Wake      | container        | per 40′HC   | 2350 | 0.83   |     | 22 % |     | 45 | yes |     |    | 14.5
coastwise | Aurora Wake      | roro             | per vehicle | 780  | 0.165  |     | 22 % |     | 40 | yes | 260 | 96 | 15.2
coasthigh | Murre and Anchor | roro             | per m³      | 74   | 0.0240 | 1650 | 22 % |     | 45 | yes | 340 | 150 | 11.5
sandpiper | Sandpiper Bay    | shared container | per W/M     | 78   | 0.0158 | 790 | 12 % | 4 % | 60 | yes | 180 | 84 | 13.8
daughters | Tern & Daughters | shared container | per vehicle | 980  | 0.185  |     | 12 % | 4 % | 60 | yes | 150 | 80 | 13.8
"""

# Lines whose names the buyer may see, and what security costs with all of them.
NAMED = ("Meridian Swell", "Long Fetch", "Coral Wake", "Aurora Wake", "Tern & Daughters")
SECURITY = "15"

# Which line sails from which coasts to which ports: days between sailings, days in ports on the way, canals it does not use,
# and how much dearer or cheaper than the line's usual rate (percent).
LANE_FIELDS = "line to_region coasts sails_every_days port_days avoids dearer"
LANES = """
tideway   | North Europe              | NSG | 7  | 4  |      | 0
halcyon   | North Europe              | NS  | 10 | 2  |      | 0
meridian  | North Europe              | CP  | 14 | 6  |      | 0
saltmarsh | North Europe              | NSG | 7  | 4  |      | 0
longfetch | North Europe              | SCP | 7  | 3  |      | 0
sandpiper | North Europe              | NSG | 14 | 6  |      | 0
daughters | North Europe              | SCP | 14 | 8  |      | 0
tideway   | Great Britain and Ireland | NSG | 10 | 3  |      | 3
halcyon   | Great Britain and Ireland | NS  | 14 | 2  |      | 2
meridian  | Great Britain and Ireland | CP  | 21 | 5  |      | 4
saltmarsh | Great Britain and Ireland | NSG | 7  | 4  |      | 5
longfetch | Great Britain and Ireland | CP  | 10 | 4  |      | 5
sandpiper | Great Britain and Ireland | NS  | 14 | 6  |      | 4
daughters | Great Britain and Ireland | C   | 21 | 8  |      | 4
halcyon   | Scandinavia and Baltic    | NS  | 14 | 5  |      | 8
lanterns  | Scandinavia and Baltic    | G   | 30 | 9  |      | 6
saltmarsh | Scandinavia and Baltic    | NSC | 10 | 8  |      | 8
sandpiper | Scandinavia and Baltic    | NS  | 21 | 9  |      | 10
tideway   | Iceland                   | N   | 30 | 3  |      | 25
saltmarsh | Iceland                   | N   | 21 | 7  |      | 25
lanterns  | Iberian Atlantic          | NS  | 21 | 4  |      | 0
saltmarsh | Iberian Atlantic          | NS  | 10 | 5  |      | 4
saltmarsh | Atlantic Islands          | N   | 21 | 9  |      | 18
halcyon   | West Mediterranean        | NSG | 14 | 5  |      | 4
meridian  | West Mediterranean        | C   | 28 | 8  |      | 6
saltmarsh | West Mediterranean        | NSG | 7  | 5  |      | 4
longfetch | West Mediterranean        | C   | 14 | 6  |      | 0
sandpiper | West Mediterranean        | NS  | 21 | 8  |      | 5
lanterns  | North Africa              | NS  | 28 | 6  |      | 8
saltmarsh | North Africa              | N   | 14 | 8  |      | 10
lanterns  | Adriatic                  | N   | 30 | 9  |      | 8
saltmarsh | Adriatic                  | NS  | 14 | 9  |      | 8
halcyon   | East Mediterranean        | NS  | 21 | 7  |      | 6
saltmarsh | East Mediterranean        | NSG | 10 | 8  |      | 6
sandpiper | East Mediterranean        | N   | 28 | 10 |      | 8
lanterns  | Black Sea                 | N   | 30 | 10 |      | 12
saltmarsh | Black Sea                 | NS  | 14 | 11 |      | 12
lanterns  | West Africa               | NSG | 21 | 7  |      | 0
saltmarsh | West Africa               | NSG | 14 | 9  |      | 10
lanterns  | Southern Africa           | NSG | 28 | 5  |      | 0
saltmarsh | Southern Africa           | NS  | 14 | 7  |      | 2
sandpiper | Southern Africa           | N   | 30 | 9  |      | 5
lanterns  | East Africa, Indian Ocean | NS | 30 | 9 | suez; bab-el-mandeb | 8
saltmarsh | East Africa, Indian Ocean | NS | 21 | 11 | suez; bab-el-mandeb | 8
halcyon   | Red Sea                   | NS  | 21 | 5  | bab-el-mandeb | 8
saltmarsh | Red Sea                   | NS  | 14 | 7  | bab-el-mandeb | 10
halcyon   | Arabian Gulf              | NSG | 21 | 6  | suez; bab-el-mandeb | 0
tideway   | Arabian Gulf              | NS  | 28 | 7  |      | 12
saltmarsh | Arabian Gulf              | NSG | 14 | 8  | suez; bab-el-mandeb | 0
longfetch | Arabian Gulf              | SC  | 14 | 7  |      | 6
sandpiper | Arabian Gulf              | NS  | 28 | 10 | suez; bab-el-mandeb | 0
saltmarsh | South Asia                | NSC | 14 | 9  |      | 4
lanterns  | South Asia                | NS  | 30 | 9  |      | 6
meridian  | Southeast Asia            | CP  | 28 | 7  |      | 0
saltmarsh | Southeast Asia            | CP  | 7  | 6  |      | -8
longfetch | Southeast Asia            | NS  | 14 | 7  |      | 0
meridian  | Japan and Korea           | CP  | 14 | 4  |      | -4
halcyon   | Japan and Korea           | NSG | 28 | 6  |      | 0
saltmarsh | Japan and Korea           | CP  | 7  | 4  |      | -10
longfetch | Japan and Korea           | SGC | 10 | 5  |      | -5
sandpiper | Japan and Korea           | CP  | 21 | 6  |      | -4
meridian  | China and Hong Kong       | CP  | 21 | 5  |      | -2
saltmarsh | China and Hong Kong       | CP  | 7  | 5  |      | -15
longfetch | China and Hong Kong       | NS  | 14 | 7  |      | -8
meridian  | Australia                 | CP  | 21 | 5  |      | 4
halcyon   | Australia                 | NSG | 28 | 6  |      | 4
saltmarsh | Australia                 | CP  | 10 | 6  |      | 16
longfetch | Australia                 | SG  | 14 | 7  |      | 8
daughters | Australia                 | CP  | 28 | 8  |      | 6
meridian  | New Zealand               | CP  | 21 | 5  |      | 6
halcyon   | New Zealand               | NS  | 30 | 7  |      | 6
saltmarsh | New Zealand               | CP  | 10 | 7  |      | 18
longfetch | New Zealand               | S   | 21 | 8  |      | 10
daughters | New Zealand               | CP  | 28 | 9  |      | 8
meridian  | Pacific Islands           | C   | 30 | 6  |      | 14
saltmarsh | Pacific Islands           | C   | 21 | 9  |      | 28
islands   | Central America, Atlantic | SG | 14 | 3 | | 0
saltmarsh | Central America, Atlantic | SG | 7  | 3 | | 0
islands   | Central America, Pacific  | C  | 21 | 3 | | 0
saltmarsh | Central America, Pacific  | C  | 10 | 3 | | 0
islands   | Caribbean                 | SG  | 10 | 3  |      | 6
saltmarsh | Caribbean                 | SG  | 7  | 4  |      | 6
daughters | Caribbean                 | S   | 14 | 5  |      | 0
saltmarsh | Bermuda                   | S   | 14 | 3  |      | 30
lanterns  | South America, East       | NSG | 21 | 6  |      | 0
saltmarsh | South America, East       | NSG | 10 | 7  |      | 4
islands   | South America, West       | SG  | 21 | 5  |      | -18
saltmarsh | South America, West       | SC  | 10 | 5  |      | 4
saltmarsh | Canada, Atlantic          | S   | 14 | 3  |      | 10
lanterns  | Canada, Atlantic          | S   | 28 | 3  |      | 10
saltmarsh | Canada, Pacific           | C   | 14 | 3  |      | 10
meridian  | Canada, Pacific           | C   | 28 | 3  |      | 10
coastwise | Hawaii                    | C   | 7  | 2  |      | 0
coastwise | Hawaii                    | P   | 14 | 2  |      | 0
cabotage  | Hawaii                    | CP  | 7  | 2  |      | 0
coastwise | Alaska                    | P   | 7  | 1  |      | 12
cabotage  | Alaska                    | P   | 7  | 2  |      | 10
coastwise | Puerto Rico, Virgin Islands | S | 7 | 2 |      | 0
cabotage  | Puerto Rico, Virgin Islands | SN | 7 | 2 |     | 0
coastwise | Guam and Marianas         | C   | 28 | 4  |      | -20
cabotage  | Guam and Marianas         | CP  | 14 | 4  |      | -25
coasthigh | Hawaii                    | P   | 14 | 3  |      | 0
coasthigh | Alaska                    | P   | 14 | 2  |      | 5
"""

# Days of departure that a line has published ahead; as long as they last they count in place of the rhythm.
LISTED = {
    "Tideway RoRo, South Atlantic – North Europe": "2026-12-03; 2026-12-11; 2026-12-17; 2026-12-29; 2027-01-05",
    "Meridian Swell RoRo, Pacific Northwest – Japan and Korea": "2026-12-06; 2026-12-19; 2027-01-04",
}
FIRST_SAILING = "2026-11-30"
