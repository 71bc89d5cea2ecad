"""Developer: strengths and their conversion, dilution of a stronger to a weaker one, the legal limit."""

from msgspec import Struct

from consult.answers.units import volume_of_percent
from consult.sources import Number
from consult.trade import THRESHOLDS

LEGAL_LIMIT = THRESHOLDS["peroxide-limit"]
_MOLAR_MASS = Number(34.0147, "g/mol", "volume-strength")
_MOLAR_VOLUME = Number(22.41397, "l/mol", "volume-strength")
# Density of peroxide solutions at 20 °C, fitted to handbook values: g/cm3 over mass fraction.
_DENSITY = (
    Number(0.9982, "g/cm3", "from memory"),
    Number(0.3449, "g/cm3", "from memory"),
    Number(0.1069, "g/cm3", "from memory"),
)


def volume_of_wv(percent: float) -> float:
    """Volumes of oxygen of a percent w/v: 2 H2O2 give 2 H2O and O2, at 0 °C and 1 atm."""
    return percent * 10 / _MOLAR_MASS / 2 * _MOLAR_VOLUME


def density(mass_fraction: float) -> float:
    """g/cm3 of a peroxide solution at 20 °C, good to about 0.3 %."""
    a, b, c = _DENSITY
    return a + b * mass_fraction + c * mass_fraction**2


def wv_of_ww(percent: float) -> float:
    """Percent w/v of a percent w/w."""
    return percent * density(percent / 100)


class OutsideStrengths(ValueError):
    """A strength that two developers cannot make."""


class Dilution(Struct, frozen=True):
    """Grams of the stronger and of the weaker developer (or water) for a strength between them."""

    strong_g: float
    weak_g: float


def alligate(strong: float, weak: float, target: float, grams: float) -> Dilution:
    """Mix two strengths to a third between them: (target - weak) parts of strong to (strong - target).

    Raises OutsideStrengths when the target does not lie between the two.
    """
    if not weak <= target <= strong or strong == weak:
        raise OutsideStrengths(
            f"{target:g} % does not lie between {weak:g} % and {strong:g} %: no mixture of them makes it"
        )
    share = (target - weak) / (strong - weak)
    return Dilution(grams * share, grams * (1 - share))


def on_head(developer_percent: float, ratio: float) -> float:
    """Percent peroxide of the ready mix, `ratio` parts of developer to one of colour."""
    return developer_percent * ratio / (1 + ratio)


def strength_words(percent: float) -> str:
    """A strength as printed, with its true conversion."""
    return (
        f"{percent:g} % is {volume_of_percent(percent):g} vol ({volume_of_wv(percent):.1f} exactly); "
        f"if the bottle means by weight, {wv_of_ww(percent):.2f} % w/v"
    )
