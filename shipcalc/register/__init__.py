"""Quotes and shipments kept: what was promised to whom, and what became of it.

In: quotes as they were made, and what people say about them (accepted, declined). Out: the same quotes, by number. One database:
a file of SQLite in the user's data folder, or a server of PostgreSQL for an office of several desks. All that is read and written
goes through a `Register`, in transactions: half of anything is never kept.
"""
