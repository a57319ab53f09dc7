#!/usr/bin/env python3
# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
"""Holds what the program prints to the JSON Schemas that it ships, with the validator of Debian's python3-jsonschema.

    schemas.py PROGRAM REPOSITORY SCRATCH

Every schema must be one itself (draft 2020-12), real outputs must pass, and documents with one thing wrong must fail.
"""
import copy
import json
import os
import pathlib
import shutil
import subprocess
import sys

import jsonschema

SOUNDINGS = "lon,lat,depth\n" + "".join(
    "%.6f,%.6f,%.2f\n" % (-40 + 0.0004 * x, 45.5 + 0.0003 * y, 1 + 0.3 * min(x, 15 - x, y, 15 - y))
    for x in range(16) for y in range(16)) + "-39.999800,45.500200,-3.00\n"
SHORE = ('{"type": "Polygon", "coordinates": [[[-40.0004, 45.4997], [-39.9936, 45.4997], [-39.9936, 45.5048], '
         '[-40.0004, 45.5048], [-40.0004, 45.4997]]]}')


def main():
    program, repository, scratch = (os.path.abspath(word) for word in sys.argv[1:4])
    folder = pathlib.Path(repository, "src", "write", "schema")
    shutil.rmtree(scratch, ignore_errors=True)
    os.makedirs(scratch)
    schemas = {path.name.split(".")[0]: json.loads(path.read_text("utf-8")) for path in folder.glob("*.json")}
    assert sorted(schemas) == ["grid", "inspect", "scout", "summary"], sorted(schemas)
    for schema in schemas.values():
        jsonschema.Draft202012Validator.check_schema(schema)

    def faults(name, document):
        # references between the files are by file name; nothing is fetched
        store = {(folder / (other + ".schema.json")).as_uri(): schema for other, schema in schemas.items()}
        resolver = jsonschema.RefResolver((folder / (name + ".schema.json")).as_uri(), schemas[name], store)
        validator = jsonschema.Draft202012Validator(schemas[name], resolver=resolver)
        return [error.json_path + ": " + error.message for error in validator.iter_errors(document)]

    checked = 0

    def good(name, document):
        nonlocal checked
        checked += 1
        found = faults(name, document)
        assert not found, (name, found)
        return document

    def bad(name, document, change):
        nonlocal checked
        checked += 1
        wrong = copy.deepcopy(document)
        change(wrong)
        assert faults(name, wrong), "a wrong %s passes" % name

    def printed(*words):
        return json.loads(subprocess.run([program, *words], check=True, capture_output=True, cwd=scratch).stdout)

    lake = os.path.join(repository, "sample_rasters", "ossilby.toml")
    out = os.path.join(scratch, "plan")
    for words in ([], ["--water-temp", "66F", "--trend", "rising", "--date", "2026-06-20"], ["--water-temp", "76F"],
                  ["--water-temp", "76F", "--override-stop", "tagging study"], ["--secchi", "9ft", "--units", "imperial"],
                  ["--compare", "60F", "70F", "--trend", "rising"]):
        plan = good("scout", printed("scout", lake, "--json", "--formats", "geojson,json", "--out", out, *words))
        summary = good("summary", json.loads(pathlib.Path(out, "summary.json").read_text("utf-8")))
        assert {key: value for key, value in plan.items() if key != "files"} == summary
        for name in ("features", "spots", "passes"):
            collection = json.loads(pathlib.Path(out, name + ".geojson").read_text("utf-8"))
            assert good("summary", collection["metadata"]) == summary
        codes = {warning["code"] for warning in summary["warnings"]}
        assert ("stop" in codes) == (summary["advisory"]["level"] == "stop"), codes
        assert [w["text"] for w in summary["warnings"] if w["code"] == "note"] == summary["notes"]

    bad("summary", summary, lambda wrong: wrong.pop("schema"))
    bad("summary", summary, lambda wrong: wrong.pop("warnings"))
    bad("summary", summary, lambda wrong: wrong.update(schema=2))
    bad("summary", summary, lambda wrong: wrong["lake"].update(max_depth_m="6 m"))
    bad("summary", summary, lambda wrong: wrong["counts"].update(spot=-1))
    bad("summary", summary, lambda wrong: wrong["advisory"].update(level="danger"))
    bad("summary", summary, lambda wrong: wrong["provenance"]["inputs"][0].update(name="/home/someone/lake.tif"))
    bad("summary", summary, lambda wrong: wrong["warnings"].append({"code": "Not a code", "text": "x"}))
    bad("scout", plan, lambda wrong: wrong.pop("files"))
    bad("scout", plan, lambda wrong: wrong.pop("cautions"))
    # spots beside a stop that nobody set aside
    bad("summary", summary, lambda wrong: (wrong["advisory"].update(level="stop", overridden=False),
                                           wrong["counts"].update(spot=3)))

    for path, text in (("runs.csv", SOUNDINGS), ("shore.geojson", SHORE)):
        pathlib.Path(scratch, path).write_text(text, "utf-8")
    words = ("--soundings", "runs.csv", "--columns", "x=lon,y=lat,depth=depth", "--unit", "m", "--crs", "EPSG:4326",
             "--shoreline", "shore.geojson")
    grid = good("grid", printed("grid", *words, "--out", "depth.tif", "--json"))
    assert any(warning["code"] == "soundings-rejected" for warning in grid["warnings"]), grid["warnings"]
    bad("grid", grid, lambda wrong: wrong.pop("warnings"))
    bad("grid", grid, lambda wrong: wrong["cross_validation"].update(folds=2.5))
    bad("grid", grid, lambda wrong: wrong["rejected"].update(spike="none"))

    seen = [good("inspect", printed("inspect", what, "--json")) for what in (lake, os.path.join(scratch, "depth.tif"),
                                                                            os.path.join(scratch, "runs.csv"))]
    for found in seen:
        serious = [finding for finding in found["findings"] if finding["severity"] != "note"]
        assert [(one["code"], one["text"]) for one in serious] == [(w["code"], w["text"]) for w in found["warnings"]]
    assert any(found["warnings"] for found in seen)
    bad("inspect", seen[2], lambda wrong: wrong.pop("schema"))
    bad("inspect", seen[2], lambda wrong: wrong["findings"].append({"severity": "bad", "code": "x", "text": "x", "mend": ""}))
    bad("inspect", seen[2], lambda wrong: wrong["files"][0].update(centre=[200, 45]))
    print("%d documents held to %d schemas" % (checked, len(schemas)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
