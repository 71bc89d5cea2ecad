"""The table of measured hair: `python -m tests.published`, or with `--write` into the documents."""

from tests.published.measured import held, samples


def main() -> None:
    for sample in samples():
        h = held(sample)
        print(sample.name, h.reading, [round(v, 1) for v in h.predicted], round(h.difference, 2), round(h.band, 2), h.within)


if __name__ == "__main__":
    main()
