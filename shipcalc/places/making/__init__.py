"""Makes the data of `places/data` and measures how near the miles come to published ones. Not in the wheel.

In: open data sets, named in each module. Out: tables, and the texts of the reports.
"""
