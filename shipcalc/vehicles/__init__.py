"""What: the vehicle, the stock list, serial numbers, sizes."""
