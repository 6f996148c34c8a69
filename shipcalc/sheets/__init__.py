"""Workbooks and tables in and out: the one door to Excel files, every cell with its address."""
