#!/usr/bin/env python3
# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
"""The plant edge in Lake Mendota's rake casts, for mendota_test.cpp: plant_edge.py macrophyte_rakes.csv

Logistic regression of presence on depth by Newton's method; the edge is the depth of even odds, its 90 % interval
from the delta method. Written apart from the program, on the standard library alone.
"""
import csv
import math
import sys


def fit(casts):
    a = b = 0.0
    for _ in range(60):
        g0 = g1 = h00 = h01 = h11 = 0.0
        for depth, present in casts:
            p = 1 / (1 + math.exp(-(a + b * depth)))
            w = p * (1 - p)
            g0 += present - p
            g1 += (present - p) * depth
            h00 += w
            h01 += w * depth
            h11 += w * depth * depth
        det = h00 * h11 - h01 * h01
        a += (h11 * g0 - h01 * g1) / det
        b += (h00 * g1 - h01 * g0) / det
    edge = -a / b
    da, db = -1 / b, a / b**2
    half = 1.6448536 * math.sqrt((da * da * h11 + db * db * h00 - 2 * da * db * h01) / det)
    return edge, edge - half, edge + half


with open(sys.argv[1], newline="") as table:
    rows = [(float(row["depth"]), float(row["plant_wt_hand"]) > 0) for row in csv.DictReader(table)]
for least in (0, 2):
    kept = [row for row in rows if row[0] >= least]
    print(f"from {least} m: {len(kept)} casts, edge %.5f m, 90 %% interval %.5f to %.5f m" % fit(kept))
