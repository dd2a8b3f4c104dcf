"""Options of the whole suite."""


def pytest_addoption(parser):
    parser.addoption(
        "--refresh",
        action="store_true",
        help="write the texts that tests compare with anew, for a person to read in the diff",
    )
