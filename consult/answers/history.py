"""What is still on the hair: every service of the last two years, and anything older."""

from datetime import date, timedelta
from typing import Annotated, Final, Literal

from pydantic import Field

from consult.answers.base import ALL, Asked, Day, Depth, Section, Several, YesNo, ask, known
from consult.answers.units import PeroxidePercent
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import COLOURS, LIGHTENED, OXIDATIVE, ServiceKind, Tone

MOST_OFTEN_WEEKS = Number(4, "weeks between colourings where the habit is not known", COMMON_PRACTICE)
OLDEST_HAIR_YEARS = Number(10, "years that a habit may go back where nobody knows", ASSUMPTION)
MOST_TIMES: Final = 300
ServiceStretch = Literal["new growth", "new growth and lengths", "all over", "lengths", "ends", "strands"]
SERVICE_HINTS: Final[dict[str, str]] = {
    "permanent colour": "two parts mixed; grows out, does not wash out",
    "demi-permanent colour": "two parts mixed, weak developer; fades in up to 24 washes",
    "semi-permanent colour": "no mixing; fades in 6 to 8 washes",
    "plain henna": "pure leaf powder, nothing added",
    "compound or unknown henna": "henna with anything added, or not known",
    "progressive colour (restorer)": "darkens a little with every use",
    "relaxer, hydroxide": "lye or no-lye",
    "relaxer, thio": "thioglycolate",
}
"""How to tell a service, wherever one is picked."""


class Service(Section):
    """One service that is still on the hair."""

    kind: Asked[ServiceKind] = ask(
        "What was done?",
        "What was done?",
        short="What",
        hints=SERVICE_HINTS,
        past=True,
        clear=["permanent colour", "demi-permanent colour", "semi-permanent colour"],
    )
    on: Asked[Day] = ask(
        "When?",
        "When was it, about?",
        short="On",
        how_to_tell='An estimate is enough, for example "3 months ago"; in doubt take the later date.',
        past=True,
    )
    stretch: Asked[ServiceStretch] = ask(
        "On which stretch of the hair?",
        "On which part of the hair?",
        short="Where",
        hints={
            "new growth": "only what had grown since the time before",
            "new growth and lengths": "new growth, then drawn through",
            "strands": "foils, slices, face-framing",
        },
        past=True,
        clear=ALL,
    )
    depth: Asked[Depth] = ask(
        "Depth of the shade (or reached by the lightener)",
        "Number of the shade's lightness, 1 black to 10 lightest blonde",
        short="Depth",
        how_to_tell="The number on the pack, not the name: names differ between scales.",
        only_if=("kind", [*COLOURS, *LIGHTENED]),
        past=True,
        clear=ALL,
    )
    tone: Asked[Tone] = ask(
        "Tone family of the shade",
        "Tone of the shade",
        short="Tone",
        only_if=("kind", COLOURS),
        past=True,
        clear=ALL,
    )
    developer_percent: Asked[PeroxidePercent] = ask(
        "Developer strength",
        "Strength of the developer, from the pack",
        short="Developer",
        unit="% (or vol)",
        only_if=("kind", OXIDATIVE),
        past=True,
        optional=True,
        clear=ALL,
    )
    by: Asked[Literal["a salon", "at home"]] = ask("Done by", "Who did it?", short="By", past=True, clear=ALL)
    regular: Asked[YesNo] = ask(
        "The same done regularly before that?",
        "Was the same done again and again before that?",
        short="Regular",
        how_to_tell="Then one entry stands for all of them: the date above is the last time.",
        past=True,
        optional=True,
        since=4,
        clear=ALL,
    )
    every_weeks: Asked[Annotated[int, Field(ge=1, le=52)]] = ask(
        "Every how many weeks?",
        "Every how many weeks, about?",
        short="Every",
        unit="weeks",
        only_if=("regular", ["yes"]),
        past=True,
        since=4,
        clear=ALL,
    )
    first_on: Asked[Day] = ask(
        "Since when?",
        "Since when, about?",
        short="Since",
        how_to_tell="The first time. In doubt take the earlier date.",
        only_if=("regular", ["yes"]),
        past=True,
        since=4,
        clear=ALL,
    )


def each_time(service: Service) -> tuple[Service, ...]:
    """A service that was done regularly as its single times, the last one first.

    In doubt it was done often and for as long as hair lasts: what is not known adds passes, never takes any away.
    """
    if service.regular != "yes" or not isinstance(service.on, date):
        return (service,)
    weeks = known(service.every_weeks) or MOST_OFTEN_WEEKS
    first = known(service.first_on) or service.on - timedelta(days=round(OLDEST_HAIR_YEARS * 365.25))
    times = max((service.on - first).days, 0) // (int(weeks) * 7) + 1
    return tuple(
        service.model_copy(update={"on": service.on - timedelta(weeks=int(weeks) * number), "regular": None})
        for number in range(min(times, MOST_TIMES))
    )


class History(Section):
    services: Asked[Annotated[Several[Service], Field(max_length=100)]] = ask(
        "Every service of the last two years, and anything older still on the hair",
        "Everything done to this hair in the last two years, and anything older that has not been cut off",
        short="Services",
        how_to_tell="Colour, bleach, henna, colour restorer, perm, relaxer, straightening. "
        "Hair grows a bit over 1 cm a month, so 30 cm of hair remembers about two years.",
        past=True,
    )
    known_months: Asked[Annotated[int, Field(ge=0, le=600)] | Literal["all of it"]] = ask(
        'For how many months back is the history known? "all of it" for the whole life of this hair',
        'For how many months back can you be sure of this list? "all of it" for the whole life of this hair',
        short="Known back",
        unit="months",
        how_to_tell="From the first to the last month you can vouch for.",
        past=True,
        clear=["all of it"],
    )
    washes_per_week: Asked[Annotated[float, Field(ge=0, le=14)]] = ask(
        "Washes a week",
        "How often is the hair washed in a week?",
        short="Washes",
        unit="a week",
        optional=True,
        clear=ALL,
    )
    needs_correction: Asked[YesNo] = ask(
        "Bands, patches or a failed colour to be corrected?",
        "Are there bands or patches of different colour, or did a colouring go wrong?",
        short="Bands, patches",
        clear=["no"],
    )
