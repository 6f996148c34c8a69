"""Two editions of a rate book, and what tells one from another.

In: rows of both. Out: what was changed in which cell, rows matched by what makes them the same; and the fingerprint of a book.
"""
