"""Crossings of land borders where customs clear trucks, with their hours; where they lie is from memory, to a mile or so."""

FIELDS = "crossing country latitude longitude weekdays saturday sunday holidays source trust checked_on office_note"
_CBSA = (
    "Canada Border Services Agency, news release of 18 November 2024: hours from 6 January 2025 | read | 2026-11-28 | "
)
_LAREDO = (
    "CBP Laredo Field Office, business resumption update of 28 July 2017 | read | 2026-11-28 | An old notice: ask CBP"
)
_EL_PASO = (
    "CBP, release of 9 October 2023 on the cargo facility | second hand | | It may hold for imports alone: ask CBP"
)
_SUMAS = "CBP, notice on the Pacific Highway crossing, as a customs broker prints it | second hand | | All cargo at all hours"
_MEMORY = " | memory | | Ask CBP and the customs on the other side"

BORDER_PORTS = f"""
Blaine, Pacific Highway         | CA | 49.002 | -122.735 | 0 to 24 | 0 to 24 | 0 to 24  | yes | {_MEMORY}
Sumas, Abbotsford               | CA | 49.002 | -122.265 | 0 to 24 | 0 to 24 | 0 to 24  | yes | {_SUMAS}
Sweetgrass, Coutts              | CA | 48.999 | -111.960 | 0 to 24 | 0 to 24 | 0 to 24  | yes | {_MEMORY}
Pembina, Emerson                | CA | 49.000 | -97.237  | 0 to 24 | 0 to 24 | 0 to 24  | yes | {_MEMORY}
Coulter                         | CA | 49.000 | -100.990 | 8 to 16 |      |       | no  | {_CBSA}
Lena                            | CA | 49.000 | -99.630  | 8 to 16 |      |       | no  | {_CBSA}
Detroit, Ambassador Bridge      | CA | 42.312 | -83.074  | 0 to 24 | 0 to 24 | 0 to 24  | yes | {_MEMORY}
Port Huron, Blue Water Bridge   | CA | 42.999 | -82.423  | 0 to 24 | 0 to 24 | 0 to 24  | yes | {_MEMORY}
Buffalo, Peace Bridge           | CA | 42.907 | -78.906  | 0 to 24 | 0 to 24 | 0 to 24  | yes | {_MEMORY}
Champlain, Lacolle              | CA | 45.009 | -73.452  | 0 to 24 | 0 to 24 | 0 to 24  | yes | {_MEMORY}
Houlton, Woodstock              | CA | 46.145 | -67.782  | 0 to 24 | 0 to 24 | 0 to 24  | yes | {_MEMORY}
Laredo, World Trade Bridge      | MX | 27.597 | -99.537  | 7 to 24 | 8 to 16 | 10 to 14 | yes | {_LAREDO}
El Paso, Bridge of the Americas | MX | 31.764 | -106.451 | 6 to 14 |      |       | no  | {_EL_PASO}
Otay Mesa                       | MX | 32.550 | -116.938 | 6 to 20 | 8 to 16 |       | no  | {_MEMORY}
"""
