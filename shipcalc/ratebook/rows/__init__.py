"""Which sheets a rate book has, and what each of their rows is, column by column.

In: nothing but descriptions. Out: the frozen row types that everything above prices, dates and papers with, and the list of the
sheets (`tables`).

Condition columns are blank for "any". A range is two columns, `… over` (not itself included) and `… up to` (included).
Lengths reach the program in millimetres, masses in grams, money in minor units (of the book's currency unless a column says
otherwise), rates in ten-thousandths, percentages in millionths, distances at sea in nautical miles; the headers say which unit
the manager writes.
"""
