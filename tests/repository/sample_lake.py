#!/usr/bin/env python3
# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
"""Makes the sample lake again and compares it with the one in the repository.

    sample_lake.py REPOSITORY SCRATCH

With the version of GDAL that made the files every byte must agree. Another version may pack the same values
differently: then the values and shapes must agree, as GDAL's own tools print them.
"""
import filecmp
import os
import re
import shutil
import subprocess
import sys

MADE_WITH = "3.6.2"
BY_HAND = {"README.md", "ossilby.toml", "plan.png"}


def printed(*command):
    return subprocess.run(command, check=True, capture_output=True).stdout


def values(path, scratch):
    if path.endswith(".tif"):
        raw = os.path.join(scratch, "values.bin")
        printed("gdal_translate", "-q", "-of", "ENVI", path, raw)
        with open(raw, "rb") as file:
            return file.read() + printed("gdalsrsinfo", "-o", "wkt_simple", path)
    return printed("ogr2ogr", "-f", "GeoJSON", "-a_srs", "EPSG:32624", "-lco", "COORDINATE_PRECISION=2",
                   "/vsistdout/", path)


def main():
    repository, scratch = sys.argv[1:3]
    kept, made = os.path.join(repository, "sample_rasters"), os.path.join(scratch, "made")
    shutil.rmtree(scratch, ignore_errors=True)
    os.makedirs(scratch)
    said = printed(os.path.join(repository, "scripts", "make-sample-lake"), made).decode()
    place = re.search(r"\[.*\]", said).group(0)
    with open(os.path.join(kept, "ossilby.toml"), encoding="utf-8") as file:
        if "at = " + place not in file.read():
            sys.exit("ossilby.toml does not put the ramp where the script does, at " + place)

    names = sorted(set(os.listdir(kept)) - BY_HAND)
    if names != sorted(os.listdir(made)) or not names:
        sys.exit("sample_rasters holds %s, the script makes %s" % (names, sorted(os.listdir(made))))
    other = [name for name in names if not filecmp.cmp(os.path.join(kept, name), os.path.join(made, name), False)]
    version = re.search(rb"GDAL (\d+\.\d+\.\d+)", printed("gdalinfo", "--version")).group(1).decode()
    print("%d files, GDAL %s, not byte-equal: %s" % (len(names), version, other or "none"))
    if other and version == MADE_WITH:
        sys.exit("the same GDAL must write the same bytes: run scripts/make-sample-lake and commit what it writes")
    for name in other:
        if name.endswith((".tif", ".gpkg", ".shp")):
            if values(os.path.join(kept, name), scratch) != values(os.path.join(made, name), scratch):
                sys.exit(name + ": the values differ from those that the script makes")
    return 0


if __name__ == "__main__":
    sys.exit(main())
