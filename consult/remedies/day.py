"""The log of a day: what was done, what came out, and what went wrong. It stands as `[day]` in a record.

Nothing in it is ever guessed: what nobody wrote down is None, and counts as unknown.
"""

from typing import Annotated, Any, Final, get_args

from pydantic import Field, ValidationError

from consult.answers.base import NOT_SURE, Asked, Depth, Moment, Section, Several, YesNo, ask
from consult.answers.health import ReactionSign
from consult.answers.history import SERVICE_HINTS, ServiceStretch
from consult.answers.units import Minutes, Percent
from consult.remedies.words import SKINS, WHATS, WHENS, Skin, What, When
from consult.trade import ServiceKind, Tone

SIGNS: Final[tuple[str, ...]] = get_args(ReactionSign)
MOST_GRAMS: Final = 2_000
"""Grams of mix for one head; far more than the longest hair takes."""


class DayLog(Section):
    """What was done on a day and what came of it. Depths 1 to 10, minutes, grams, percent."""

    what: Asked[Several[What]] = ask(
        "What went wrong?",
        "What went wrong?",
        short="Wrong",
        how_to_tell="Tick all there is, then Enter.",
        hints={
            "itching or a rash": "or burning, blisters, swelling",
            "gummy or breaking": "stretches like gum when wet, or snaps",
            "too warm": "orange, yellow or red",
            "too ash or green": "grey, blue or green",
            "hot roots": "the roots are brighter or warmer than the rest",
            "bands": "a stripe across the lengths",
            "patches": "spots of another colour",
            "missed white": "white hairs still show",
            "ends grabbed": "the ends came out darker than the rest",
            "nothing took": "it looks as before",
        },
    )
    when: Asked[When] = ask(
        "When did it show?",
        "When did it show?",
        short="When",
        hints={
            "today": "now, or within the hour after the rinse",
            "tonight": "hours later",
            "days": "in the days after",
        },
    )
    skin: Asked[Skin] = ask(
        "Scalp and skin now?", "How are scalp and skin now?", short="Skin now", sensitive=True
    )
    signs: Asked[Several[ReactionSign]] = ask(
        "Which signs?",
        "Which of these do you see or feel? None is an answer too.",
        short="Signs",
        sensitive=True,
    )
    done_at: Asked[Moment] = ask("Coloured at", "When was the colour put on?", short="Done at")
    kind: Asked[ServiceKind] = ask("What was done?", "What was done?", short="Done", hints=SERVICE_HINTS)
    stretch: Asked[ServiceStretch] = ask(
        "On which stretch of the hair?", "On which part of the hair?", short="Where"
    )
    minutes_new_growth: Asked[Minutes] = ask(
        "Minutes on the new growth", "Minutes on the new growth", short="New growth", unit="min"
    )
    minutes_lengths: Asked[Minutes] = ask(
        "Minutes on the lengths (0 when none went there)",
        "Minutes on the lengths (0 when none went there)",
        short="Lengths",
        unit="min",
    )
    minutes_putting_on: Asked[Minutes] = ask(
        "Minutes to put colour on 1 to 2 cm of new growth, as timed",
        "How many minutes does it take to put colour on the new growth, as timed that day?",
        short="Pace",
        unit="min",
    )
    mixed_g: Asked[Annotated[float, Field(ge=0, le=MOST_GRAMS)]] = ask(
        "Mix used", "How much mix was used?", short="Mix", unit="g"
    )
    overlap: Asked[YesNo] = ask(
        "Drawn onto hair that was coloured before, beyond the plan?",
        "Did colour get onto hair that was coloured before, beyond the plan?",
        short="Overlap",
    )
    new_growth_depth: Asked[Depth] = ask(
        "Depth of the new growth now", "How dark is the new growth now, 1 to 10?", short="New growth depth"
    )
    new_growth_tone: Asked[Tone] = ask(
        "Tone of the new growth now", "Which tone has it?", short="New growth tone"
    )
    lengths_depth: Asked[Depth] = ask(
        "Depth of the lengths now", "How dark are the lengths now, 1 to 10?", short="Lengths depth"
    )
    lengths_tone: Asked[Tone] = ask("Tone of the lengths now", "Which tone have they?", short="Lengths tone")
    ends_depth: Asked[Depth] = ask(
        "Depth of the ends now", "How dark are the ends now, 1 to 10?", short="Ends depth"
    )
    ends_tone: Asked[Tone] = ask("Tone of the ends now", "Which tone have they?", short="Ends tone")
    white_left: Asked[Percent] = ask(
        "White hairs that still show",
        "Of a hundred white hairs, how many still show?",
        short="White left",
        unit="%",
    )

    @property
    def faults(self) -> tuple[What, ...]:
        """What went wrong, the gravest first; empty where nobody said."""
        told = self.what if isinstance(self.what, tuple) else ()
        return tuple(what for what in WHATS if what in told)

    @property
    def reacted(self) -> bool:
        """Skin, breath or hair reacted to the colour; any sign counts, however mild."""
        signs = self.signs if isinstance(self.signs, tuple) else ()
        hurt = self.skin in ("irritated", "broken or blistered")
        return "itching or a rash" in self.faults or hurt or bool(signs)

    @property
    def in_doubt(self) -> bool:
        """Nobody is sure whether there was a reaction."""
        return not self.reacted and NOT_SURE in (self.signs, self.skin)


class BadDay(ValueError):
    """A log that cannot be read; one line that names the entry and does not repeat what stands there."""


def day_from_data(data: object) -> DayLog:
    """A log from plain data. Raises BadDay."""
    if not isinstance(data, dict):
        raise BadDay("[day] must be a table")
    try:
        return DayLog.model_validate(data)
    except ValidationError as error:
        place = error.errors(include_input=False, include_url=False, include_context=False)[0]["loc"]
        name = str(place[0])
    if name not in DayLog.model_fields:
        raise BadDay("day: there is an entry that belongs to no log of a day")
    raise BadDay(f"day.{name}: {_right(name)}")


def _right(name: str) -> str:
    """What is right for an entry."""
    listed: dict[str, tuple[str, ...]] = {"what": WHATS, "when": WHENS, "skin": SKINS, "signs": SIGNS}
    if name in listed:
        return (
            "expected "
            + ("a list from: " if name in ("what", "signs") else "one of: ")
            + ", ".join(listed[name])
        )
    field = DayLog.model_fields[name]
    extra = field.json_schema_extra
    unit = extra.get("unit") if isinstance(extra, dict) else ""
    return f"expected an answer to: {field.description}" + (f" In {unit}." if unit else "")


def day_data(day: DayLog) -> dict[str, Any]:
    """The log as it stands in a file."""
    return day.model_dump(exclude_none=True)
