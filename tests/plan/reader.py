"""A reader of written plans that shares no code with what writes them: `python -m tests.plan.reader 5000`.

It takes the TOML text of a record and the rule tables as files, and looks for whatever does not agree: a finding
and the plan below it, the leaflet's minutes by its own way of counting, the life of a mix, what is mixed and what
is bought, the ledger, the forecast, and the words of the steps. What it expects is common practice, or stands in
the leaflet that the record holds.
"""

import re
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from tests.plan.reader_names import names

RULES = Path(__file__).parents[2] / "consult" / "gates" / "rules"
MIX_LIFE = 30
"""Minutes a mix is used where its leaflet says nothing (common practice)."""
APART = 20
"""Minutes between first and last hair where a leaflet does not say how it counts (the program's own promise)."""
SAME_COLOUR = 2.5
"""A colour difference that is told as "the goal, as far as can be told"."""
PROFESSIONALS = ("a licensed colourist", "a trainee under supervision")
BESIDE = ("filler", "3 % developer")
"""What goes on beside the colour and has a leaflet of its own."""
STRETCHES = ("at the scalp", "new growth", "lengths", "ends")
ZONES = ("front hairline", "temples", "crown", "nape")

Table = dict[str, Any]


def effects() -> dict[str, Table]:
    """Rule id -> the effect that its table declares."""
    found = {}
    for path in RULES.glob("*.toml"):
        for rule in tomllib.loads(path.read_text("utf-8")).get("rule", []):
            found[rule["id"]] = rule.get("effect", {})
    return found


EFFECTS = effects()


def contradictions(text: str) -> list[str]:
    """Everything in a record that does not agree; nothing for a record without a made plan but what it may not
    print."""
    record = tomllib.loads(text)
    result = record["result"]
    plan = result["plan"]
    if plan["outcome"] != "made":
        return list(_held(result))
    return [
        *_clock(record),
        *_mixes(record),
        *_findings(record),
        *_steps(record),
        *_ledger(record),
        *_forecast(record),
        *_sections(record),
        *names(record),
    ]


def _held(result: Table) -> Iterator[str]:
    """What may not stand in a plan that is not carried out."""
    plan = result["plan"]
    verdicts = {finding["verdict"] for finding in result["findings"]}
    if verdicts - {"wait", "test_first", "caution"} and "prepare" in plan:
        yield "a hold that no waiting cures tells what to buy"
    if plan.get("held_by") == ["shade-misses-depth"] and "forecast" in result:
        coloured = [band["stages"][-1] for band in result["forecast"]["bands"] if len(band["stages"]) > 1]
        goal = [last for last in coloured if last["to_goal"] < SAME_COLOUR]
        # The shade is held against the hair that is not white, however much is.
        goal = [last for last in goal if last["pigmented"]["depth"] == last["seen"]["depth"]]
        if coloured and len(goal) == len(coloured):
            yield "the shade is said to miss the goal, and the goal itself is foreseen"
    if result["verdict"] in ("clear", "caution") and plan["outcome"] == "held" and not plan.get("ask"):
        yield f"a plan is held under the verdict {result['verdict']}"


def _leaflet(record: Table, application: Table) -> Table | None:
    """The answers about the product that an application puts on; None for what goes on beside the colour."""
    if application["product"] in BESIDE:
        return None
    two = record["goal"].get("lengths_product") == "yes"
    on_lengths = set(application["stretches"]) <= {"lengths", "ends"}
    found: Table = record["lengths_product"] if two and on_lengths else record["product"]
    return found


def _clock(record: Table) -> Iterator[str]:
    for application in record["result"]["plan"]["applications"]:
        leaflet = _leaflet(record, application)
        if leaflet is None:
            continue
        touches = application["touches"]
        last = max(touch["end"] for touch in touches)
        counts = leaflet.get("counted_from", "it does not say")
        counts = "the first touch" if counts == "not sure" else counts
        contacts = []
        for touch in touches:
            alone = touch["off"] != application["until"] or len({t["off"] for t in touches}) > 1
            begun = touch["end"] if alone else last
            first = touch["off"] - touch["start"]
            counted = first if counts == "the first touch" else touch["off"] - begun
            contacts += [first, touch["off"] - (begun if alone else touch["end"])]
            if counted > leaflet["minutes_max"]:
                yield f"{counted} minutes counted from {counts}, {leaflet['minutes_max']:g} allowed"
            if application["act"] == "paint" and touch["off"] - begun < leaflet["minutes_min"]:
                yield f"the last hair has {touch['off'] - begun} minutes, {leaflet['minutes_min']:g} are the least"
            total = leaflet.get("minutes_total")
            if isinstance(total, float) and first > total:
                yield f"{first} minutes from the first touch, {total:g} allowed"
        if counts == "it does not say" and max(contacts) - min(contacts) > APART:
            yield f"first and last hair {max(contacts) - min(contacts)} minutes apart"


def _mixes(record: Table) -> Iterator[str]:
    plan = record["result"]["plan"]
    for application in plan["applications"]:
        leaflet = _leaflet(record, application)
        works = leaflet is None or leaflet["colour_class"] != "direct (no developer)"
        if application["emulsified"] or application["product"] == "3 % developer" or not works:
            continue
        life = leaflet.get("mix_minutes") if leaflet else None
        life = life if isinstance(life, float) else MIX_LIFE
        mixed = [mix["minute"] for mix in plan["mixes"] if mix["bowl"] == application["bowl"]]
        first, last = (
            min(t["start"] for t in application["touches"]),
            max(t["end"] for t in application["touches"]),
        )
        for minute in range(first, last):
            ages = [minute - at for at in mixed if at <= minute]
            if not ages or min(ages) >= life:
                yield f"at minute {minute} no mix of bowl {application['bowl']} is younger than {life:g} minutes"
                break
    used = {application["bowl"] for application in plan["applications"]}
    if {mix["bowl"] for mix in plan["mixes"]} != used:
        yield "bowls are mixed that nobody puts on, or put on that nobody mixes"
    for purchase in plan["purchases"]:
        bowls = {a["bowl"] for a in plan["applications"] if a["product"] == purchase["product"]}
        mine = [mix for mix in plan["mixes"] if mix["bowl"] in bowls]
        grams = sum(sum(p["grams"] for p in mix["colours"]) + mix["developer_g"] for mix in mine)
        if grams < purchase["expected_g"] - 1:
            yield f"{grams:g} g of {purchase['product']} mixed, {purchase['expected_g']} expected"
        if grams + sum(mix["rest_g"] for mix in mine) > purchase["mix_g"] + 0.1:
            yield f"more of {purchase['product']} is mixed than bought"
        packs = sum(mix["packs"] + mix["rest_packs"] for mix in mine)
        if packs and packs != purchase["packs"]:
            yield f"{packs} packs of {purchase['product']} mixed or waiting, {purchase['packs']} bought"


def _findings(record: Table) -> Iterator[str]:
    """Each demand of a finding's rule against what the plan does."""
    plan = record["result"]["plan"]
    colours = [a for a in plan["applications"] if a["product"] not in BESIDE]
    steps = " ".join(step["say"] for step in plan["steps"])
    for finding in record["result"]["findings"]:
        if finding["verdict"] not in ("caution",):
            yield f"{finding['rule']} ({finding['verdict']}) stands above a plan that is made"
        effect = EFFECTS.get(finding["rule"], {})
        strongest = effect.get("developer_at_most")
        for name in ("product", "lengths_product"):
            percent = record.get(name, {}).get("developer_percent")
            if strongest is not None and (
                percent == "not sure" or (isinstance(percent, float) and percent > strongest)
            ):
                yield f"{finding['rule']}: developer at most {strongest} %, {percent} is used"
        for stretch in effect.get("leave", ()):
            if any(stretch in a["stretches"] for a in plan["applications"]):
                yield f"{finding['rule']}: {stretch} are to be left, and get colour"
        if effect.get("no_lift") and _number(record["goal"]["depth"]) > _natural(record):
            yield f"{finding['rule']}: nothing may be lifted, and the goal is lighter"
        if effect.get("off_scalp") and any("at the scalp" in a["stretches"] for a in plan["applications"]):
            yield f"{finding['rule']}: off the scalp, and it is coloured"
        strand = record.get("strand_test", {})
        if effect.get("strand_test") and (strand.get("done"), strand.get("hair")) != ("yes", "sound"):
            yield f"{finding['rule']}: a strand test first, and none held"
        if effect.get("licensed") and record["client"]["applied_by"] not in PROFESSIONALS:
            yield f"{finding['rule']}: by a licensed person, and it is not"
        hours = effect.get("test_hours")
        test = record["allergy_test"]
        if hours and (record["record"]["consulted_at"] - test["applied_at"]).total_seconds() < hours * 3600:
            yield f"{finding['rule']}: {hours} hours from test to colour, and they are not over"
        for place in ("before", "during", "after"):
            words = effect.get(place, {}).get("trade")
            if words and words not in steps:
                yield f"{finding['rule']}: '{words}' is no step of the plan"
            elif words and not _in_place(place, words, steps):
                yield f"{finding['rule']}: '{words}' stands at the wrong place"
        yield from _demanded_time(record, effect.get("time"), finding["rule"], colours)


def _in_place(place: str, words: str, steps: str) -> bool:
    mixing = min((steps.find(word) for word in ("Mix ", "Pour out", "Fill ") if word in steps), default=-1)
    rinse, here = steps.find("rinse lukewarm"), steps.find(words)
    return {"before": here < mixing, "during": mixing < here < rinse, "after": here > rinse}[place]


def _demanded_time(record: Table, time: str | None, rule: str, colours: list[Table]) -> Iterator[str]:
    """The shortest or longest time of the leaflet, on what is painted first."""
    if time is None or colours[0]["act"] != "paint":
        return
    leaflet = _leaflet(record, colours[0])
    assert leaflet
    others = {EFFECTS.get(f["rule"], {}).get("time") for f in record["result"]["findings"]} - {None, time}
    if others and time == "longest":
        return  # The shorter of two demands counts.
    touches = colours[0]["touches"]
    minutes = colours[0]["until"] - max(t["end"] for t in touches)
    together = len(colours) > 1
    if time == "shortest" and not together and len({t["off"] for t in touches}) == 1:
        first = colours[0]["until"] - min(t["start"] for t in touches)
        counted = first if leaflet.get("counted_from") in ("the first touch", "not sure") else minutes
        if minutes > leaflet["minutes_min"] and counted > leaflet["minutes_min"]:
            yield f"{rule}: the shortest time of {leaflet['minutes_min']:g} minutes, and it is on {counted}"
    room = leaflet["minutes_max"] - (minutes if not together else leaflet["minutes_max"])
    by_end = leaflet.get("counted_from") == "the end of application" and "minutes_total" not in leaflet
    if time == "longest" and by_end and not together and room > 0:
        yield f"{rule}: the longest time of {leaflet['minutes_max']:g} minutes, and it is on {minutes}"


def _steps(record: Table) -> Iterator[str]:
    plan = record["result"]["plan"]
    starts = {min(t["start"] for t in a["touches"]) for a in plan["applications"]}
    ends = {a["until"] for a in plan["applications"]}
    say = [step["say"] for step in plan["steps"]]
    text = " ".join(say)
    for minute in re.findall(r"At minute (-?\d+)", text):
        if int(minute) not in starts:
            yield f"a step begins at minute {minute} and no application does"
    for minute in re.findall(r"rinsed until minute (-?\d+)", text):
        if int(minute) not in ends:
            yield f"a step rinses at minute {minute} and no application ends then"
    mixing = next((i for i, one in enumerate(say) if one.startswith(("Mix ", "Pour out", "Fill "))), 0)
    stinging = next((i for i, one in enumerate(say) if "rinse at once" in one), len(say))
    if stinging > mixing:
        yield "what to do when it stings stands after the mixing"
    pulled = any(a["act"] == "comb through" for a in plan["applications"])
    if ("draw it through" in text or "comb it through" in text) is not pulled:
        yield "lengths are drawn through in the steps or in the applications, not in both"
    for step in plan["steps"]:
        checks = step.get("checks") or []
        if checks and (checks[-1] != step["to_minute"] or min(checks) <= step["from_minute"]):
            yield "a check lies off its wait"


def _ledger(record: Table) -> Iterator[str]:
    plan = record["result"]["plan"]
    for account in plan["ledger"]:
        more = account["passes_after"] - account["passes"]
        for zone in account["zones"]:
            reached = [
                a for a in plan["applications"] if account["stretch"] in a["stretches"] and zone in a["zones"]
            ]
            coloured = [a for a in reached if a["hairs"] != "white hair" and _oxidative(record, a)]
            everywhere = [a for a in coloured if a["hairs"] == "every hair"]
            if not len(everywhere) <= more <= len(coloured):
                yield f"{account['stretch']}: {more} passes in the ledger, {len(coloured)} applications"
            if not reached and account["peroxide_minutes_after"] != account["peroxide_minutes"]:
                yield f"{account['stretch']}: peroxide in the ledger that nobody puts on"


def _oxidative(record: Table, application: Table) -> bool:
    leaflet = _leaflet(record, application)
    if leaflet is None:
        return bool(application["product"] == "filler")
    return bool(leaflet["colour_class"] != "direct (no developer)")


def _forecast(record: Table) -> Iterator[str]:
    plan, forecast = record["result"]["plan"], record["result"].get("forecast")
    if forecast is None:
        yield "a plan is made and nothing is foreseen"
        return
    told = " ".join(line["say"] for line in (*forecast["warnings"], *forecast["lines"]))
    # White hair is promised the depth only where it is covered; coloured lengths are read as one.
    covered = record["goal"]["white"] == "cover"
    for band in forecast["bands"]:
        mine = [
            a
            for a in plan["applications"]
            if band["stretch"] in a["stretches"]
            and set(band["zones"]) & set(a["zones"])
            and a["product"] != "3 % developer"
            and a["hairs"] == "every hair"
        ]
        more = len(band["stages"]) - 1 - len(mine)
        if more < 0 or (more > 0 and not any(a["product"] == "filler" for a in plan["applications"])):
            yield f"{band['stretch']}: {len(band['stages']) - 1} stages foreseen, {len(mine)} applications"
        last = band["stages"][-1]
        coloured = record["history"]["services"] and band["stretch"] in ("lengths", "ends")
        hairs = "seen" if covered or coloured else "pigmented"
        # A strand test that came out as wanted outranks what is computed.
        if (
            len(band["stages"]) > 1
            and not _proven(record)
            and abs(last[hairs]["depth"] - _number(record["goal"]["depth"])) > 1.5
        ):
            yield f"{band['stretch']}: depth {last[hairs]['depth']:g} foreseen, {record['goal']['depth']:g} promised"
    for number in re.findall(r"comes out about depth (\d+(?:\.\d)?)", told):
        if float(number) not in {band["stages"][-1]["seen"]["depth"] for band in forecast["bands"]}:
            yield f"depth {number} is told and no band has it"
    lighter = any("White hairs will come out lighter" in note["say"] for note in plan["notes"])
    for band in forecast["bands"]:
        last = band["stages"][-1]
        if (
            lighter
            and band["stretch"] == "at the scalp"
            and len(band["stages"]) > 1
            and last["white"]["depth"] < last["pigmented"]["depth"]
        ):
            yield f"{band['stretch']}: white is said to come out lighter, and is foreseen darker"


def _proven(record: Table) -> bool:
    strand = record["strand_test"]
    return (strand.get("done"), strand.get("hair"), strand.get("colour")) == ("yes", "sound", "as wanted")


def _sections(record: Table) -> Iterator[str]:
    plan = record["result"]["plan"]
    text = " ".join(line["say"] for line in plan["sections"])
    painted = {
        s
        for a in plan["applications"]
        if a["act"] == "paint" and a["product"] not in BESIDE
        for s in a["stretches"]
    }
    one_product = record["goal"].get("lengths_product") != "yes"
    if "Stop at the line of demarcation" in text and "lengths" in painted and one_product:
        yield "stop at the line of demarcation, and the lengths are painted"
    if "draw nothing through" in plan["because"]["say"] and {"lengths", "ends"} & {
        s for a in plan["applications"] for s in a["stretches"]
    }:
        yield "nothing is drawn through, and lengths get colour"
    covered = {
        (z, s)
        for a in plan["applications"]
        for z in a["zones"]
        for s in a["stretches"]
        if a["hairs"] == "every hair"
    }
    for stretch in STRETCHES:
        zones = {z for z, s in covered if s == stretch}
        if zones and zones != set(ZONES):
            yield f"{stretch}: only {', '.join(sorted(zones))} get colour"


def _number(value: object) -> float:
    assert isinstance(value, int | float)
    return float(value)


def _natural(record: Table) -> float:
    natural = record["hair"]["natural_depth"]
    return 10.0 if natural == "all white" else float(natural)


def main(count: int) -> int:
    """Read so many random heads and all demo clients; the number of contradictions."""
    from consult.records.demos import demo_files
    from consult.records.record import dump_record
    from tests.demo import judged as judged_demo
    from tests.plan.heads import head, judged

    found: Counter[str] = Counter()
    outcomes: Counter[str] = Counter()
    texts = ((name, dump_record(judged_demo(name))) for name in demo_files())
    random_texts = ((f"head({seed})", dump_record(judged(head(seed)))) for seed in range(count))
    for source in (texts, random_texts):
        for name, text in source:
            outcomes[tomllib.loads(text)["result"]["plan"]["outcome"]] += 1
            for told in contradictions(text):
                shape = re.sub(r"-?\d+(\.\d+)?", "N", told)
                found[shape] += 1
                if found[shape] <= 3:
                    print(f"{name}: {told}")
    print(f"{sum(outcomes.values())} records read ({dict(outcomes)}), {sum(found.values())} contradictions")
    for shape, times in found.most_common():
        print(f"  {times:>5} {shape}")
    return sum(found.values())


if __name__ == "__main__":
    sys.exit(1 if main(int(sys.argv[1]) if len(sys.argv) > 1 else 5000) else 0)
