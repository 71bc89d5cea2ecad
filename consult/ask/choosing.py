"""Which of the answers that are offered a typed line picks, by key or by word."""

import re
from collections.abc import Sequence
from typing import Any

from consult.answers.access import BadAnswer
from consult.answers.base import NOT_SURE
from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind
from consult.interview.reading import UNSURE
from consult.interview.rows import UNSURE_KEY, Option, Row

SHORTEST_WORD = 2


def chosen(row: Row, options: Sequence[Option], text: str) -> Option:
    """The option of a key, of its words, or of the only words that begin so. Raises BadAnswer, naming the choice."""
    said = text.lower()
    for fits in (
        [option for option in options if said == option.key],
        [option for option in options if said == option.text.lower()],
        [option for option in options if len(said) >= SHORTEST_WORD and option.text.lower().startswith(said)],
    ):
        if len(fits) == 1:
            return fits[0]
        if fits:
            raise BadAnswer(row.path, "which: " + ", or ".join(f"{o.key} {o.text}" for o in fits) + "?")
    keys = "".join(option.key for option in options)
    raise BadAnswer(row.path, f"type one of the keys {', '.join(keys)}; or ? for not sure")


def signs_in(rows: Sequence[Row], text: str) -> list[tuple[Row, Any]]:
    """Every (row, choice) that a line names: "1 3", "1,3", "redness"; "?" or "?3" is not sure of a row.

    Raises BadAnswer when any part of the line is none of them; then none counts.
    """
    every = [(row, option) for row in rows for option in row.options]
    if text.lower() in UNSURE:
        if len(rows) > 1:
            raise BadAnswer(
                rows[0].path, "not sure of which? Type ? and a key of it, such as ?" + every[0][1].key
            )
        return [(rows[0], NOT_SURE)]
    options = [option for _, option in every]
    words = [part for part in re.split(r"[\s,;]+", text) if part]
    keys = {option.key for option in options}
    single = all(word.removeprefix(UNSURE_KEY) in keys for word in words)
    found = []
    for word in words if single else [part.strip() for part in re.split("[,;]", text) if part.strip()]:
        option = chosen(rows[0], options, word.removeprefix(UNSURE_KEY).strip())
        row = next(row for row, one in every if one is option)
        found.append((row, NOT_SURE if word.startswith(UNSURE_KEY) else option.value))
    return found


def toggled(rows: Sequence[Row], signs: Sequence[tuple[Row, Any]]) -> dict[AnswerPath, Any]:
    """The answers of rows after each sign was ticked, or taken back where it was; None where nothing is left."""
    values = {row.path: row.value for row in rows}
    for row, value in signs:
        before = values[row.path]
        if value == NOT_SURE or row.kind is not Kind.SEVERAL:
            values[row.path] = None if before == value else value
        else:
            given = before if isinstance(before, tuple) else ()
            ticked = tuple(one for one in row.question.choices if (one in given) != (one == value))
            values[row.path] = ticked or None
    return {row.path: values[row.path] for row in rows if values[row.path] != row.value}
