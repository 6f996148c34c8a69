"""What must be true across the rows of a rate book.

In: the rows that could be read. Out: problems, each with the cell it is about and how to correct it; never a changed row.
"""
