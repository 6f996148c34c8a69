"""A sheet's cells become the program's own values, and back.

In: a table with the address of every cell. Out: rows of one dataclass a sheet, each remembering its cells, and every cell that
cannot be read, named. Nothing here knows which sheets there are.
"""
