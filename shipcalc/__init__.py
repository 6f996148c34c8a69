"""Shipping quotes and shipment planning for a dealer of collector vehicles."""

__version__ = "0.1.0"
