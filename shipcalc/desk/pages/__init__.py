"""The pages of the desk, one module each: what it asks of the actions, and the data that its template shows.

In come the clerk and what a browser sends; out go HTML, and JSON problems where the answer is no. Each module has
`paths(clerk)`, listed in `desk/app.py`; its template begins with `frame.html`, its script and sheet have its name.
"""
