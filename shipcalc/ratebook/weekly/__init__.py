"""What publishers bring out week by week: diesel and rates of exchange, read from their files, and the cells that they move."""
