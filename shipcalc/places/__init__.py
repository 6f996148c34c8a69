"""Where: postal code, city, port or coordinates become a Place; how far one is from another."""
