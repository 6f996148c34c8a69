"""How far it is by sea, and by which passages.

In: two ports. Out: nautical miles over the network of sea lanes, and the canals and straits on the way.
"""
