"""The checklist as people work with it: an Excel workbook, the sheets that go with it, a calendar.

In: a checklist and its Quote. Out: workbooks that are read back when they were ticked, and an .ics file.
"""
