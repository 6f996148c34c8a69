"""Writes the invented rate book that comes with the program, and the workbooks to begin with that hold no price.

In: rows written down here and in `ratebook/data`. Out: `rates/*.xlsx`, or the same without their prices.
"""
