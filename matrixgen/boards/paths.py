"""Names of what is built in, and paths of what is a user's own."""


def is_path(word: str) -> bool:
    """Whether a controller or a diode is given by the path of a file and not by a built-in name."""
    return word.endswith(".json") or "/" in word or "\\" in word
