"""The record: the answers, and everything computed from them with its reasons, as TOML."""

from typing import Any

import tomli_w

from consult.answers.access import as_data
from consult.answers.base import SCHEMA
from consult.consultation import Consultation
from consult.records.codec import plain, program
from consult.sources import UNPUBLISHED, cite


def dump_record(consultation: Consultation) -> str:
    """The whole record as TOML text: header, answers, and everything computed with its reasons."""
    header: dict[str, Any] = {
        "schema": SCHEMA,
        "program": program(),
        "consulted_at": consultation.now.replace(second=0, microsecond=0),
    }
    if consultation.answers.version < SCHEMA:
        # Read again, the answers are still those to the older questions.
        header["questions"] = consultation.answers.version
    return tomli_w.dumps(
        {"record": header, **plain(as_data(consultation.answers)), "result": result_data(consultation)}
    )


def result_data(consultation: Consultation) -> dict[str, Any]:
    """What was computed, as plain TOML data."""
    judged = consultation.judgement
    result: dict[str, Any] = {
        "verdict": consultation.verdict.word,
        "settled": judged.settled,
        "until": judged.until,
        "still_to_ask": list(judged.ask),
        "findings": consultation.findings,
        "strand": consultation.strand,
        "plan": consultation.plan,
        "forecast": consultation.forecast,
    }
    data: dict[str, Any] = plain(result)
    data["sources"] = {id_: cite(id_) for id_ in sorted(_source_ids(data)) if id_ not in UNPUBLISHED}
    return data


def _source_ids(data: Any) -> set[str]:
    if isinstance(data, dict):
        own = set(data["sources"]) if isinstance(data.get("sources"), list) else set()
        return own.union(*(_source_ids(value) for value in data.values()))
    if isinstance(data, list):
        return set().union(*(_source_ids(value) for value in data))
    return set()
