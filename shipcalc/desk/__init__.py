"""The desk: a page in the browser and an interface for other programs, both on this machine alone.

In: what somebody types into the page, or another program sends. Out: the same Quote as the terminal's, as JSON or as a page. All
that is done goes through `actions/`; all that is shown is made from the Quote by `documents/`.
"""
