"""What bills teach: how far quotes were from what was paid, which rates would have been nearer, what buffer covers the rest.

In: kept quotes and the bills that came for them. Out: figures, and rates to propose; nothing is ever changed from here.
"""
