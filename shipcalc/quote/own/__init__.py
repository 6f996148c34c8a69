"""Ways of which the buyer does a part himself, and what is done for him beside the carriage.

In: an answer of priced ways. Out: the choices that were asked for behind them, and what stands beside them in one line each.
"""
