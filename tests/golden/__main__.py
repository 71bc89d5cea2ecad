"""Write the golden records anew and show what has changed: `python -m tests.golden`."""

import sys
from difflib import unified_diff

from consult.records.demos import demo_files
from tests.golden import golden, record


def main() -> None:
    for name in demo_files():
        path = golden(name)
        before = path.read_text("utf-8") if path.exists() else ""
        now = record(name)
        sys.stdout.writelines(
            unified_diff(before.splitlines(True), now.splitlines(True), f"{name} before", f"{name} now", n=1)
        )
        path.write_text(now, "utf-8")


if __name__ == "__main__":
    main()
