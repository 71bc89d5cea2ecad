"""The exposure ledger: oxidative passes and peroxide-minutes of every band, before and after the plan."""

from collections.abc import Iterable

from msgspec import Struct

from consult.head.bands import Band, Head
from consult.plan.application import Applications, Which, areas_under, reaching
from consult.plan.lines import Line, line
from consult.sources import ASSUMPTION, Number
from consult.trade import BEYOND, Stretch, Zone

CLEAR_DAMAGE_FROM = Number(3, "passes over one band", "repeat-dyeing-2024")


class Account(Struct, frozen=True):
    """One band of some zones: passes and peroxide-minutes (percent on the head times minutes), now and then."""

    zones: tuple[Zone, ...]
    start_cm: float
    end_cm: float
    stretch: Stretch
    passes: int
    passes_after: int
    peroxide_minutes: float
    peroxide_minutes_after: float


def keep_ledger(head: Head, applications: Applications) -> tuple[Account, ...]:
    """One account a band; bands that are alike in several areas share one.

    What only white hairs get, such as developer that opens them, counts for the band all the same.
    """
    found: dict[tuple[object, ...], tuple[tuple[Zone, ...], Account]] = {}
    for area in areas_under(head, applications):
        for band in area.strand.bands:
            account = _account(band, area.zones, applications)
            key = (band.start_cm, account.passes_after, account.peroxide_minutes_after)
            zones = (*found[key][0], *area.zones) if key in found else area.zones
            found[key] = (zones, account)
    return tuple(Account(zones, *(getattr(a, name) for name in _VALUES)) for zones, a in found.values())


_VALUES = (
    "start_cm",
    "end_cm",
    "stretch",
    "passes",
    "passes_after",
    "peroxide_minutes",
    "peroxide_minutes_after",
)


def _account(band: Band, zones: tuple[Zone, ...], applications: Applications) -> Account:
    mine = reaching(applications, band, zones)
    passes = sum(a.bowl.product.passes for a in mine if a.target.which is not Which.WHITE)
    minutes = sum(a.bowl.product.peroxide_on_head * a.minutes for a in mine)
    return Account(
        zones,
        band.start_cm,
        band.end_cm,
        band.stretch,
        band.passes,
        band.passes + passes,
        round(band.peroxide_minutes, 1),
        round(band.peroxide_minutes + minutes, 1),
    )


def worn(accounts: Iterable[Account]) -> bool:
    """Whether any of the lengths and ends has had as many passes in the end as make damage clear."""
    return any(a.stretch in BEYOND and a.passes_after >= CLEAR_DAMAGE_FROM for a in accounts)


def ledger_lines(accounts: tuple[Account, ...]) -> tuple[Line, ...]:
    """One line an account; from the third pass over a band it says so."""
    return tuple(
        line(
            f"{a.start_cm:g} to {a.end_cm:g} cm ({_where(a)}): {a.passes} oxidative pass{_es(a.passes)} so far, "
            f"{a.passes_after} after this plan; peroxide-minutes {a.peroxide_minutes:.0f}, then "
            f"{a.peroxide_minutes_after:.0f}.{_warning(a, 'pass')}",
            "Percent peroxide on the head times minutes, over the whole known history of this hair; what the "
            "history does not tell is estimated.",
            ("repeat-dyeing-2024", ASSUMPTION),
            plain=f"{a.start_cm:g} to {a.end_cm:g} cm from the scalp ({_where(a)}): coloured with developer "
            f"{times_words(a.passes)} so far, {times_words(a.passes_after)} after this.{_warning(a, 'colouring')}",
            plain_because="Every colouring with developer wears the hair a little; it adds up.",
        )
        for a in accounts
    )


def _where(account: Account) -> str:
    zones = "" if set(account.zones) == set(Zone) else ", " + ", ".join(z.value for z in account.zones)
    return account.stretch.value + zones


def _warning(account: Account, what: str) -> str:
    if account.passes_after < CLEAR_DAMAGE_FROM or account.passes_after == account.passes:
        return ""
    return f" From the third {what} on damage becomes clear: leave this stretch out next time."


def _es(count: int) -> str:
    return "" if count == 1 else "es"


def times_words(count: int) -> str:
    return {0: "never", 1: "once", 2: "twice"}.get(count, f"{count} times")
