"""What it costs: Excel workbooks become checked rows that remember their cells."""
