"""What all sheets of the buyer's workbook share: one size of print and one width, so that they look like one paper."""

PERCENT = 75  # 10 points print as 7.5
# Line, what it is for, quantity, unit, rate, amount: together 112, which all but fills a page at that size.
WIDTHS = (5, 51, 12, 15, 13, 16)
