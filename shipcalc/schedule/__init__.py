"""When: driving hours, working days, windows."""
