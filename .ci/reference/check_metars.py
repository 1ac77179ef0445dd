"""Compares tests/metar/expected.csv, read by eye, with what the `metar` package reads from the same reports.

Temperature, dew point, wind, gust and pressure of every report. Where the package is known to read a report otherwise
than the code form says, the report and the reason stand in KNOWN, and where it refuses one, in REFUSED (it is then read
leniently: the group is skipped). A difference or refusal that is not listed is an error, and so is a listed one that no
longer occurs. Exit code 1 if there is any.
"""

import csv
import sys
import warnings
from importlib.metadata import version
from pathlib import Path

from metar.Metar import Metar, ParserError

FOLDER = Path(__file__).resolve().parents[2] / "tests" / "metar"
TOLERANCE = {"temp_c": 1e-9, "dew_point_c": 1e-9, "wind_m_s": 2e-3, "gust_m_s": 2e-3, "qnh_hpa": 0.1}
"""Absolute; speeds and pressures leave room for the package's rounded conversion factors."""

KNOWN = {}
"""(station, time, quantity) -> why the package differs; nothing so far."""

REFUSED = {
    ("KTRK", "2018-01-11T14:45Z"): "two cloud groups run together (SCT120BKN180)",
}
"""(station, time) -> why the package refuses the report unless it is lenient."""


def number(quantity, unit):
    return None if quantity is None or quantity.value() is None else quantity.value(unit)


def read(report, key):
    year, month = int(key[1][:4]), int(key[1][5:7])
    if key not in REFUSED:
        parsed = Metar(report, month=month, year=year)
    else:
        try:
            Metar(report, month=month, year=year)
        except ParserError:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                parsed = Metar(report, month=month, year=year, strict=False)
        else:
            raise ParserError("listed as refused, but it is read")
    return parsed, {
        "temp_c": number(parsed.temp, "C"),
        "dew_point_c": number(parsed.dewpt, "C"),
        "wind_m_s": number(parsed.wind_speed, "MPS"),
        "gust_m_s": number(parsed.wind_gust, "MPS"),
        "qnh_hpa": number(parsed.press, "HPA"),
    }


def main():
    reports = (FOLDER / "metars_cold_2018-01.txt").read_text().splitlines()
    with (FOLDER / "expected.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    faults, met, compared = [], set(), 0
    if len(reports) != len(rows):
        faults.append(f"{len(reports)} reports, {len(rows)} rows")
    for report, row in zip(reports, rows):
        key = (row["station"], row["time_utc"])
        try:
            parsed, found = read(report, key)
        except ParserError as error:
            faults.append(f"{' '.join(key)}: not read: {error}")
            continue
        if (parsed.station_id, f"{parsed.time:%Y-%m-%dT%H:%MZ}") != key:
            faults.append(f"{key}: read as {parsed.station_id} {parsed.time}")
        for name, tolerance in TOLERANCE.items():
            wanted = float(row[name]) if row[name] else None
            same = found[name] == wanted if None in (found[name], wanted) else abs(found[name] - wanted) <= tolerance
            compared += 1
            if same:
                continue
            if (*key, name) in KNOWN:
                met.add((*key, name))
            else:
                faults.append(f"{' '.join(key)} {name}: by eye {wanted}, metar {found[name]}: {report}")
    faults.extend(f"{' '.join(gone)}: listed as a known difference, but agrees" for gone in KNOWN.keys() - met)
    for key, why in REFUSED.items():
        print(f"refused, then read leniently: {' '.join(key)}: {why}")
    for known in sorted(met):
        print(f"known: {' '.join(known)}: {KNOWN[known]}")
    agreed = f"{compared} values of {len(rows)} reports agree with metar {version('metar')}, but for {len(met)} known"
    print("\n".join(faults) or agreed)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
