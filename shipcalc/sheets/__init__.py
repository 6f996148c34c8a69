"""Workbooks and tables in and out: the one door to Excel files, every cell with its address."""

# What is larger is not a list of a dealer, and would take minutes to read.
LARGEST_FILE_BYTES = 40_000_000
