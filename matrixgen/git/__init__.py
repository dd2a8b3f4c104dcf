"""What git knows of a file, asked of the program `git` itself."""

from matrixgen.git.repository import is_revision, read_revision
from matrixgen.git.text_merge import text_merge
