"""What every face says of an offer, whatever it looks like: the first answer, differences, sums, lines.

In: a Quote. Out: plain texts and amounts, for the terminal, the message and the workbooks alike.
"""
