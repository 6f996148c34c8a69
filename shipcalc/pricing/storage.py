"""What it costs to keep vehicles at a yard: days or started months beyond the free ones."""

DAYS_OF_A_MONTH = 30


def counted(days: int, *, free_days: int, per: str) -> int:
    """Return how many days, or started months of 30 days, are charged of so many days kept."""
    charged = max(0, days - free_days)
    return -(-charged // DAYS_OF_A_MONTH) if per == "month" else charged
