"""`python -m shipcalc` is the command `shipcalc`."""

from shipcalc.cli.start import main

if __name__ == "__main__":
    main()
