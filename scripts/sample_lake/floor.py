# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
"""Lake Ossilby, which does not exist: how far a place is from shore, and how deep it is.

Places are metres east and north of a local origin; the map covers WEST..EAST x SOUTH..NORTH. Depths are below the surface.
The recipe is a glacial lake's: shallow water, a lip, a slope whose grade changes along the shore, a floor with kettle
holes; then the bars, humps, reefs and channels that a guide knows by name.
"""
from .field import mound, noise, outside, rounded_ramp, smooth_max, smooth_min, to_line

WEST, SOUTH, EAST, NORTH = -60.0, 0.0, 2540.0, 2000.0
CELL = 5.0

# Water: bodies around lines, (x, y, radius).
WATERS = [
    [(332, 487, 259), (713, 666, 360), (1150, 778, 405), (1631, 1036, 394), (2023, 1361, 304), (2247, 1574, 170)],
    [(982, 980, 270), (903, 1361, 237), (758, 1630, 192)],               # north arm
    [(1766, 778, 203), (2085, 487, 287), (2280, 360, 165)],                # south-east bay
    [(222, 740, 60), (246, 860, 34), (236, 950, 44)],                    # mouth of the weedy bay
    [(240, 1105, 165), (372, 1176, 135), (184, 1230, 125)],                 # weedy bay
    [(1077, 431, 91), (1060, 353, 20), (1038, 252, 3), (1056, 202, -3)],    # creek mouth
]
# Land that juts into it: spits and islands, the same way.
LANDS = [
    [(635, 213, 106), (685, 353, 47), (704, 426, 18)],           # south spit
    [(1475, 1518, 134), (1531, 1372, 62), (1559, 1299, 20)],    # north spit
    [(579, 1103, 134), (713, 1092, 45), (771, 1070, 16)],       # shoulder below the north arm
    [(2471, 1260, 146), (2365, 1277, 50), (2303, 1294, 16)],    # east spit
    [(1945, 140, 90), (1984, 263, 34), (1995, 308, 13)],        # spit in the south-east bay
    [(520, 1515, 90), (640, 1528, 34)],                         # pinch of the north arm, west side
    [(1130, 1565, 120), (985, 1550, 60), (915, 1545, 26)],      # and east side
    [(2420, 1420, 60), (2330, 1440, 30)],                       # pinch before the east end
    [(2020, 1640, 80), (2105, 1585, 30)],
    [(2290, 890, 110), (2190, 770, 30), (2160, 735, 12)],       # spit above the south-east bay
    [(330, 960, 100), (470, 880, 24)],                          # knob on the steep shore
    [(1330, 1330, 90), (1290, 1215, 30)],                       # knob on the north shore
    [(1116, 1042, 45), (1170, 1066, 30), (1226, 1066, 40)],                       # long island
    [(1846, 743, 29), (1867, 722, 25)],                         # little island off the south-east bay
]
POND = [(2427, 106, 27), (2450, 118, 16)]

# Floor: (depth added to BASE, centre, half axes, direction of the long one).
BASE = 7.7
BASINS = [
    (5.4, (444, 543), 336, 213, (3, 1)),
    (1.7, (380, 500), 130, 90, (1, 2)),
    (9.6, (1116, 700), 390, 240, (3, 1)),
    (4.6, (1040, 722), 180, 110, (2, 1)),
    (7.6, (1833, 1215), 346, 213, (4, 3)),
    (2.4, (1760, 1180), 150, 90, (1, 1)),
    (4.2, (881, 1439), 235, 134, (-1, 3)),
    (-3.4, (993, 1103), 168, 224, (1, 0)),      # sill of the north arm
    (-2.6, (1833, 689), 190, 224, (1, 1)),       # sill of the south-east bay
    (-2.3, (1475, 913), 168, 370, (2, 1)),      # high ground between the middle and the east hole
    (-1.9, (2102, 465), 370, 291, (1, -1)),
    (3.9, (2147, 442), 134, 95, (1, -1)),        # hole in the south-east bay
    (-5.9, (250, 1120), 430, 330, (0, 1)),       # the weedy bay is shallow
    (-3.6, (2236, 1551), 291, 224, (1, 1)),      # and so is the east end
    (-3.4, (758, 1674), 246, 190, (1, 0)),       # and the head of the north arm
]

# Shore by stretch: (shelf width, lip depth, grade of the slope beyond), pulled towards these near a centre.
SHELF = (26.0, 2.1, 0.20)
STRETCHES = [
    ((1351, 454), 370, 168, (2, 1), (3.0, 0.5, 0.95)),         # the wall
    ((579, 935), 291, 168, (2, 1), (8.0, 1.2, 0.55)),         # steep north-west shore
    ((1900, 1518), 470, 291, (4, 3), (125.0, 2.9, 0.36)),      # wide shelf with a long drop-off
    ((343, 297), 370, 224, (3, 1), (70.0, 2.4, 0.27)),         # south-west shelf
    ((2191, 398), 336, 291, (1, 0), (45.0, 1.8, 0.13)),        # soft south-east bay
    ((240, 1140), 270, 280, (1, 0), (60.0, 1.4, 0.07)),        # weedy bay
    ((1071, 353), 146, 123, (1, 0), (55.0, 1.2, 0.16)),        # delta
    ((1045, 230), 150, 110, (0, 1), (40.0, 1.2, 0.05)),        # creek
]

# Raised ground under water: (line of (x, y, depth of the crest), half width of the crest, grade of its sides).
BARS = [
    ([(1062, 380, 0.5), (1075, 440, 1.1), (1085, 478, 2.0)], 48, 0.20),                          # delta
    ([(704, 426, 0.6), (730, 498, 1.9), (758, 582, 3.6), (771, 633, 6.5)], 14, 0.24),         # off the south spit
    ([(1559, 1299, 0.7), (1592, 1215, 2.2), (1609, 1154, 4.4), (1615, 1109, 8)], 15, 0.27),   # off the north spit
    ([(771, 1070, 0.6), (838, 1036, 2.4), (898, 991, 5.0)], 12, 0.22),                       # off the shoulder
    ([(2303, 1294, 0.6), (2236, 1322, 2.1), (2158, 1338, 4.6)], 14, 0.22),                    # off the east spit
    ([(1995, 308, 0.5), (2018, 375, 2.2), (2023, 431, 4.0)], 10, 0.15),                       # south-east bay
    ([(1211, 1070, 0.8), (1275, 1058, 4.4), (1318, 1034, 4.9), (1368, 1002, 2.7), (1421, 991, 2.9)], 20, 0.19),
    ([(1116, 1042, 0.8), (1066, 1008, 2.6), (1027, 986, 4.8)], 14, 0.25),                    # west end of the island
    ([(1867, 722, 0.6), (1902, 673, 3.0), (1934, 633, 5.0)], 12, 0.22),                       # off the little island
]
HUMPS = [
    ([(595, 722, 3.9), (646, 743, 4.3)], 20, 0.15),             # west hump
    ([(1491, 784, 2.4), (1542, 806, 3.0)], 14, 0.24),           # middle hump, steep
    ([(1251, 594, 6.1), (1275, 608, 6.4)], 18, 0.16),           # deep hump under the wall
    ([(1995, 1288, 4.3), (2040, 1327, 4.9)], 22, 0.15),         # east hump
    ([(2091, 560, 3.5), (2113, 577, 3.7)], 20, 0.09),           # low hump in the south-east bay
    ([(847, 1277, 3.2), (852, 1296, 3.4)], 16, 0.16),           # hump in the north arm
    ([(875, 577, 0.4), (894, 587, 0.5), (919, 591, 1.1)], 9, 0.26),    # the shoal: a hazard
    ([(304, 666, 1.3), (312, 673, 1.5)], 8, 0.2),              # small west reef
]
# Sunk ground: (line of (x, y, depth of the bed), half width of the bed, grade of its sides).
CHANNELS = [
    ([(1056, 202, 0.7), (1038, 252, 1.2), (1062, 336, 1.7), (1047, 398, 2.4), (1076, 459, 3.5), (1071, 519, 6.0)], 6, 0.30),
    ([(1056, 353, 1.6), (1015, 414, 2.3), (982, 470, 4.0)], 4, 0.30),                        # side arm of the delta
    ([(245, 1010, 2.2), (246, 860, 2.8), (222, 770, 3.4), (240, 690, 5.0)], 8, 0.16),        # out of the weedy bay
]


def _wandered(x, y):
    """Bends straight lines the way that shores bend."""
    dx = 46 * noise(x, y, 270, 1) + 27 * noise(x, y, 118, 2) + 13 * noise(x, y, 52, 3) + 5.5 * noise(x, y, 22, 4)
    dy = 46 * noise(x, y, 270, 5) + 27 * noise(x, y, 118, 6) + 13 * noise(x, y, 52, 7) + 5.5 * noise(x, y, 22, 8)
    return dx, dy


def shore_distance(x, y):
    """Metres from shore, roughly: positive in the lake, negative on land."""
    dx, dy = _wandered(x, y)
    wx, wy = x + dx, y + dy
    water = 1e9
    for line in WATERS:
        water = smooth_min(water, outside(wx, wy, line), 60.0)
    lake = 12.0 - water
    wx, wy = x + 0.45 * dx, y + 0.45 * dy
    for line in LANDS:
        lake = smooth_min(lake, outside(wx, wy, line), 16.0)
    return lake


def pond_distance(x, y):
    dx, dy = _wandered(x, y)
    return -outside(x + 0.4 * dx, y + 0.4 * dy, POND)


def _shelf(x, y):
    width, lip, grade = SHELF
    width *= 1.0 + 0.45 * noise(x, y, 260, 11) + 0.35 * noise(x, y, 110, 12)
    lip *= 1.0 + 0.22 * noise(x, y, 300, 13)
    grade *= 1.0 + 0.45 * noise(x, y, 340, 14)
    for centre, along, across, direction, (to_width, to_lip, to_grade) in STRETCHES:
        share = min(1.0, 1.7 * mound(x, y, centre, along, across, direction))
        width += share * (to_width * (1.0 + 0.28 * noise(x, y, 120, 15)) - width)
        lip += share * (to_lip - lip)
        grade += share * (to_grade - grade)
    return width, lip, grade


def _from_shore(distance, width, lip, grade):
    """Depth by distance from shore: quick at the edge, flatter on the shelf, over a lip onto the slope, easing at its foot."""
    t = min(1.0, distance / width)
    drop = grade * rounded_ramp(distance - width, min(9.0, width))
    return lip * t * (1.55 - 0.55 * t) + drop - 0.5 * rounded_ramp(drop - 3.4, 1.4)


def depth(x, y):
    """Metres below the surface; 0 or less outside the lake and the pond."""
    shore = shore_distance(x, y)
    if shore <= 0.0:
        pond = pond_distance(x, y)
        return max(0.03, 3.1 * (1.0 - (1.0 - min(1.0, pond / 30.0)) ** 2)) if pond > 0.0 else 0.0
    dx, dy = _wandered(x, y)
    wx, wy = x + 0.9 * dx, y + 0.9 * dy
    floor = BASE + 1.15 * noise(x, y, 250, 21) + 0.6 * noise(x, y, 105, 22) + 0.25 * noise(x, y, 60, 23)
    for amount, centre, along, across, direction in BASINS:
        floor += amount * mound(wx, wy, centre, along, across, direction)
    wx, wy = x + 0.5 * dx, y + 0.5 * dy
    z = smooth_min(_from_shore(shore, *_shelf(x, y)), floor, 3.0)
    lumps = 9.0 * noise(x, y, 44, 41) + 5.0 * noise(x, y, 23, 42)
    for line, half, grade in BARS + HUMPS:
        away, crest = to_line(wx, wy, line)
        if away < 140.0:
            away += lumps
            z = smooth_min(z, crest + grade * rounded_ramp(away - half, 1.2 * half), 0.9)
    for line, half, grade in CHANNELS:
        away, bed = to_line(x + 0.25 * dx, y + 0.25 * dy, line)
        z = smooth_max(z, min(bed - grade * rounded_ramp(away - half, half), 0.06 + 0.2 * shore + 0.5 * z), 0.3)
    rough = 0.22 * noise(x, y, 62, 31) + 0.11 * noise(x, y, 27, 32) + 0.05 * noise(x, y, 12, 33)
    return max(0.03, z + rough * min(1.0, z / 3.5))
