"""Which sheets a rate book has, and what each of their rows is, column by column.

In: nothing but descriptions. Out: the frozen row types that everything above prices, dates and papers with, and the list of the
sheets (`tables`).
"""
