"""Every source that is cited exists, and every one that exists is cited."""

import re
from pathlib import Path

import consult
from consult.gates.rules import builtin_rules
from consult.sources import Number, is_source, sources

PACKAGE = Path(consult.__file__).parent


def program_text() -> str:
    return "\n".join(path.read_text("utf-8") for path in PACKAGE.rglob("*.py"))


def test_every_number_names_its_unit_and_a_source_that_exists() -> None:
    text = program_text()
    named = re.findall(r'Number\(\s*[^"]*?,\s*"([^"]+)",\s*(?:"([\w-]+)"|([A-Z_]+))\s*\)', text, re.S)
    assert len(named) > 80
    for unit, source, mark in named:
        assert unit
        assert mark in ("COMMON_PRACTICE", "ASSUMPTION", "FROM_MEMORY") or is_source(source), (unit, source)


def test_every_source_is_cited_somewhere() -> None:
    text = program_text() + "".join(
        path.read_text("utf-8")
        for folder in (PACKAGE / "gates" / "rules", PACKAGE / "remedies" / "tables")
        for path in folder.glob("*.toml")
    )
    assert [id_ for id_ in sources() if id_ not in text] == []


def test_every_source_says_what_who_where_and_how_it_was_read() -> None:
    for id_, entry in sources().items():
        assert set(entry) == {"title", "by", "where", "status"}, id_
        assert all(entry.values()), id_


def test_rules_cite_only_what_exists() -> None:
    for rule in builtin_rules():
        assert all(is_source(source) for source in rule.sources), rule.id


def test_a_number_computes_like_a_float_and_keeps_its_source() -> None:
    twelve = Number(12, "%", "eu-1223-annex-iii")
    assert twelve / 2 == 6
    assert (twelve.unit, twelve.source) == ("%", "eu-1223-annex-iii")
