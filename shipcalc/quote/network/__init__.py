"""Which ways there can be: yards, ports and the door, and what joins them.

In: a request and a rate book. Out: a `Network` of roads, ships and ports, and all ways over it as columns.
"""
