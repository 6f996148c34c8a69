"""What the two workbooks write alike: the head of a page, the lines of a choice with their formulas, and their sums.

In comes a `Quote` and a page of a workbook; out goes where on the page each sum stands.
"""
