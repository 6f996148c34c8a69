"""What is said of a way: legs, papers, what is in the price and what is not, warnings and cautions.

In: one way, priced and dated. Out: sentences and the rows of papers and tasks.
"""
