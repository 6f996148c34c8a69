"""A whole stock list to everywhere: every vehicle × place × kind of trailer, in blocks."""
