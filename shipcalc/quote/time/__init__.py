"""When every way gets there.

In: a network and its ways. Out: days of every step as columns, the timeline of one way, what must be in time.
"""
