"""What the dealer has set: name, yards, files, currency, paper (`shipcalc.toml`)."""
