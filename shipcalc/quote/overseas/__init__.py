"""Quotes to where home trucks do not go: ports, ships, the road on the other side, duty and tax."""
