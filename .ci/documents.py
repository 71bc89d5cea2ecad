"""The documents name only what exists, and name all that has to be named."""

import re
import sys
from importlib.metadata import metadata
from pathlib import Path

from consult.screens.buy import CardPage, YearPage
from consult.screens.chart import ChartPage
from consult.screens.comparison import ComparisonPage
from consult.screens.day import DayPage
from consult.screens.emergency import EmergencyPage
from consult.screens.lines import LinesPage
from consult.screens.packs import PackPage, PacksPage
from consult.screens.result import ResultPage
from consult.screens.review import ReviewPage
from consult.screens.start import StartPage
from consult.screens.wizard import WizardPage
from consult.screens.wrong import AdvicePage, WrongPage

ROOT = Path(__file__).parent.parent
PAGES = (
    *(
        StartPage,
        WizardPage,
        ReviewPage,
        ResultPage,
        LinesPage,
        ChartPage,
        DayPage,
        EmergencyPage,
        WrongPage,
        AdvicePage,
    ),
    *(CardPage, YearPage, PacksPage, PackPage, ComparisonPage),
)


def links(document: Path) -> list[str]:
    """Local targets of links and pictures, and of paths in backticks, that do not exist."""
    text = document.read_text("utf-8")
    targets = re.findall(r"\]\(([^)#]+)\)", text)
    paths = re.findall(r"`((?:consult|tests|demo_clients|\.ci)/[\w./-]*)`", text)
    near = [t for t in targets if not t.startswith("http") and not (document.parent / t).exists()]
    return near + [p for p in paths if not (ROOT / p).exists()]


def published() -> list[str]:
    """What is wrong with the description of the installed package, which stands where nothing else does."""
    text = metadata("consult")["Description"]
    near = [f"a link to {target}" for target in re.findall(r"\]\((?!https?:)([^)]*)\)", text)]
    screens = sorted((ROOT / "demo_clients/pictures").glob("*.md"))
    return near + [f"no {one.name}" for one in screens if one.read_text("utf-8").strip() not in text]


def main() -> int:
    errors = [f"the published description has {error}" for error in published()]
    for name in ("README.md", "DEVELOPERS.md", "demo_clients/README.md"):
        errors += [f"{name}: {missing} does not exist" for missing in links(ROOT / name)]
    told = (ROOT / "demo_clients/README.md").read_text("utf-8")
    for demo in sorted((ROOT / "demo_clients").glob("*.toml")):
        if demo.name not in told:
            errors.append(f"demo_clients/README.md does not tell of {demo.name}")
    table = "\n".join(re.findall(r"^\| (.+?) \|", (ROOT / "README.md").read_text("utf-8"), re.M))
    for name in sorted(
        {name for page in PAGES for key in page.KEYS for name in re.split("[,/ ]+", key.name)}
    ):
        if not re.search(rf"(?<!\w){re.escape(name)}(?!\w)", table):
            errors.append(f"the README's table of keys does not tell of {name}")
    for error in errors:
        print(error)
    print(f"documents: {len(errors)} errors")
    return 1 if errors else 0


if __name__ == "__main__":
    sys.exit(main())
