"""The documents name only what exists, and name all that has to be named."""

import re
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent


def links(document: Path) -> list[str]:
    """Local targets of links and pictures, and of paths in backticks, that do not exist."""
    text = document.read_text("utf-8")
    targets = re.findall(r"\]\(([^)#]+)\)", text)
    paths = re.findall(r"`((?:consult|tests|demo_clients|\.ci)/[\w./-]*)`", text)
    near = [t for t in targets if not t.startswith("http") and not (document.parent / t).exists()]
    return near + [p for p in paths if not (ROOT / p).exists()]


def main() -> int:
    faults = []
    for name in ("README.md", "DEVELOPERS.md", "demo_clients/README.md"):
        faults += [f"{name}: {missing} does not exist" for missing in links(ROOT / name)]
    told = (ROOT / "demo_clients/README.md").read_text("utf-8")
    for demo in sorted((ROOT / "demo_clients").glob("*.toml")):
        if demo.name not in told:
            faults.append(f"demo_clients/README.md does not tell of {demo.name}")
    help_text = (ROOT / "consult/screens/notices.py").read_text("utf-8")
    for key in ("PgUp", "Ctrl+Z", "F2", "Ctrl+Q"):
        if key not in help_text or key not in (ROOT / "README.md").read_text("utf-8"):
            faults.append(f"the key {key} is not told in both README and help")
    for fault in faults:
        print(fault)
    print(f"documents: {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
