"""The record: the answers, and everything computed from them with its reasons, as TOML.

All that turns the program's own values into what stands in a file is here.
"""

from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any, get_args

import tomli_w

from consult.answers.access import as_data
from consult.answers.base import SCHEMA
from consult.consultation import Consultation
from consult.gates.judge import Finding
from consult.gates.verdict import Verdict
from consult.records.codec import Loaded, header_data, program
from consult.records.models import FindingEntry, Header, Outcome, VerdictWord
from consult.salon import SalonConfig
from consult.sources import UNPUBLISHED, cite


def dump_record(consultation: Consultation) -> str:
    """The whole record as TOML text: header, answers, the salon's own rules, and what came of them."""
    version = consultation.answers.version
    header = Header(
        program=program(),
        consulted_at=consultation.now,
        # Read again, the answers are still those to the older questions.
        questions=version if version < SCHEMA else None,
    )
    own = _own_rules(consultation.salon)
    return tomli_w.dumps(
        {
            "record": header_data(header),
            **as_data(consultation.answers),
            **({"salon": own} if own else {}),
            "result": result_data(consultation),
        }
    )


def result_data(consultation: Consultation) -> dict[str, Any]:
    """What was computed, as it stands under `[result]`."""
    computed = _computed(consultation)
    findings = [_finding(finding) for finding in consultation.findings]
    cited = _source_ids(computed).union(*(finding.sources for finding in findings))
    outcome = Outcome(
        verdict=_word(consultation.verdict),
        settled=consultation.judgement.settled,
        until=consultation.judgement.until,
        still_to_ask=[str(path) for path in consultation.judgement.ask],
        findings=findings,
        sources={id_: cite(id_) for id_ in sorted(cited) if id_ not in UNPUBLISHED},
    )
    data = outcome.model_dump(exclude_none=True)
    return {**data, **computed}


def salon_of(loaded: Loaded) -> SalonConfig | None:
    """The salon's rules and settings that a record was judged by; None when there were none of its own.

    Raises BadConfig when they cannot be used.
    """
    from consult import salon

    read = getattr(salon, "config_from_data", None)
    config: SalonConfig | None = read(loaded.salon) if read and loaded.salon else None
    return config


def _own_rules(salon: SalonConfig) -> dict[str, Any]:
    own: dict[str, Any] = getattr(salon, "own", None) or {}
    return own


def _finding(finding: Finding) -> FindingEntry:
    return FindingEntry(
        rule=finding.rule,
        verdict=_word(finding.verdict),
        trade=finding.trade,
        plain=finding.plain,
        remedy=finding.remedy,
        sources=list(finding.sources),
        evidence=[str(path) for path in finding.evidence],
        in_doubt=finding.in_doubt,
        until=finding.until,
        until_words=finding.until_words,
    )


def _word(verdict: Verdict) -> VerdictWord:
    return next(word for word in get_args(VerdictWord) if word == verdict.word)


def _source_ids(data: Any) -> set[str]:
    if isinstance(data, dict):
        own = set(data["sources"]) if isinstance(data.get("sources"), list) else set()
        return own.union(*(_source_ids(value) for value in data.values()))
    if isinstance(data, list):
        return set().union(*(_source_ids(value) for value in data))
    return set()


# --- what has no model of its own yet ---------------------------------------------------------------


def _computed(consultation: Consultation) -> dict[str, Any]:
    """Strand, plan and forecast, attribute by attribute."""
    found = {"strand": consultation.strand, "plan": consultation.plan, "forecast": consultation.forecast}
    data: dict[str, Any] = _plain(found)
    return data


def _plain(value: Any) -> Any:
    """Dataclasses, enums and tuples as TOML knows them; what is None is left out."""
    if isinstance(value, Verdict):
        return value.word
    if isinstance(value, Enum):
        return value.value
    if is_dataclass(value) and not isinstance(value, type):
        return _plain({f.name: _as_declared(f.type, getattr(value, f.name)) for f in fields(value)})
    if isinstance(value, dict):
        return {str(key): _plain(item) for key, item in value.items() if item is not None}
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    if isinstance(value, float):
        return round(float(value), 3)
    return value


def _as_declared(declared: object, value: Any) -> Any:
    """A whole number where a float is declared is written as a float: 5 and 5.0 are one depth to a cache, and
    a record may not depend on which of the two was met first."""
    return (
        float(value)
        if declared in (float, "float", float | None, "float | None") and value is not None
        else value
    )
