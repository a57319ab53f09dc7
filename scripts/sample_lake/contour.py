# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
"""The zero line of values on a lattice, as closed rings."""

# Sides of a lattice square, anticlockwise from its low-left corner; each piece of line has the positive side on its
# left, so that outer rings run anticlockwise and holes clockwise.
_LOW, _RIGHT, _HIGH, _LEFT = range(4)
_PIECES = {  # bit i: corner i (low left, low right, high right, high left) is positive
    1: [(_LOW, _LEFT)], 2: [(_RIGHT, _LOW)], 3: [(_RIGHT, _LEFT)], 4: [(_HIGH, _RIGHT)], 6: [(_HIGH, _LOW)],
    7: [(_HIGH, _LEFT)], 8: [(_LEFT, _HIGH)], 9: [(_LOW, _HIGH)], 11: [(_RIGHT, _HIGH)], 12: [(_LEFT, _RIGHT)],
    13: [(_LOW, _RIGHT)], 14: [(_LEFT, _LOW)],
}
_APART = {5: [(_LOW, _LEFT), (_HIGH, _RIGHT)], 10: [(_RIGHT, _LOW), (_LEFT, _HIGH)]}
_JOINED = {5: [(_LOW, _RIGHT), (_HIGH, _LEFT)], 10: [(_RIGHT, _HIGH), (_LEFT, _LOW)]}


def zero_rings(values, x0, y0, step):
    """values[row][column], rows from south to north; x0, y0: place of values[0][0].

    Returns closed rings [(x, y), ...] around what is positive, holes clockwise. Outside the lattice nothing is.
    """
    width = len(values[0]) + 2
    none = [-1.0] * width
    padded = [none] + [[-1.0] + row + [-1.0] for row in values] + [none]
    following = {}
    for j in range(len(padded) - 1):
        low, high = padded[j], padded[j + 1]
        for i in range(width - 1):
            corners = (low[i], low[i + 1], high[i + 1], high[i])
            case = sum(1 << k for k in range(4) if corners[k] > 0.0)
            if case in (0, 15):
                continue
            if case in (5, 10):
                pieces = (_JOINED if sum(corners) > 0.0 else _APART)[case]
            else:
                pieces = _PIECES[case]
            edges = (("h", i, j), ("v", i + 1, j), ("h", i, j + 1), ("v", i, j))
            for start, end in pieces:
                following[edges[start]] = edges[end]
    return _linked(following, padded, x0 - step, y0 - step, step)


def _linked(following, values, x0, y0, step):
    def place(edge):
        kind, i, j = edge
        a = values[j][i]
        b = values[j][i + 1] if kind == "h" else values[j + 1][i]
        t = min(0.98, max(0.02, a / (a - b)))
        return (x0 + step * (i + (t if kind == "h" else 0.0)), y0 + step * (j + (t if kind == "v" else 0.0)))

    rings = []
    for first in sorted(following):
        if first not in following:
            continue
        ring, edge = [], first
        while edge in following:
            ring.append(place(edge))
            edge = following.pop(edge)
        rings.append(ring + ring[:1])
    return rings


def signed_area(ring):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:])) / 2.0


def inside(ring, x, y):
    odd = False
    for (ax, ay), (bx, by) in zip(ring, ring[1:]):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            odd = not odd
    return odd


def polygons(rings, least_area):
    """Outer rings with their holes, [[outer, hole...], ...], largest first; rings below least_area are left out."""
    outer = [[ring] for ring in rings if signed_area(ring) >= least_area]
    outer.sort(key=lambda polygon: (-signed_area(polygon[0]), polygon[0][0]))
    for ring in rings:
        if signed_area(ring) <= -least_area:
            for polygon in reversed(outer):
                if inside(polygon[0], *ring[0]):
                    polygon.append(ring)
                    break
    return outer
