"""Where every number and every reason comes from.

A published source stands once in `sources.toml` and is cited by its id. What has no published
source says so in one of three fixed ways, `COMMON_PRACTICE`, `ASSUMPTION` or `FROM_MEMORY`.
"""

from functools import cache
from pathlib import Path

COMMON_PRACTICE = "common practice"
ASSUMPTION = "assumption"
FROM_MEMORY = "from memory"
UNPUBLISHED = (COMMON_PRACTICE, ASSUMPTION, FROM_MEMORY)


class Number(float):
    """A constant of the trade that knows its unit and its source; it computes like a float."""

    unit: str
    source: str

    def __new__(cls, value: float, unit: str, source: str) -> "Number":
        self = super().__new__(cls, value)
        self.unit = unit
        self.source = source
        return self


@cache
def sources() -> dict[str, dict[str, str]]:
    """All published sources, id -> {title, by, where, status}."""
    import tomli

    return tomli.loads(Path(__file__).with_name("sources.toml").read_text("utf-8"))


def is_source(name: str) -> bool:
    """True for a published source id and for the three unpublished marks."""
    return name in UNPUBLISHED or name in sources()


def cite(name: str) -> str:
    """One readable line for a source id; the unpublished marks read as they are.

    Raises KeyError for an id that `sources.toml` is false.
    """
    if name in UNPUBLISHED:
        return name
    entry = sources()[name]
    return f"{entry['title']} ({entry['by']})"
