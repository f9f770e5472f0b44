"""Builds the reference pieces with general-purpose solid modelling and writes, or checks, values.json.

    python build_reference.py            writes values.json
    python build_reference.py --check    rebuilds and fails when a figure differs from values.json

Every piece is a saved design in pieces/; the stations of its sections are in stations.json. With --folder, those of
another folder.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import Any

import closed_forms
from measures import deepest_overrun, hold, least_wall, mass, reach, section, swing
from pieces import State, read, states

HERE = Path(__file__).parent

#: How far a rebuilt figure may be from the stored one: well inside what the stored one promises.
CHECK_SHARE = 2e-5
CHECK_LENGTH_MM = 0.0005
#: Pitches at which liquid is measured: the bowl end raised by these, in degrees.
PITCHES_DEG = (-10.0, 0.0, 7.0, 15.0, 30.0)


def figures(path: Path, stations: list[float]) -> dict[str, Any]:
    """Every figure of one piece. Stations in mm along axis A."""
    piece = read(path)
    finished = piece.finished()
    body = mass(finished)
    values: dict[str, Any] = {
        "volume_mm3": body.volume,
        "cavity_mm3": piece.cavity().volume(),
        "centroid_mm": list(body.centroid),
        "inertia_mm5": [list(row) for row in body.inertia],
        "reach_mm": reach(finished),
        "states": [state_figures(state) for state in states(json.loads(path.read_text(encoding="utf-8"))["design"])],
        "holds": [],
        "sections": [],
    }
    for station in stations:
        area, x, y = section(finished, station)
        values["sections"].append({"station_mm": station, "area_mm2": area, "centroid_x_mm": x, "centroid_y_mm": y})
    overrun = deepest_overrun(piece)
    values["breakthrough"] = overrun is not None
    if overrun is None:
        values["wall_min_mm"] = least_wall(piece).distance
        if piece.hollows:
            values["holds"] = [{"pitch_deg": pitch, "volume_mm3": hold(piece, pitch)} for pitch in PITCHES_DEG]
    else:
        values["overrun_depth_mm"] = overrun.distance
    return rounded(values)


def state_figures(state: State) -> dict[str, Any]:
    """Swing, volume, centroid and inertia of the wood before one pass."""
    body = mass(state.wood)
    return {
        "cut": state.cut,
        "swing_mm": swing(state.wood, state.axis),
        "volume_mm3": body.volume,
        "centroid_mm": list(body.centroid),
        "inertia_mm5": [list(row) for row in body.inertia],
    }


def rounded(value: Any) -> Any:
    """The same with seven decimals, so that the file stays readable."""
    if isinstance(value, bool):
        return value
    if isinstance(value, float):
        return round(float(value), 7) + 0.0
    if isinstance(value, dict):
        return {key: rounded(item) for key, item in value.items()}
    if isinstance(value, list):
        return [rounded(item) for item in value]
    return value


def all_figures(folder: Path) -> dict[str, Any]:
    """Figures of all pieces of a folder, by name."""
    stations: dict[str, list[float]] = json.loads((folder / "stations.json").read_text(encoding="utf-8"))
    paths = sorted((folder / "pieces").glob("*.json"))
    if {path.stem for path in paths} != set(stations):
        raise SystemExit("pieces/ and stations.json do not name the same pieces")
    with ProcessPoolExecutor(os.cpu_count()) as workers:
        found = workers.map(figures, paths, [stations[path.stem] for path in paths])
        return {path.stem: values for path, values in zip(paths, found)}


def differences(where: str, stored: Any, rebuilt: Any) -> list[str]:
    """Sentences for everything in which two sets of figures differ."""
    if isinstance(stored, dict) and isinstance(rebuilt, dict) and stored.keys() == rebuilt.keys():
        return [line for key in stored for line in differences(f"{where}.{key}", stored[key], rebuilt[key])]
    if isinstance(stored, list) and isinstance(rebuilt, list) and len(stored) == len(rebuilt):
        if where.endswith("inertia_mm5"):
            # A product of inertia may be next to nothing: it is held to the greatest moment.
            greatest = max(abs(term) for row in stored for term in row)
            pairs = [pair for old, new in zip(stored, rebuilt) for pair in zip(old, new)]
            return [
                f"{where}: {old} stored, {new} rebuilt" for old, new in pairs if abs(old - new) > CHECK_SHARE * greatest
            ]
        pairs = list(enumerate(zip(stored, rebuilt)))
        return [line for index, (old, new) in pairs for line in differences(f"{where}[{index}]", old, new)]
    if isinstance(stored, float) and isinstance(rebuilt, float):
        length = where.endswith("_mm") or "centroid_mm" in where or "reach_mm" in where
        allowed = CHECK_LENGTH_MM if length else CHECK_SHARE * abs(stored)
        return [] if abs(stored - rebuilt) <= allowed else [f"{where}: {stored} stored, {rebuilt} rebuilt"]
    return [] if stored == rebuilt else [f"{where}: {stored} stored, {rebuilt} rebuilt"]


def main() -> None:
    """Runs from the command line."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--check", action="store_true", help="compare with values.json instead of writing it")
    parser.add_argument("--folder", type=Path, default=HERE, help="where pieces/, stations.json and values.json are")
    asked = parser.parse_args()
    kept = asked.folder / "values.json"
    closed_forms.check_all()
    rebuilt = all_figures(asked.folder)
    if not asked.check:
        kept.write_text(json.dumps(rebuilt, indent=1) + "\n", encoding="utf-8")
        return
    found = differences("values", json.loads(kept.read_text(encoding="utf-8")), rebuilt)
    for line in found:
        print(line, file=sys.stderr)
    if found:
        raise SystemExit(1)
    print(f"{len(rebuilt)} pieces rebuilt: every figure as stored")


if __name__ == "__main__":
    main()
