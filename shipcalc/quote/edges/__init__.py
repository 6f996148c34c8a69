"""What ways are made of, one module for each kind of edge: a yard, a truck, a border, a port, a ship, the last leg.

In: a network and its ways. Out, by the same four functions of every kind (`edge.Edge`): which ways it cannot take, its lines, its
days, its words. They stand in one row in `kinds.edges_of`, and everything above asks that row.
"""
