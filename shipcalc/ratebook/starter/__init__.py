"""Workbooks for a manager to begin with, made from the descriptions of the rows.

In: row types and rows as they would be typed. Out: a formatted workbook with notes and drop-downs, with prices or without.
"""
