"""The record: the answers, and everything computed from them with its reasons, as TOML.

All that turns the program's own values into what stands in a file is here.
"""

import json
from typing import Any, get_args

import tomli_w

from consult.answers.access import as_data
from consult.answers.base import SCHEMA
from consult.consultation import Consultation
from consult.gates.judge import Finding
from consult.gates.verdict import Verdict
from consult.records.codec import Loaded, header_data, program
from consult.records.models import FileModel, FindingEntry, Header, Outcome, VerdictWord
from consult.records.plan_entries import forecast_entry, head_entry, plan_entry
from consult.remedies.day import DayLog, day_data
from consult.salon import SalonConfig, config_from_data
from consult.sources import UNPUBLISHED, cite


def dump_record(consultation: Consultation, day: DayLog | None = None) -> str:
    """The whole record as TOML text, with the log of a day that went wrong where there is one."""
    return tomli_w.dumps(_data(consultation, day))


def dump_json(consultation: Consultation) -> str:
    """The whole record as JSON text; days and moments as ISO 8601."""
    return json.dumps(
        _data(consultation), indent=2, ensure_ascii=False, default=lambda when: when.isoformat()
    )


def _data(consultation: Consultation, day: DayLog | None = None) -> dict[str, Any]:
    """Header, answers, the log of a day, the salon's own rules, and what came of them."""
    version = consultation.answers.version
    header = Header(
        program=program(),
        consulted_at=consultation.now,
        # Read again, the answers are still those to the older questions.
        questions=version if version < SCHEMA else None,
    )
    own = dict(consultation.salon.own)
    return {
        "record": header_data(header),
        **as_data(consultation.answers),
        **({"day": day_data(day)} if day else {}),
        **({"salon": own} if own else {}),
        "result": result_data(consultation),
    }


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
    return config_from_data(loaded.salon, "the record's [salon]") if loaded.salon else None


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


def _computed(consultation: Consultation) -> dict[str, Any]:
    """Head, plan and forecast, each by its own model; what is None is left out."""
    entries: dict[str, FileModel] = {"plan": plan_entry(consultation.plan)}
    if consultation.head:
        entries["head"] = head_entry(consultation.head)
    if consultation.forecast:
        entries["forecast"] = forecast_entry(consultation.forecast)
    return {name: entry.model_dump(exclude_none=True) for name, entry in entries.items()}
