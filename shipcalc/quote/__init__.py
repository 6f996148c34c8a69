"""A request in, a Quote out: the only place where price, papers and dates are joined."""
