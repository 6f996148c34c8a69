"""What every way costs at every stage, and who pays it.

In: a network and its ways. Out: sums of all ways as columns, the charges of one way, duty and tax, the delivery terms.
"""
