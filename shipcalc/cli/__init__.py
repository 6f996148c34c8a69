"""The terminal: parse, call one action, print."""
