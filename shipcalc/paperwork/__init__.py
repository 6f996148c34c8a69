"""Which papers and tasks: decision tables, answered from facts."""
