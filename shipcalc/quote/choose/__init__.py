"""Which ways the buyer is shown, and which is recommended.

In: all ways, priced and dated. Out: at most six choices, each with what it is good for; ways of which the
buyer does a part himself.
"""
