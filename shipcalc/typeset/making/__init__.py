"""How the fonts were made: not in the wheel."""
