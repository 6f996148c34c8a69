"""Quotations of ocean freight in the rate book that comes with the program: forwarders, numbers and prices are made up.

Some are cheaper than the estimate from the distance, some dearer; one ends soon after the day that the book was made for.
"""

FORWARDERS = {"HQ": "Harrow Quay Forwarding", "DM": "Dunmere Freight", "BR": "Braith & Rowe Shipping"}
FREIGHT_FIELDS = "quotation line mode from_port to_port basis amount_e4 currency minimum_e4 valid_from valid_to"
FREIGHT = """
HQ-26-1184 | Tideway | roro | USBAL | DEBRV | per W/M | 74.50 | | 690 | 2026-11-02 | 2027-03-31
HQ-26-1191 | Tideway | roro | Atlantic base ports | Channel and Hamburg range | per W/M | 81 | | 720 | 2026-11-02 | 2027-03-31
DM-4-7702 | Saltmarsh Box | container | USNYC | NLRTM | per 40′HC | 3240 | EUR | | 2026-11-16 | 2027-01-31
BR-26-088 | Halcyon Reach | roro | USSSI | GBSOU | per vehicle | 1985 | | | 2026-11-23 | 2026-12-12
BR-26-091 | | shared container | USLGB | AUMEL | per W/M | 158 | | 1450 | 2026-11-23 | 2027-02-28
"""
# Free days at arrival, days of transit, cut-off, and what the freight holds already, where they are told.
DAYS_FIELDS = "quotation free_days transit_days cutoff_days includes"
DAYS = """
HQ-26-1184 | 7  | 15 | 3 |
DM-4-7702  | 10 | 19 |   | origin terminal
"""
SURCHARGE_FIELDS = "quotation surcharge basis amount_e4 currency percent_ppm stage"
SURCHARGES = """
HQ-26-1184 | Ship's fuel surcharge (BAF)        |               |       |     | 11 %  |
HQ-26-1184 | Security                           | per vehicle   | 14    |     |       |
HQ-26-1184 | Bill of lading                     | per shipment  | 55    |     |       |
HQ-26-1191 | Ship's fuel surcharge (BAF)        |               |       |     | 13 %  |
HQ-26-1191 | Bill of lading                     | per shipment  | 55    |     |       |
DM-4-7702  | Ship's fuel surcharge (BAF)        | per container | 365   | EUR |       |
DM-4-7702  | Exchange rate surcharge (CAF)      |               |       |     | 3.5 % |
DM-4-7702  | Terminal handling (THC), Rotterdam | per container | 255   | EUR |       | destination terminal
DM-4-7702  | Bill of lading                     | per shipment  | 60    | EUR |       |
BR-26-088  | Bill of lading                     | per shipment  | 70    |     |       |
BR-26-091  | Ship's fuel surcharge (BAF)        | per W/M       | 19.50 |     |       |
"""
# Words of the manager for ports that are quoted together.
GROUPS = {
    "Atlantic base ports": "USNYC USBAL USCHS USSAV USJAX",
    "Channel and Hamburg range": "DEBRV DEHAM NLRTM BEANR BEZEE FRLEH",
}
SOURCE = {"source": "mail of the forwarder", "trust": "invented"}

CHARGE_FIELDS = "port label mode per amount_e4 currency from_day valid_from valid_to"
PORT_CHARGES = """
DEBRV | Terminal gate and handling | roro      | vehicle       | 68  | EUR |   | 2026-01-01 | 2026-12-31
DEBRV | Quay dues                  | roro      | revenue ton   | 3.4 | EUR |   | 2026-01-01 | 2026-12-31
DEBRV | Terminal gate and handling | roro      | vehicle       | 71  | EUR |   | 2027-01-01 |
DEBRV | Quay dues                  | roro      | revenue ton   | 3.5 | EUR |   | 2027-01-01 |
USBAL | Terminal gate fee          | roro      | vehicle       | 62  |     |   | 2026-01-01 | 2026-12-31
USBAL | Wharfage                   | roro      | revenue ton   | 3.1 |     |   | 2026-01-01 | 2026-12-31
USBAL | Terminal gate fee          | roro      | vehicle       | 66  |     |   | 2027-01-01 |
USBAL | Wharfage                   | roro      | revenue ton   | 3.2 |     |   | 2027-01-01 |
NLRTM | Terminal handling (THC)    | container | container     | 248 | EUR |   | 2026-01-01 | 2027-06-30
NLRTM | Port security (ISPS)       | container | container     | 17  | EUR |   | 2026-01-01 | 2027-06-30
BRSSZ | Storage                    |           | vehicle a day | 14  |     | 1 | 2026-01-01 |
BRSSZ | Storage                    |           | vehicle a day | 36  |     | 3 | 2026-01-01 |
"""
CHARGE_SOURCE = {"source": "the terminal's tariff", "trust": "invented"}
