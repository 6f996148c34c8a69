"""The passages of the sea by name: a line across each, so that a track that crosses it is known to use it.

The lines are drawn from shore to shore by general geography, over land at both ends; a passage is on a route where the route
crosses its line. Those always closed are so by ice; by tidal streams of up to twelve knots (the Pentland Firth: ships take the
Channel or the Fair Isle Channel); or by their size (the Cape Cod Canal: deep ships pass outside). Their order is the order of
the bits in the derived network: append, never reorder.
"""

from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Passage:
    """One passage: its name as typed to close it, how it reads in a sentence, a line of (latitude, longitude) across it."""

    name: str
    reads: str
    line: tuple[tuple[float, float], ...]
    always_closed: bool = False


PASSAGES = (
    Passage("suez", "the Suez Canal", ((30.60, 31.90), (30.60, 32.90))),
    Passage("panama", "the Panama Canal", ((9.45, -79.30), (8.85, -80.05))),
    Passage("gibraltar", "the Strait of Gibraltar", ((35.60, -5.60), (36.30, -5.60))),
    Passage("bab-el-mandeb", "Bab-el-Mandeb", ((12.90, 43.65), (12.35, 43.05))),
    Passage("hormuz", "the Strait of Hormuz", ((25.90, 56.25), (27.30, 56.60))),
    Passage("malacca", "the Strait of Malacca", ((2.75, 102.00), (1.60, 101.30))),
    Passage("sunda", "the Sunda Strait", ((-6.15, 106.05), (-5.55, 105.45))),
    Passage("lombok", "the Lombok Strait", ((-8.40, 115.40), (-8.40, 116.30))),
    Passage("torres", "the Torres Strait", ((-8.60, 142.30), (-11.40, 142.30))),
    Passage("good hope", "the Cape of Good Hope", ((-33.50, 20.00), (-69.80, 20.00))),
    Passage("horn", "Cape Horn", ((-54.40, -68.60), (-65.50, -62.00))),
    Passage("magellan", "the Strait of Magellan", ((-52.10, -69.60), (-53.00, -69.60))),
    Passage("dover", "the Strait of Dover", ((50.75, 1.72), (51.25, 1.20))),
    Passage("kiel", "the Kiel Canal", ((54.45, 9.70), (53.90, 9.70))),
    Passage("oresund", "the Øresund", ((56.00, 12.30), (56.08, 12.90))),
    Passage("great belt", "the Great Belt", ((55.34, 10.60), (55.34, 11.30))),
    Passage("little belt", "the Little Belt", ((55.52, 9.50), (55.46, 10.00))),
    Passage("dardanelles", "the Dardanelles", ((40.24, 26.25), (40.02, 26.58))),
    Passage("bosporus", "the Bosporus", ((41.12, 28.85), (41.12, 29.35))),
    Passage("tsugaru", "the Tsugaru Strait", ((41.85, 140.30), (40.90, 140.40))),
    Passage("kanmon", "the Kanmon Strait", ((34.10, 130.90), (33.75, 130.98))),
    Passage("seaway", "the Saint Lawrence Seaway", ((45.70, -74.30), (44.70, -74.30))),
    Passage("bering", "the Bering Strait", ((66.10, -172.50), (65.50, -166.90))),
    Passage("northwest", "the Northwest Passage", ((66.00, -100.00), (89.00, -100.00)), always_closed=True),
    Passage("northeast", "the Northeast Passage", ((75.50, 104.00), (89.00, 104.00)), always_closed=True),
    Passage("grand banks", "the Grand Banks", ((42.52, -50.00), (46.66, -53.07), (49.00, -55.50), (52.60, -57.00))),
    Passage("pentland", "the Pentland Firth", ((58.50, -3.20), (59.05, -3.20)), always_closed=True),
    Passage("cape cod", "the Cape Cod Canal", ((41.85, -70.56), (41.66, -70.56)), always_closed=True),
)
PASSAGE_NAMES = tuple(passage.name for passage in PASSAGES)

# Steamship tracks between the United States and Europe keep south of ice and fishing fleets: they round the tail of the Grand
# Banks, 42°30′ N 50° W, and so do the distances of Pub. 151 (New York to Bishop Rock 2,937 nautical miles; by Cape Race it
# would be 65 less). Only for Canada, Greenland and Iceland does a ship from the United States cross the Banks; ships from
# Canada do for Europe, too, by Cape Race. Boxes are (south, north, west, east).
UNITED_STATES_ATLANTIC = (24.0, 44.9, -98.5, -66.8)
NORTH_WEST_ATLANTIC = (42.0, 85.0, -66.8, -12.5)
