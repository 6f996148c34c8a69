"""Makes the outlines of states and countries. Not in the wheel.

In: two packages of open map data. Out: `pictures/data/outlines.json`.
"""
