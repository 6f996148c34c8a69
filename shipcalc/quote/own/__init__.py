"""Ways of which the buyer does a part himself, each asked for by a request of its own.

In: an answer of priced ways. Out: the choices that were asked for behind them, and what stands beside them in one line each.
"""
