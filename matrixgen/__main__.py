"""`python -m matrixgen` and the installed program `matrixgen`."""

from matrixgen.cli.main import run

if __name__ == "__main__":
    run()
