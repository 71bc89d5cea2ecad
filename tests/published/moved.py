"""Which checks notice when a constant of the colour model moves: `python -m tests.published.moved`.

Every constant stands here once: with the value it is moved to, its stated uncertainty, or as free, with the reason.
The checks asked are those that rest on something outside: published values, measured hair, what the trade teaches.
Pinned colours (`tests/colour/test_constants.py`) are not asked: they would notice everything and show nothing.
"""

import re
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

import consult

PACKAGE = Path(consult.__file__).parent
TESTS = Path(__file__).parents[1]
ASKED = (
    "tests/published",
    "tests/colour/test_trade_facts.py",
    "tests/colour/test_many_at_once.py::TestColourSpaces",
    "--ignore=tests/published/test_moved.py",
)


@dataclass(frozen=True)
class Move:
    """A constant of a module, the text it stands as, and the text it becomes."""

    module: str
    before: str
    after: str


MOVES = (
    Move("fibre", "SURFACE = Number(0.0268", "SURFACE = Number(0.036"),
    Move("fibre", "SURFACE_LEAST = Number(0.008", "SURFACE_LEAST = Number(0.02"),
    Move("fibre", "BACK = Number(0.045", "BACK = Number(0.12"),
    Move("fibre", "_KERATIN_EVEN = Number(0.014", "_KERATIN_EVEN = Number(0.028"),
    Move("fibre", "_KERATIN_YELLOW = Number(0.012", "_KERATIN_YELLOW = Number(0.024"),
    Move("fibre", "_KERATIN_FALL = Number(60.0", "_KERATIN_FALL = Number(120.0"),
    Move("melanin", "_DEPTH_3 = Number(0.88", "_DEPTH_3 = Number(1.4"),
    Move("melanin", "STEP = Number(1.585", "STEP = Number(1.9"),
    Move("melanin", "_PHEO_SHARE = Number(0.14", "_PHEO_SHARE = Number(0.6"),
    Move("melanin", "TONE_STEP = Number(4.0", "TONE_STEP = Number(1.5"),
    Move("melanin", "_BLEACH_SLOPE = Number(1.5", "_BLEACH_SLOPE = Number(4.5"),
    Move("melanin", "_PHEO_RESISTANCE = Number(4.0", "_PHEO_RESISTANCE = Number(1.0"),
    Move("pigment", "_BASE_LIFT = Number(1.0", "_BASE_LIFT = Number(0.3"),
    Move("pigment", "_LIGHT_BASE_LIFT = Number(1.5", "_LIGHT_BASE_LIFT = Number(0.5"),
    Move("pigment", "_RUNS_AHEAD = Number(0.45", "_RUNS_AHEAD = Number(0.1"),
    Move("pigment", "_RUNS_AHEAD_FROM = Number(7.0", "_RUNS_AHEAD_FROM = Number(9.0"),
    Move("dyes", "_BANDS: Final = ((440, 38), (484, 42), (511, 42), (553, 46), (610, 50), (660, 50))",
         "_BANDS: Final = ((455, 38), (499, 42), (526, 42), (568, 46), (625, 50), (675, 50))"),
    Move("dyes", "_BANDS: Final = ((440, 38), (484, 42), (511, 42), (553, 46), (610, 50), (660, 50))",
         "_BANDS: Final = ((425, 38), (469, 42), (496, 42), (538, 46), (595, 50), (645, 50))"),
    Move("dyes", "_PALE_FROM = Number(8.0,", "_PALE_FROM = Number(12.0,"),
    Move("dyes", '"low": Number(0.85', '"low": Number(0.99'),
    Move("dyes", '"high": Number(1.15', '"high": Number(1.01'),
    Move("dyes", "_LEAST_ADDED = Number(0.25,", "_LEAST_ADDED = Number(0.0,"),
    Move("fade", "_LOOSE_VIVID = Number(0.20", "_LOOSE_VIVID = Number(0.6"),
    Move("fade", "_FIRM_WASHES_MUTED = Number(90.0", "_FIRM_WASHES_MUTED = Number(20.0"),
    Move("fade", "_DAYLIGHT_VIVID = Number(0.015", "_DAYLIGHT_VIVID = Number(0.001"),
    Move("prediction", "SCREEN_GAIN = Number(1.8", "SCREEN_GAIN = Number(1.0"),
    Move("prediction", "SCREEN_SHINE = Number(0.024,", "SCREEN_SHINE = Number(0.0,"),
    Move("spread", "MODEL = Number(2.7", "MODEL = Number(2.0"),
    Move("neutralise", "_GREEN = Number(5.0", "_GREEN = Number(25.0"),
    Move("neutralise", "MOST_SHARE = Number(1 / 2", "MOST_SHARE = Number(1 / 12"),
    Move("apparent", "_EVERY_HUE = Number(0.085", "_EVERY_HUE = Number(0.5"),
    Move("apparent", "_FULL = Number(2.5", "_FULL = Number(9.0"),
    Move("cie", "_EPSILON = Number(216 / 24389", "_EPSILON = Number(0.2"),
    Move("cie", "_KAPPA = Number(24389 / 27", "_KAPPA = Number(500"),
    Move("fade", "_LOOSE_MUTED = Number(0.07", "_LOOSE_MUTED = Number(0.5"),
    Move("fade", "_LOOSE_WASHES = Number(1.0", "_LOOSE_WASHES = Number(60.0"),
    Move("fade", "_FIRM_WASHES_VIVID = Number(120.0", "_FIRM_WASHES_VIVID = Number(12.0"),
    Move("melanin", "_PHEOMELANIN_GREEN = Number(0.400", "_PHEOMELANIN_GREEN = Number(3.2"),
    Move("neutralise", "_WORTH_IT = Number(0.5", "_WORTH_IT = Number(20.0"),
)  # fmt: skip

FREE = {
    "melanin._CHORD": "it only scales the units of pigment, which the depth of dark brown fixes again",
    "melanin._PHEO_TRACE": "below what one measured spectrum tells",
    "hair._READABLE": "half a level is how swatches are read; no measurement says where a trace begins",
    "hair._AMPLY": "chosen so that worn colour goes one way (the grid notices it)",
    "fade._LOSS": "published without a number",
    "fade._DAYLIGHT_MUTED": "published for one auburn only",
    "ladder._CALLED": "where a lean becomes a tone word nobody has measured",
    "ladder._NOTICEABLE": "the threshold of an eye, from memory",
    "apparent._HUE": "published; its share is too small for hair's hues to tell",
    "spread.Uncertainty": "what an eye reads off a swatch, common practice",
    "apparent._WITH_LIGHTNESS": "as published; it acts on hair as the factor before it, which is moved",
    "apparent._YELLOW": "as published; where hair's hues lie it does as much as the share above",
    "difference.VISIBLE_LINE": "as published, for printed pictures; no threshold for hair was found",
    "dyes._DEEP_TO": "the trade does not say where deep reds end; at 4 a red of 6 turns by two degrees of hue",
    "dyes._UPTAKE": "its entries are moved one by one above; the middle one is the unit",
    "fade._SPEED": "the published ratio as it stands; how fast colour goes in is not seen in a finished colour",
    "fibre.SURFACE_MOST": "no brighter sample was found, and none says how much brighter there may be",
    "melanin._EUMELANIN_GREEN": "it only scales the units of pigment, which the depth of dark brown fixes again",
    "neutralise._USUAL_LIFT": "the base on which a shade is judged; the trade names none",
    "photo.CARD": "what a white card sends back, common practice",
    "photo._TOO_BRIGHT": "where a photograph's highlights are lost",
    "photo._TOO_DARK": "where a card is no card",
    "prediction.MEASURED_UP_TO": "what was measured, no part of the model",
    "prediction._SOME_WHITE": "from where a caution is said",
    "search.SEEN_APART": "the threshold of an eye, from memory",
    "spread.STRONG_LIFT": "common practice without a measurement",
    "spread._MOST_DEPTH": "how far a reading may lie off the scale, a choice",
    "swatch._PULL": "a choice between the swatch and the recipe",
}
"""Constant -> why nothing outside can notice it."""


def noticed(move: Move) -> list[str]:
    """The checks that fail when a constant is moved."""
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(PACKAGE, Path(folder) / "consult", ignore=shutil.ignore_patterns("__pycache__"))
        shutil.copytree(TESTS, Path(folder) / "tests", ignore=shutil.ignore_patterns("__pycache__"))
        shutil.copytree(TESTS.parent / "demo_clients", Path(folder) / "demo_clients")
        module = Path(folder) / "consult" / "colour" / f"{move.module}.py"
        text = module.read_text("utf-8")
        if text.count(move.before) != 1:
            raise ValueError(f"{move.module}: {move.before} does not stand there once")
        module.write_text(text.replace(move.before, move.after), "utf-8")
        command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "--tb=no", *ASKED]
        found = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
        return re.findall(r"^(?:FAILED|ERROR) (\S+)", found.stdout, re.M)


def main() -> int:
    """Print each constant with the number of checks that notice it, and the first. Returns how many none does.

    Names of modules narrow it down.
    """
    unseen = 0
    for move in (move for move in MOVES if move.module in (sys.argv[1:] or [move.module])):
        checks = noticed(move)
        unseen += not checks
        first = checks[0].split("/")[-1] if checks else "NOTHING"
        print(
            f"{move.module}: {move.before[:44]} -> {move.after.rsplit('(', 1)[-1][:12]}: {len(checks)}, {first}"
        )
    print(f"{len(MOVES)} moved, {unseen} unnoticed; {len(FREE)} free")
    return unseen


if __name__ == "__main__":
    sys.exit(main())
