"""`python -m dryfit` does the same as `dryfit`."""

from dryfit.app.cli.main import main

if __name__ == "__main__":
    main()
