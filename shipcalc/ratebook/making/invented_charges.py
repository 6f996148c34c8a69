"""Containers, charges by stage, the last leg, marine cover and rates of exchange of the rate book that comes with the program.

The least sizes of containers are those of ISO 1496-1, and what a cover pays is told after the Institute Cargo Clauses 1.1.09
(read at second hand); every price, every number of days and every rate of exchange is made up.
"""

CONTAINER_FIELDS = (
    "container inside_length_mm inside_width_mm inside_height_mm door_width_mm door_height_mm payload_kg end_clearance_mm "
    "side_clearance_mm top_clearance_mm drayage_minor loading_minor materials_minor unloading_minor"
)
CONTAINERS = """
20′   | 5867  | 2330 | 2350 | 2286 | 2261 | 17200 | 100 | 50 | 50 | 360 | 395 | 85  | 240
40′   | 11998 | 2330 | 2350 | 2286 | 2261 | 19000 | 100 | 50 | 50 | 410 | 395 | 130 | 240
40′HC | 11998 | 2330 | 2655 | 2286 | 2566 | 19000 | 100 | 50 | 50 | 420 | 410 | 140 | 250
"""
CONTAINER_SOURCE = {
    "source": "ISO 1496-1, least inside and door sizes",
    "trust": "second hand",
    "office_note": "Sizes: second hand; payload, what roads allow: from memory; clearances and prices invented",
}

# A charge a pair of lines: code and label, then its cells.
# How a vehicle is loaded: its code, mode and kind; the lines that do it; what must work on it; then words and sums.
LOADING_FIELDS = "code mode loading lines runs rolls steers brakes how"
LOADING = """
driven-aboard | roro | driven | | yes | yes | yes | yes | driven aboard
in-tow | roro | towed | | | yes | yes | yes | in tow
on-platform | roro | static | Tideway; Meridian Swell; Lanternfish; Murre and Anchor | | | | | on a wheeled platform
driven-in | container | container | | yes | yes | yes | yes | driven in
winched-in | container | container | | | yes | | | winched in
skates-in | container | container | | | | | | lifted in on skates
driven-in-shared | shared container | container | | yes | yes | yes | yes | driven in
winched-in-shared | shared container | container | | | yes | | | winched in
"""
LOADING_PRICE_FIELDS = "code equipment equipment_minor label loading_minor unloading_label unloading_minor"
LOADING_PRICES = """
driven-aboard | | | Driven aboard and lashed | 65 | | 0
in-tow | Terminal tractor and tow bar | | Towed aboard and lashed | 205 | Towed off the ship | 140
on-platform | Wheeled platform, hired for the way | 480 | Lifted onto it and lashed | 390 | Lifted off the platform | 310
driven-in | | | Driven into the container | | | 0
winched-in | Winch, somebody at the wheel | | Winched into the container | 160 | Winched out of it | 150
skates-in | Forklift, skates, winch | | Over skates into the container | 385 | Over skates out of it | 360
driven-in-shared | | | Driven into the container | | | 0
winched-in-shared | Winch, somebody at the wheel | | Winched into the container | 160 | Winched out of it | 150
"""
LOADING_SOURCE = {"trust": "practice", "office_note": "Conditions: practice of ships and packers; prices invented"}

INVENTED = {"trust": "invented"}
SEASON = {"season_from": "2026-09-01", "season_to": "2027-04-30", "takes_days": "4"}
# Season by the day of shipping on board, new and used vehicles alike.
SEASON_SOURCE = {
    "source": (
        "Australian department of agriculture, seasonal measures for brown marmorated stink bug; New Zealand's import health "
        "standard Vehicles, Machinery and Parts, schedule 3"
    ),
    "trust": "partly read",
    "office_note": "The season and its certificate: copies of 2019 to 2025 (read); price and days invented",
}
STINK_BUG = (
    "From 1 September to 30 April a vehicle shipped from the United States is let in only with a certificate of treatment "
    "against stink bugs (heat or gas); without it the vehicle is turned away. The treatment is in the price; it may harm old "
    "paint, wood and leather: ask before you choose."
)

STAGE_CHARGES = """
export-photographs | Photographs and condition record for export
stage: export packing, per: vehicle, amount_minor: 60
rack-hire | Wheel cradle, hired for the way
stage: export packing, mode: shared container, per: vehicle, amount_minor: 75
export-loading | Loading at the yard onto the truck
stage: loading at origin, per: vehicle, amount_minor: 45
shared-packing | Packed and lashed into the shared container
stage: loading at origin, mode: shared container, per: vehicle, amount_minor: 460
shared-drayage | Its share of drayage to the terminal
stage: pre-carriage, mode: shared container, per: vehicle, amount_minor: 145
export-filing | Export filing (EEI), filed for you
stage: export clearance, per: shipment, amount_minor: 85
title-validation | Title shown to customs, with two copies
stage: export clearance, per: vehicle, amount_minor: 60
lien-papers | Lender's letter that export is allowed
stage: export clearance, title: lien, per: vehicle, amount_minor: 95
foreign-papers | Foreign title, translated and shown
stage: export clearance, title: foreign, per: vehicle, amount_minor: 120
forwarder | Forwarder's fee
stage: export clearance, per: shipment, amount_minor: 195
road-manifest | Papers for the border, carriage by road
stage: export clearance, mode: truck, per: shipment, amount_minor: 75
verified-weight | Verified weight of the container (VGM)
stage: origin terminal, mode: container, per: container, amount_minor: 45
shared-terminal | Its share of terminal handling, export
stage: origin terminal, mode: shared container, per: vehicle, amount_minor: 105
port-security | Port security
stage: origin terminal, per: shipment, mode: roro, amount_minor: 22
box-loading | Lifted aboard
stage: loading on vessel, mode: container, per: container, amount_minor: 90
shared-arrival | Its share of terminal and unpacking, arrival
stage: destination terminal, mode: shared container, per: vehicle, amount_minor: 210, estimate: yes
underside-wash | Underside washed and inspected for shipping
stage: export packing, to_country: AU; NZ, per: vehicle, amount_minor: 310
stink-bug-treatment | Treated against stink bugs before the ship
stage: export packing, to_country: AU; NZ, per: vehicle, amount_minor: 420, {stink_bug}
quarantine | Quarantine inspection at arrival
stage: destination terminal, to_country: AU; NZ, per: vehicle, amount_minor: 190, estimate: yes
door-unloading | Unloaded at the named place
stage: unloading, per: vehicle, amount_minor: 80, estimate: yes
clearance-europe | Customs broker, Europe
stage: import clearance, to_country: {europe}, per: shipment, amount_minor: 290, estimate: yes
clearance-gulf | Customs broker, Gulf states and Jordan
stage: import clearance, to_country: {gulf}, per: shipment, amount_minor: 340, estimate: yes
clearance-oceania | Customs broker, Australia and New Zealand
stage: import clearance, to_country: AU; NZ, per: shipment, amount_minor: 380, estimate: yes
clearance-japan | Customs broker, Japan
stage: import clearance, to_country: JP, per: shipment, amount_minor: 520, estimate: yes
clearance-neighbours | Customs broker, border or port of arrival
stage: import clearance, to_country: CA; MX, per: shipment, amount_minor: 245, estimate: yes
clearance-elsewhere | Customs broker, port of arrival
stage: import clearance, not_to_country: {named}, per: shipment, amount_minor: 420, estimate: yes
hand-over-roro | Released and handed over by the port agent
stage: destination terminal, mode: roro, not_to_country: {american}, per: vehicle, amount_minor: 70, estimate: yes
hand-over-box | Delivery order and release by the line's agent
stage: destination terminal, mode: container, not_to_country: {american}, per: shipment, amount_minor: 95, estimate: yes
hand-over-shared | Its share of delivery order and release
stage: destination terminal, mode: shared container, not_to_country: {american}, per: vehicle, amount_minor: 55, estimate: yes
"""
EUROPE = (
    "AD AL AT BA BE BG CH CY CZ DE DK EE ES FI FO FR GB GR HR HU IE IS IT LI LT LU LV MC MD ME MK MT "
    "NL NO PL PT RO RS SE SI SK SM"
)
# Where domestic lines sail, and hand over without an agent of their own.
AMERICAN = "US PR VI GU MP AS"
GULF = "AE BH JO KW OM QA SA"

# The last leg by country: open trailer; the enclosed one is dearer by the share that stands last.
CARRIAGE_FIELDS = "countries base_minor rate_e4 minimum_minor miles_a_day spare_days enclosed_percent"
CARRIAGE = """
CH LI NO IS FO GL                               | 240 | 3.60 | 420 | 260 | 5 | 65
AT DE NL BE LU FR MC DK SE FI AX GB IE IM JE GG | 190 | 2.70 | 340 | 300 | 4 | 60
IT SM VA ES AD PT GR CY MT SI HR GI             | 170 | 2.40 | 310 | 280 | 5 | 60
PL CZ SK HU EE LV LT RO BG RS BA ME MK AL MD XK UA | 150 | 1.95 | 270 | 280 | 6 | 60
TR GE AM                                        | 160 | 1.80 | 270 | 260 | 6 | 65
MA TN DZ EG EH LY                               | 150 | 1.70 | 260 | 220 | 6 | 75
AZ KZ KG TJ TM UZ                               | 220 | 2.10 | 380 | 220 | 9 | 70
IL PS LB JO SY                                  | 170 | 2.10 | 290 | 220 | 5 | 65
AE SA KW QA BH OM IQ YE                         | 150 | 1.90 | 260 | 300 | 4 | 60
SN GM CI GH TG BJ NG SL LR GN GW MR             | 200 | 2.60 | 350 | 160 | 9 | 80
ML BF NE TD                                     | 240 | 3.20 | 420 | 140 | 12 | 85
CM GA CG CD CF GQ AO ST                         | 220 | 2.80 | 380 | 150 | 10 | 80
ZA NA BW LS SZ MZ                               | 170 | 1.90 | 280 | 280 | 6 | 60
ZM MW ZW                                        | 210 | 2.30 | 350 | 220 | 9 | 70
KE TZ UG RW BI                                  | 210 | 2.50 | 360 | 180 | 9 | 80
ET DJ SS SD ER SO                               | 230 | 2.70 | 400 | 160 | 11 | 80
MG KM YT                                        | 190 | 2.90 | 320 | 110 | 8 | 80
CV MV                                           | 150 | 3.20 | 270 | 60  | 4 | 75
MU RE SC                                        | 140 | 2.90 | 240 | 100 | 3 | 70
IN LK PK                                        | 160 | 1.50 | 250 | 180 | 8 | 75
BD NP BT AF                                     | 200 | 2.10 | 330 | 140 | 10 | 80
SG HK MO                                        | 190 | 3.80 | 320 | 60  | 2 | 60
MY TH ID PH VN BN                               | 150 | 1.75 | 250 | 200 | 7 | 70
KH LA MM TL                                     | 170 | 2.10 | 290 | 180 | 8 | 75
JP                                              | 280 | 3.90 | 480 | 240 | 4 | 55
KR TW                                           | 220 | 2.90 | 370 | 220 | 4 | 60
CN                                              | 180 | 1.85 | 290 | 260 | 7 | 70
MN                                              | 240 | 2.60 | 420 | 220 | 10 | 70
AU                                              | 230 | 2.30 | 380 | 330 | 6 | 60
NZ                                              | 240 | 2.90 | 400 | 220 | 5 | 60
FJ NC PF WS TO VU SB PG CK NU WF TV KI NR MH FM | 160 | 3.20 | 280 | 80  | 4 | 75
CA                                              | 190 | 2.15 | 360 | 380 | 6 | 55
MX                                              | 180 | 1.80 | 300 | 280 | 7 | 65
GT HN SV NI CR PA BZ                            | 180 | 2.10 | 300 | 180 | 7 | 75
DO HT JM BS TC KY BM BB TT AW CW BQ GP MQ AG LC GD DM KN VC VG SX MF MS PM | 170 | 3.40 | 290 | 60  | 4 | 75
CO EC PE VE                                     | 190 | 2.10 | 320 | 180 | 8 | 75
BO                                              | 210 | 2.40 | 360 | 160 | 9 | 75
GY SR GF                                        | 190 | 2.40 | 310 | 140 | 8 | 75
CL AR UY PY                                     | 180 | 1.90 | 310 | 260 | 7 | 65
BR                                              | 190 | 1.95 | 320 | 240 | 8 | 70
US                                              | 190 | 2.60 | 340 | 250 | 5 | 50
PR VI GU MP AS                                  | 160 | 3.60 | 280 | 60  | 3 | 60
"""

# What hauliers ask for towns and regions, and from one port; the sum may hold all the miles.
ZONE_FIELDS = (
    "country trailer port regions towns base_minor rate_e4 minimum_minor "
    "miles_a_day spare_days winch_minor skates_minor"
)
ZONES = """
DE | open     | DEBRV |     | Bremen; Oldenburg | 245 | 0    |     | 300 | 2 | 90 | 195
DE | enclosed | DEBRV |     | Bremen; Oldenburg | 395 | 0    |     | 300 | 4 | 90 | 195
DE | open     | DEHAM |     |                   | 190 | 2.20 | 300 | 300 | 3 | 90 | 195
AU | open     |       | TAS |                   | 420 | 2.60 | 700 | 250 | 8 | 114 | 247
"""

COVER_FIELDS = "conditions mode rate_ppm minimum_minor insured_ppm excess_ppm note"
COVER = """
A |                  | 1.35 % | 175 | 110 % | 0.5 % | Most perils; not war, strikes, inherent vice, wear, delay
A | container        | 1.10 % | 150 | 110 % | 0.5 % | Most perils; not war, strikes, inherent vice, wear, delay
B |                  | 0.75 % | 120 | 110 % | 0.5 % | Named perils and sea water; not theft, not damage in handling
C |                  | 0.45 % | 90  | 110 % | 0 %   | Perils of the voyage; not theft, not handling, not sea water
"""

CURRENCY_FIELDS = "currency rate buffer_ppm"
CURRENCY_DAY = "2026-11-23"
CURRENCIES = """
AED | 3.6725  | 0.5 %
AUD | 1.532   | 2 %
BHD | 0.376   | 0.5 %
BRL | 5.48    | 3 %
CAD | 1.384   | 1.5 %
CHF | 0.812   | 1.5 %
CLP | 942.5   | 3 %
CNY | 7.12    | 1.5 %
CZK | 21.15   | 2 %
DKK | 6.468   | 1.5 %
EUR | 0.8665  | 1.5 %
GBP | 0.7582  | 1.5 %
HKD | 7.79    | 0.5 %
HUF | 334.2   | 2.5 %
ISK | 125.4   | 2.5 %
JPY | 151.6   | 2 %
KRW | 1412    | 2.5 %
KWD | 0.3068  | 1 %
MXN | 18.46   | 3 %
NOK | 10.12   | 2 %
NZD | 1.741   | 2 %
OMR | 0.3845  | 0.5 %
PLN | 3.684   | 2 %
QAR | 3.64    | 0.5 %
RON | 4.412   | 2 %
SAR | 3.75    | 0.5 %
SEK | 9.53    | 2 %
SGD | 1.294   | 1.5 %
THB | 32.4    | 2.5 %
TRY | 42.6    | 5 %
ZAR | 17.31   | 3 %
"""
