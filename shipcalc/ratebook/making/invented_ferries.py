"""The invented rows of the sheets *Ferries* and *Ferries abroad*: the ferries are there, their prices are made up."""

SOURCE = {
    "source": "Common geography",
    "trust": "memory",
    "office_note": "The crossing: from general knowledge, rounded; the price is invented",
}
CLOSED_SOURCE = {"source": "Common geography", "trust": "memory"}
FERRY_FIELDS = "ferry from_zip to_zip amount_minor crossing_nmi crossing_hours sailings extra_days remark"
FERRIES = """
Car ferry Anacortes – Friday Harbor     | 98221 | 98250 | 140 | 17   | 1.2  | 6  | 1 | Book ahead.
Car ferry Anacortes – Orcas             | 98221 | 98280 | 130 | 13   | 1.0  | 6  | 1 | Book ahead.
Car ferry Anacortes – Lopez             | 98221 | 98261 | 120 | 9    | 0.8  | 6  | 1 | Book ahead.
Car ferry Anacortes – Shaw              | 98221 | 98286 | 130 | 12   | 1.0  | 4  | 1 | Book ahead.
Car ferry Fauntleroy – Vashon           | 98136 | 98070 | 60  | 3    | 0.3  | 20 | 0 |
Car ferry Gooseberry Point – Lummi Island | 98226 | 98262 | 45 | 1   | 0.2  | 20 | 0 | Short trailers only.
Car ferry Steilacoom – Anderson Island  | 98388 | 98303 | 70  | 3    | 0.4  | 10 | 0 | Short trailers only.
Car ferry Hyannis – Nantucket           | 02601 | 02554 | 420 | 26   | 2.25 | 3  | 2 | Book weeks ahead in summer.
Car ferry Woods Hole – Martha's Vineyard | 02543 | 02568 | 210 | 6   | 0.75 | 10 | 1 | Book weeks ahead in summer.
Car ferry Point Judith – Block Island   | 02882 | 02807 | 240 | 11   | 1.0  | 3  | 1 | Fewer sailings in winter.
Car ferry New London – Fishers Island   | 06320 | 06390 | 150 | 6    | 0.75 | 4  | 1 |
Car ferry Greenport – Shelter Island    | 11944 | 11965 | 40  | 1    | 0.2  | 40 | 0 |
Car ferry Rockland – Vinalhaven         | 04841 | 04863 | 110 | 13   | 1.25 | 5  | 1 | Short trailers only.
Car ferry Rockland – North Haven        | 04841 | 04853 | 110 | 10   | 1.2  | 3  | 1 | Short trailers only.
Car ferry Lincolnville – Islesboro      | 04849 | 04848 | 75  | 3    | 0.35 | 9  | 0 |
Car ferry Bass Harbor – Swans Island    | 04653 | 04685 | 95  | 5    | 0.7  | 5  | 1 | Short trailers only.
Car ferry Charlevoix – Beaver Island    | 49720 | 49782 | 320 | 28   | 2.25 | 1  | 2 | Rests in winter.
Car ferry Cheboygan – Bois Blanc Island | 49721 | 49775 | 130 | 6    | 0.75 | 3  | 1 | Rests in winter.
Car ferry De Tour – Drummond Island     | 49725 | 49726 | 45  | 1    | 0.2  | 15 | 0 |
Car ferry Algonac – Harsens Island      | 48001 | 48028 | 35  | 0.5  | 0.1  | 40 | 0 |
Car ferry Northport – Washington Island | 54210 | 54246 | 85  | 5    | 0.5  | 5  | 1 | Fewer sailings in winter.
Car ferry Bayfield – Madeline Island    | 54814 | 54850 | 80  | 2.5  | 0.4  | 8  | 1 | Nothing goes while the lake is frozen.
Car ferry Catawba – South Bass Island   | 43452 | 43456 | 90  | 3    | 0.35 | 10 | 1 | Rests in winter.
Car ferry Catawba – Middle Bass Island  | 43452 | 43446 | 100 | 6    | 0.7  | 4  | 1 | Rests in winter.
Car ferry Marblehead – Kelleys Island   | 43440 | 43438 | 85  | 3.5  | 0.4  | 12 | 1 | Rests in winter.
Car ferry Cedar Island – Ocracoke       | 28520 | 27960 | 95  | 20   | 2.25 | 3  | 1 | Book ahead.
"""
FARE_FIELDS = "ferry from_zip to_zip carrier amount_minor"
FARES = """
Car ferry Anacortes – Friday Harbor     | 98221 | 98250 | Kestrel and Umbrella | 112
Car ferry Hyannis – Nantucket           | 02601 | 02554 | Magpie and Compass   | 465
"""
FARE_SOURCE = {"source": "The carrier's account with the ferry", "trust": "invented"}
CLOSED_FIELDS = "ferry from_zip to_zip remark"
CLOSED = """
Passenger ferry Mackinaw City – Mackinac Island | 49701 | 49757 | Hand over at the terminal in Mackinaw City.
"""

ABROAD_FIELDS = (
    "from_port from_name to_port to_name amount_minor crossing_nmi crossing_hours sailings extra_days remark"
)
ABROAD = """
GBSOU | Southampton   | GBCOW | East Cowes       | 190 | 10  | 1   | 12 | 0 | Book ahead.
GBHYM | Heysham       | IMDGS | Douglas          | 290 | 57  | 3.8 | 2  | 1 | Book ahead.
GBPOO | Poole         | GGSPT | Saint Peter Port | 310 | 80  | 3.3 | 1  | 1 | Fewer sailings in winter.
GBPOO | Poole         | JESTH | Saint Helier     | 330 | 105 | 4.5 | 1  | 1 | Fewer sailings in winter.
SENYN | Nynäshamn     | SEVBY | Visby            | 310 | 80  | 3.4 | 2  | 1 | Book weeks ahead in summer.
SEYST | Ystad         | DKRNN | Rønne            | 240 | 38  | 1.4 | 5  | 1 |
ITCVV | Civitavecchia | ITOLB | Olbia            | 330 | 125 | 7   | 2  | 1 | Book weeks ahead in summer.
FRTLN | Toulon        | FRAJA | Ajaccio          | 340 | 150 | 10  | 1  | 1 | Book weeks ahead in summer.
ESBCN | Barcelona     | ESPMI | Palma            | 320 | 130 | 7.5 | 2  | 1 |
ESBCN | Barcelona     | ESMAH | Mahón            | 340 | 133 | 9   | 1  | 1 | Fewer sailings in winter.
ESVLC | Valencia      | ESIBZ | Ibiza            | 300 | 95  | 5.5 | 1  | 1 |
ESLPA | Las Palmas    | ESSCT | Santa Cruz       | 210 | 52  | 3.5 | 3  | 1 |
GRPIR | Piraeus       | GRHER | Heraklion        | 290 | 176 | 9   | 2  | 1 |
GRPIR | Piraeus       | GRRHO | Rhodes           | 360 | 250 | 16  | 1  | 2 |
JPAOJ | Aomori        | JPHKD | Hakodate         | 280 | 61  | 3.7 | 8  | 1 |
CAVAN | Vancouver     | CANNO | Nanaimo          | 220 | 33  | 1.7 | 8  | 1 | From Horseshoe Bay. Book ahead.
CANSY | North Sydney  | CAPBQ | Port aux Basques | 420 | 96  | 7   | 2  | 2 | Waits for weather in winter.
"""
