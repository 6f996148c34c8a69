"""Two rate books side by side: what a change of rates does to quotes.

In: two rate books, a basket of transports, saved quotes. Out: differences by row, carrier and quote; a quote traced to its cells.
"""
