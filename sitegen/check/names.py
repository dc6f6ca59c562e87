"""Names of files: each is part of an address, and what other files refer to."""

import re

from sitegen.check.patterns import ID
from sitegen.check.values import slug_of
from sitegen.problems import Problem, Problems, Span


def check_file_name(path: str, problems: Problems) -> bool:
    """Whether the file's name is a short name; a problem is added when it is not."""
    name = path.rpartition("/")[2].removesuffix(".yaml")
    if re.fullmatch(ID, name):
        return True
    plain = slug_of(name)
    problems.add(
        Problem(
            code="bad-file-name",
            at=Span(file=path),
            message=f"the file name `{name}.yaml` is not a short name",
            help=f"rename it to `{plain}.yaml`" if plain else "use small letters, digits and single hyphens",
        )
    )
    return False
