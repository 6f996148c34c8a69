"""What stays in the office: the quote with cost, margin and cells; the comparison of two rate books.

In: a Quote, or a comparison. Out: workbooks.
"""
