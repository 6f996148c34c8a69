"""What somebody says of a place becomes a Place, or the places that may be meant.

In: a name, a postal code, coordinates, a street address. Out: a `Finding`: the place, how it was understood, its namesakes.
"""
