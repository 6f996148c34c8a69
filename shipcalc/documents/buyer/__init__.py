"""What the buyer gets: a workbook and a message.

In: a Quote without what is the dealer's own. Out: sheets and sentences that a buyer understands.
"""
