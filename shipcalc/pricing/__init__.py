"""How much: the carriers' tariffs as columns."""
