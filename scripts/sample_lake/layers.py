# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
"""What stands in and around the lake: wood, rock, weeds, docks, inflows, launches, a closure.

Places as in floor.py. They are drawn roughly and then moved until they stand where such things do, so that they stay
right when the shore is changed. Each function returns (name, shape) or (name, attribute, shape), in the file's order.
"""
from math import sqrt

from .contour import polygons, zero_rings
from .field import noise
from .floor import CELL, EAST, NORTH, SOUTH, WEST, depth, pond_distance, shore_distance


def _out(x, y):
    """Direction away from shore, length 1."""
    gx = shore_distance(x + 2.0, y) - shore_distance(x - 2.0, y)
    gy = shore_distance(x, y + 2.0) - shore_distance(x, y - 2.0)
    size = sqrt(gx * gx + gy * gy) or 1.0
    return gx / size, gy / size


def off_shore(x, y, metres):
    """The place near (x, y) that is so far from shore (negative: on land)."""
    for _ in range(60):
        gx, gy = _out(x, y)
        step = max(-8.0, min(8.0, 0.7 * (metres - shore_distance(x, y))))
        x, y = x + step * gx, y + step * gy
    return x, y


def fallen_tree(x, y, length, lean):
    """A trunk from the bank into the water; lean turns it along the shore (-1 to 1)."""
    x, y = off_shore(x, y, 0.5)
    gx, gy = _out(x, y)
    dx, dy = gx - lean * gy, gy + lean * gx
    size = sqrt(dx * dx + dy * dy)
    return [(x, y), (x + length * dx / size, y + length * dy / size)]


def blob(x, y, across, along, seed):
    """An uneven patch with 14 corners about half axes across and along."""
    round14 = [(1, 0), (.9, .43), (.62, .78), (.22, .97), (-.22, .97), (-.62, .78), (-.9, .43), (-1, 0), (-.9, -.43),
               (-.62, -.78), (-.22, -.97), (.22, -.97), (.62, -.78), (.9, -.43)]
    ring = []
    for k, (c, s) in enumerate(round14):
        swell = 1.0 + 0.3 * noise(k * 1.0, 0.0, 2.3, seed)
        ring.append((x + across * c * swell, y + along * s * swell))
    return ring + ring[:1]


TREES = [  # near, length, lean
    ((640, 900), 14, .2), ((560, 850), 17, -.3), ((690, 985), 12, .5), ((1420, 400), 15, 0.), ((1500, 470), 18, .4),
    ((1300, 370), 11, -.2), ((930, 1180), 13, .1), ((560, 1380), 16, .6), ((2100, 300), 12, -.4), ((1720, 1480), 20, .2),
    ((150, 560), 15, .3), ((2330, 1100), 14, 0.),
]
STUMPS = [((300, 1120), 55, "stump field"), ((150, 1200), 35, "stumps"), ((1120, 400), 40, "sunken log"),
          ((600, 1700), 18, "log pile"), ((880, 800), 150, "sunken log"), ((2040, 420), 60, "stumps"),
          ((1650, 1330), 55, "log pile")]


def wood():
    return [("fallen tree %d" % (k + 1), fallen_tree(*near, length, lean))
            for k, (near, length, lean) in enumerate(TREES)]


def stumps():
    return [(what, off_shore(*near, metres)) for near, metres, what in STUMPS]


def boulders():
    near = [((700, 1010), 9), ((1700, 700), 14), ((1330, 1180), 12), ((2200, 760), 10), ((960, 1620), 9), ((140, 700), 8)]
    return [("boulder", off_shore(*place, metres)) for place, metres in near]


def rock():
    patches = [  # name, centre, half axes
        ("shoal", (903, 586), 34, 15), ("south spit", (716, 470), 13, 26), ("north spit", (1568, 1262), 14, 24),
        ("middle hump", (1515, 795), 30, 17), ("west reef", (308, 670), 13, 11),
    ]
    ledges = [("ledge", (1370, 380), 5), ("ledge", (1560, 520), 6), ("island toe", (1160, 990), 16),
              ("boulders", (1850, 800), 20), ("boulders", (1990, 1650), 24), ("ledge", (430, 820), 7)]
    areas = [(name, blob(*centre, across, along, 51 + k)) for k, (name, centre, across, along) in enumerate(patches)]
    for k, (name, near, metres) in enumerate(ledges):
        areas.append((name, blob(*off_shore(*near, metres), 9 + 2 * (k % 3), 7 + k % 2, 61 + k)))
    return areas


BEDS = [  # name, box, shallow and deep edge of the bed
    ("weedy bay", (20, 960, 520, 1400), 0.5, 3.3),
    ("long shelf", (1560, 1380, 2120, 1680), 1.1, 3.6),
    ("delta", (930, 300, 1230, 520), 0.7, 3.2),
    ("south-west shelf", (60, 180, 620, 400), 0.9, 3.4),
    ("head of the south-east bay", (2100, 180, 2500, 560), 0.8, 3.7),
]


def _bed(box, shallow, deep):
    """Polygons where it is between the two depths, with bare patches."""
    west, south, east, north = box
    step = 8.0

    def cover(x, y):
        z = depth(x, y)
        deep_edge = deep + 0.5 * noise(x, y, 70, 71)
        return min(z - shallow - 0.3 * noise(x, y, 50, 72), deep_edge - z, 1.1 + 1.6 * noise(x, y, 95, 73))

    columns, rows = int((east - west) / step) + 1, int((north - south) / step) + 1
    values = [[cover(west + step * i, south + step * j) for i in range(columns)] for j in range(rows)]
    return polygons(zero_rings(values, west, south, step), 700.0)


def weeds():
    return [(name, polygon) for name, box, shallow, deep in BEDS for polygon in _bed(box, shallow, deep)]


def docks():
    near = [(470, 240), (560, 235), (2440, 330), (2420, 480), (1160, 1420), (2010, 300)]
    return [("dock %d" % (k + 1), fallen_tree(*place, 13 + 3 * (k % 3), 0.0)) for k, place in enumerate(near)]


def inflows():
    return [("creek", "cool", off_shore(1056, 210, 1.0)), ("spring", "cool", off_shore(1240, 1290, 2.0)),
            ("ditch", "unknown", off_shore(2380, 1660, 2.0))]


def launches():
    return [("South ramp", off_shore(420, 230, 2.0)), ("East landing", off_shore(2380, 1180, 2.0))]


def closure():
    """The northern end of the weedy bay: an invented nesting ground."""
    return [(60, 1195), (150, 1170), (290, 1185), (380, 1215), (400, 1330), (230, 1420), (60, 1400), (60, 1195)]


def shoreline():
    """Polygons with islands as holes: the zero line of the distance from shore between cell centres of the raster, so
    that a cell is water exactly where its centre lies inside."""
    columns, rows = int((EAST - WEST) / CELL), int((NORTH - SOUTH) / CELL)
    west, south = WEST + CELL / 2.0, SOUTH + CELL / 2.0
    values = [[max(shore_distance(x, y), pond_distance(x, y)) for x in (west + CELL * i for i in range(columns))]
              for y in (south + CELL * j for j in range(rows))]
    return polygons(zero_rings(values, west, south, CELL), 50.0)
