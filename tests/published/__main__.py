"""The table of measured hair: `python -m tests.published`, or with `--write` into docs/measured.md."""

import sys
from pathlib import Path

from tests.published.measured import held, left_over, on_the_ladder, samples, spectra, with_free_melanins
from tests.published.values import published

DOCUMENT = Path(__file__).parents[2] / "docs" / "measured.md"

HEAD = """# The model beside measured hair

Written by `python -m tests.published --write`. Nothing here was used to choose a constant, but for the rows marked
"fitted". A sample is read to half a level and a natural tone, as a colourist would, and the colour forecast for that
reading is held against the instrument; "band" is what the program itself states for it.
"""

BLACK = """What is missed in black hair is surface light: {usual:.1f} with the light that hair usually sends back from
its surface, {own:.1f} with the little that this sample does. No pigment mends it (black, in the next table): hair
that takes in all light that enters still shows its shine, and shine differs from sample to sample."""


def _row(*cells: object) -> str:
    return "| " + " | ".join(str(cell) for cell in cells) + " |"


def _lab(colour: tuple[float, float, float]) -> str:
    return " ".join(f"{value:.1f}" for value in colour)


def table() -> str:
    """The whole document."""
    lines = [HEAD, "## Natural hair", ""]
    lines += [
        _row("sample", "source", "read as", "measured L* a* b*", "predicted", "difference", "band", "within")
    ]
    lines += [_row(*["---"] * 8)]
    for sample in samples():
        h = held(sample)
        lines.append(
            _row(
                sample.name + (" (fitted)" if sample.fitted else ""), sample.source, h.reading, _lab(sample.colour),
                _lab(h.predicted), f"{h.difference:.1f}", f"{h.band:.1f}", "in" if h.within else "OUT",
            )
        )  # fmt: skip
    lines += ["", "The model's own error, with the best reading and the sample's own surface light:", ""]
    lines += [_row("sample", "difference left"), _row("---", "---")]
    lines += [_row(sample.name, f"{left_over(sample):.2f}") for sample in samples()]
    black = next(sample for sample in samples() if not sample.fitted and sample.name == "black hair")
    lines += ["", BLACK.format(usual=held(black).difference, own=left_over(black))]
    lines += ["", "## Spectra", ""]
    lines += [
        _row(
            "sample",
            "nearest depth of the ladder",
            "both melanins free",
            "rms of the spectrum, melanins free",
        ),
        _row(*["---"] * 4),
    ]
    for name, spectrum in spectra().items():
        colour = next(s.colour for s in samples() if s.name == f"{name} hair")
        apart, rms = with_free_melanins(spectrum)
        lines.append(_row(name, f"{on_the_ladder(colour):.2f}", f"{apart:.2f}", f"{rms * 100:.1f} %"))
    lines += ["", "## Other published values", ""]
    lines += [_row("what", "source", "published", "predicted", "within"), _row(*["---"] * 5)]
    lines += [
        _row(
            v.what,
            v.source,
            f"{v.low:g} to {v.high:g} {v.unit}",
            f"{v.predicted:.2f}",
            "in" if v.within else "OUT",
        )
        for v in published()
    ]
    return "\n".join(lines) + "\n"


def main() -> None:
    text = table()
    if "--write" in sys.argv[1:]:
        DOCUMENT.parent.mkdir(exist_ok=True)
        DOCUMENT.write_text(text, "utf-8")
    print(text)


if __name__ == "__main__":
    main()
