"""Rates as carriers and forwarders send them → rows of the rate book.

A file's pages (`page`) → its tables and what each column is (`blocks`, `meanings`) → what the letter says around them
(`letter`) → rates with the cells they are from (`lines`) → rows of a sheet (`targets`), old beside new. What is in doubt
is a question or is left out and named; nothing is guessed in silence.
"""
