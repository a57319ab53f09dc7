# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
"""Building blocks of a lake floor: noise, smooth joins, and distances to drawn lines.

Everything is made of + - * / and sqrt, which IEEE 754 rounds exactly: every machine gets the same numbers. Metres.
"""
from math import floor, sqrt

_lattice = {}


def _lattice_value(ix, iy, seed):
    """A fixed number in [-1, 1) for a lattice point: an integer mix, no random generator."""
    key = (ix, iy, seed)
    value = _lattice.get(key)
    if value is None:
        h = (ix * 0x27D4EB2D + iy * 0x165667B1 + seed * 0x9E3779B1) & 0xFFFFFFFF
        h = ((h ^ (h >> 15)) * 0x2C1B3C6D) & 0xFFFFFFFF
        h = ((h ^ (h >> 12)) * 0x297A2D39) & 0xFFFFFFFF
        value = (h ^ (h >> 15)) / 2147483648.0 - 1.0
        _lattice[key] = value
    return value


def noise(x, y, wavelength, seed):
    """Smooth noise in (-1, 1): lattice values joined with a curve that has no corner in slope or curvature."""
    u, v = x / wavelength, y / wavelength
    iu, iv = floor(u), floor(v)
    u, v = u - iu, v - iv
    u = u * u * u * (u * (u * 6.0 - 15.0) + 10.0)
    v = v * v * v * (v * (v * 6.0 - 15.0) + 10.0)
    low = _lattice_value(iu, iv, seed) * (1.0 - u) + _lattice_value(iu + 1, iv, seed) * u
    high = _lattice_value(iu, iv + 1, seed) * (1.0 - u) + _lattice_value(iu + 1, iv + 1, seed) * u
    return low * (1.0 - v) + high * v


def smooth_min(a, b, width):
    """The smaller of two, with the corner where they meet rounded over a difference of `width`."""
    h = width - abs(a - b)
    return min(a, b) if h <= 0.0 else min(a, b) - h * h / (4.0 * width)


def smooth_max(a, b, width):
    return -smooth_min(-a, -b, width)


def rounded_ramp(u, half):
    """0 left of zero, u right of it, the corner rounded over 2 x half."""
    if u <= -half:
        return 0.0
    return u if u >= half else (u + half) * (u + half) / (4.0 * half)


def mound(x, y, centre, along, across, direction=(1.0, 0.0)):
    """1 in the centre, 0 outside an ellipse with the half axes along and across; (1 - r^2)^2 between."""
    dx, dy = x - centre[0], y - centre[1]
    size = sqrt(direction[0] * direction[0] + direction[1] * direction[1])
    ux, uy = direction[0] / size, direction[1] / size
    p, q = (dx * ux + dy * uy) / along, (dy * ux - dx * uy) / across
    rest = 1.0 - p * p - q * q
    return rest * rest if rest > 0.0 else 0.0


def to_line(x, y, line):
    """Distance to a drawn line [(x, y, value), ...] and the value at the nearest place; the least of distance - value.

    With a radius as the value this is a body around the line that grows and shrinks along it.
    """
    best = None
    for (ax, ay, av), (bx, by, bv) in zip(line, line[1:] or line):
        px, py, sx, sy = x - ax, y - ay, bx - ax, by - ay
        square = sx * sx + sy * sy
        t = 0.0 if square == 0.0 else max(0.0, min(1.0, (px * sx + py * sy) / square))
        ex, ey = px - t * sx, py - t * sy
        found = (sqrt(ex * ex + ey * ey), av + t * (bv - av))
        if best is None or found[0] - found[1] < best[0] - best[1]:
            best = found
    return best


def outside(x, y, line):
    """Distance outside (negative: inside) the body around a line whose values are radii."""
    distance, radius = to_line(x, y, line)
    return distance - radius
