"""No function, method or class of the program is without a caller in the program itself.

What the framework, pydantic or a table calls by name is told here by pattern; what only the tests call on purpose,
the audits of the rules, by name. Fields of the models are data and do not count.
"""

import sys
from pathlib import Path

from vulture import Vulture

ROOT = Path(__file__).parent.parent
CALLED_BY_NAME = [
    "on_*", "action_*", "watch_*", "validate_*", "compose", "check_action", "get_default_screen",
    "get_content_height", "get_height", "clear_selection", "_handle_exception", "panic",
]  # fmt: skip
CALLED_BY_DECORATOR = [
    *("@on", "@_fact", "@_CHECKS.check", "@DEMANDS.check"),
    *("@field_validator", "@model_validator", "@events"),
]
AUDITS = {"unmentioned", "never_firing", "redundant", "incomplete", "never_said"}
KINDS = {"function", "method", "class", "property"}


def unused() -> list[str]:
    """One line for each that nothing calls."""
    seeker = Vulture(ignore_names=CALLED_BY_NAME, ignore_decorators=CALLED_BY_DECORATOR)
    seeker.scavenge([str(ROOT / "consult")])
    return [
        f"{item.filename.relative_to(ROOT)}:{item.first_lineno}: nothing calls {item.typ} '{item.name}'"
        for item in seeker.get_unused_code()
        if item.typ in KINDS and item.name not in AUDITS
    ]


def main() -> int:
    found = unused()
    print("\n".join(found) or "callers: every function has one")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
