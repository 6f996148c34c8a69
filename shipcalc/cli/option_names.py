"""How the terminal names what can be asked for."""


def option_of(field: str) -> str:
    """Return the option of a field: `--released-by`."""
    return f"--{field.replace('_', '-')}"
