"""How far it is by road, and whether a road leads there at all.

In: two places. Out: road miles with the method that found them; the countries on the way.
"""
