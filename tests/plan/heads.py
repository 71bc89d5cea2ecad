"""Random heads for property tests: sound people whose hair, goal and product vary."""

from datetime import date
from typing import Any

from hypothesis import strategies as st

from consult.answers import Answers
from consult.answers.access import as_data, from_data
from consult.consultation import Consultation, consult
from tests.demo import NOW, load

TONES = ["neutral", "ash", "gold", "copper", "red", "violet"]
DEPTHS = st.sampled_from([2.0, 3.0, 4.0, 4.5, 5.0, 6.0, 7.0, 8.0])


@st.composite
def heads(draw: st.DrawFn) -> Answers:
    """A head that may hold, be unsuitable, or get any approach."""
    data: dict[str, Any] = as_data(load("ines").answers)
    natural, coloured = draw(DEPTHS), draw(st.booleans())
    goal = draw(st.sampled_from([natural - 2, natural - 1, natural, natural + 1, natural + 2]))
    goal = min(10.0, max(1.0, goal))
    length = draw(st.sampled_from([6.0, 18.0, 34.0, 58.0]))
    white = draw(st.sampled_from([0.0, 20.0, 60.0, 95.0]))
    lengths = draw(st.sampled_from([natural, goal, min(10.0, goal + 1)])) if coloured else natural
    kind = draw(st.sampled_from(["permanent colour", "lightener all over"]))
    services = [
        {"kind": kind, "on": date(2026, 10, 7), "stretch": "all over", "depth": lengths, "by": "a salon"}
    ]
    if kind == "permanent colour":
        services[0]["tone"] = "neutral"
    minutes = draw(st.sampled_from([(20, 20, 25), (25, 30, 35), (30, 45, 45), (10, 30, 60)]))
    data["client"]["applied_by"] = draw(st.sampled_from(["myself at home", "a licensed colourist"]))
    data["history"]["services"] = services if coloured else []
    data["history"]["known_months"] = 120
    porosity = draw(st.sampled_from(["normal", "high"]))
    data["hair"] |= {
        "length_cm": length,
        "density": draw(st.sampled_from(["low", "normal", "high"])),
        "thickness": draw(st.sampled_from(["fine", "medium", "coarse"])),
        "natural_depth": natural,
        "lengths_depth": lengths,
        "ends_depth": lengths,
        "lengths_look": draw(st.sampled_from(["even", "faded", "uneven"])),
        "new_growth_cm": 1.6 if coloured else 0.0,
        "porosity_lengths": porosity,
        "porosity_ends": porosity,
        **{f"white_{zone}": white for zone in ("front", "temples", "crown", "nape")},
    }
    data["goal"] |= {
        "depth": goal,
        "tone": draw(st.sampled_from(TONES)),
        "white": draw(st.sampled_from(["cover", "blend"])) if white else "there is none",
        "extent": draw(st.sampled_from(["new growth only", "whatever is needed", "all over"])),
    }
    kit = draw(st.booleans())
    data["product"] |= {
        "kind": "retail kit" if kit else "tube and developer",
        "depth": goal if kit or goal <= natural else min(10.0, 2 * goal - natural),
        "tone": data["goal"]["tone"],
        "white_claim": draw(st.sampled_from(["full cover", "blends white"])),
        "ratio": draw(st.sampled_from([1.0, 1.5, 2.0])),
        "minutes_min": minutes[0],
        "minutes_new_growth": minutes[1],
        "minutes_white": minutes[1],
        "minutes_max": minutes[2],
        "minutes_refresh": draw(st.sampled_from([0, 5, 10])),
    }
    if kit:
        data["product"] |= {"chart_from": max(1.0, natural - 2), "chart_to": min(10.0, natural + 2)}
    else:
        data["product"]["tube_g"] = 60.0
        for name in ("chart_from", "chart_to", "pack_ml"):
            data["product"].pop(name)
    data["strand_test"] = {"done": "yes", "hair": "sound", "colour": "as wanted", "minutes": 30}
    return from_data(data)


def judged(answers: Answers) -> Consultation:
    return consult(answers, NOW)
