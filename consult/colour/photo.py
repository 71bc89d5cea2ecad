"""Colours off a photograph of a swatch chart with a white card in it. Pillow is an optional extra, loaded here only.

The card says how bright and how coloured the light was: every patch is divided by it, channel by channel, so a
photograph in lamplight or shade gives the colour in daylight, as far as three channels can.
"""

from pathlib import Path

import numpy as np
from msgspec import Struct

from consult.answers.typed_colour import lab_of_linear
from consult.colour.cie import Floats
from consult.colour.values import Lab
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

CARD = Number(0.9, "share of light that a white card sends back", COMMON_PRACTICE)
_TOO_BRIGHT = Number(0.995, "of the brightest a photograph can hold", ASSUMPTION)
_TOO_DARK = Number(0.2, "of the brightest, linear light", ASSUMPTION)
_LARGEST = 50_000_000
"""Pixels: more is no photograph of a chart."""


class BadPhoto(Exception):
    """The photograph cannot be used; the text says why and what would help."""


class Box(Struct, frozen=True):
    """A rectangle of a photograph, in pixels from its upper left corner."""

    left: int
    top: int
    width: int
    height: int


def read_patches(path: Path, card: Box, patches: list[Box]) -> list[Lab]:
    """CIELAB of each patch of a photograph. Raises BadPhoto."""
    image = _linear(path)
    white = _mean(image, card, "the white card")
    if white.max() > float(_TOO_BRIGHT):
        raise BadPhoto("the white card is overexposed; photograph it darker")
    if white.min() < float(_TOO_DARK):
        raise BadPhoto("what was named as the white card is dark; give the card's place, or more light")
    found = []
    for number, patch in enumerate(patches, 1):
        light = _mean(image, patch, f"swatch {number}") / white * float(CARD)
        found.append(lab_of_linear((float(light[0]), float(light[1]), float(light[2]))))
    return found


def _mean(image: Floats, box: Box, name: str) -> Floats:
    """Median linear light (3,) of a box: a hair of shine or of shadow does not count."""
    height, width = image.shape[:2]
    if box.left < 0 or box.top < 0 or box.left + box.width > width or box.top + box.height > height:
        raise BadPhoto(f"{name} lies outside the photograph, which is {width} by {height}")
    if box.width < 4 or box.height < 4:
        raise BadPhoto(f"{name} is too small; mark at least 4 by 4 pixels")
    part = image[box.top : box.top + box.height, box.left : box.left + box.width]
    return np.asarray(np.median(part.reshape(-1, 3), axis=0))


def _linear(path: Path) -> Floats:
    """Linear sRGB light (height, width, 3) of a photograph."""
    try:
        from PIL import Image, ImageOps, UnidentifiedImageError
    except ImportError:
        raise BadPhoto("reading photographs needs Pillow: pip install 'consult[photo]'") from None
    try:
        with Image.open(path) as opened:
            if opened.width * opened.height > _LARGEST:
                raise BadPhoto("the photograph is larger than 50 megapixels; make it smaller")
            channels = np.asarray(ImageOps.exif_transpose(opened).convert("RGB"), dtype=np.float32) / 255
    except FileNotFoundError:
        raise BadPhoto("there is no such file") from None
    except (OSError, UnidentifiedImageError, Image.DecompressionBombError, ValueError):
        raise BadPhoto("this is no photograph that can be read; JPEG and PNG can") from None
    return np.where(channels <= 0.04045, channels / 12.92, ((channels + 0.055) / 1.055) ** 2.4)
