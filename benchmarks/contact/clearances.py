"""Clearances of a list of paths and rounded boxes with NumPy, all pairs side by side, each searched for anew.

  python3 clearances.py pairs.bin answers.bin passes

A pair is the head of a record of src/sim/box-record.ts, up to the disc's half thickness. The search is that of
src/sim/planar-distance.ts, step by step for all pairs that have not ended; no path may end near its box (NaN where one does).
Prints the processor seconds of all passes.
"""

import sys
import time

import numpy as np

UPRIGHT, LEVEL, EDGE_ON = 1e-16, 1e-12, 1e-22
NO_ANGLE, SQUARE, FLAT = 1e-8, 1e-24, 1e-20
MOST_STEPS = 48
BITS = np.array([1, 2, 4, 8])[:, None]
AHEAD, STRAIGHT, TURNED = 0, 1, 2


def along_path(q, w, up, h, half):
    """What each path shows: the point (x, y), the segments across and up [4 x pairs], squared sine of the slope."""
    length = (w * w).sum(0)
    both = length * (up * up).sum(0)
    a = np.cross(up, w, axis=0)
    upright = (a * a).sum(0) <= UPRIGHT * both
    a = np.where(upright, w[[1, 2, 0]] - w[[2, 0, 1]], a)
    a = a / np.sqrt((a * a).sum(0))
    b = np.cross(w, a, axis=0) / np.sqrt(length)
    edge_on = a * a + b * b < EDGE_ON
    a, b = np.where(edge_on, 0, a), np.where(edge_on, 0, b)
    tilt = (up * w).sum(0) ** 2 / both
    tilt = np.where(tilt < LEVEL, 0, tilt)
    thick = half * np.sqrt(np.maximum(0, 1 - tilt))
    ga = np.concatenate([h * a, np.zeros((1, w.shape[1]))])
    gb = np.concatenate([h * b, thick[None]])
    return (q * a).sum(0), (q * b).sum(0), ga, gb, tilt


def begin(x, y, ga, gb):
    """Square to the longest segment, or straight at the point."""
    pick = np.argmax(ga[:3] ** 2 + gb[:3] ** 2, axis=0)
    gx, gy = (np.take_along_axis(g, pick[None], 0)[0] for g in (ga, gb))
    sign = np.where(gy * x - gx * y > 0, 1.0, -1.0)
    c, s = sign * gy, -sign * gx
    straight = ~(c * x + s * y > 0)
    somewhere = (x != 0) | (y != 0)
    c = np.where(straight, np.where(somewhere, x, 1.0), c)
    return c, np.where(straight, y, s), np.where(straight, STRAIGHT, AHEAD)


def shift(c, s, nn, t, corner, d, across, level):
    """Of the segments square to a direction the ends toward the point: corner's move, slope, name."""
    unit = 1 / np.sqrt(nn)
    far = across * unit
    counts = (d * d < SQUARE * nn) & (far != 0)
    squares = (counts * BITS).sum(0)
    leftward = ((counts & (far > 0)) * BITS).sum(0)
    slack = (counts * np.abs(far)).sum(0)
    taken = np.where(counts, np.where(corner & BITS, far, -far), 0).sum(0)
    middle, most = t * unit + taken, slack + level
    side = (middle > most) * 1 - (middle < -most) * 1
    slope = np.where(side == 0, 0, (middle - side * most) / unit)
    name = (corner & ~squares) | np.where(side < 0, squares & ~leftward, leftward)
    return (side * most - taken) * unit, slope, name


class Search:
    """The pairs whose search has not ended; arrays are cut down to them after every step."""

    COLUMNS = "x y tilt radius c s begun outside was_right right rx0 ry0 rc rs left lx0 ly0 lc ls index".split()

    def __init__(self, x, y, ga, gb, tilt, radius):
        n = len(x)
        self.ga, self.gb = ga, gb
        self.x, self.y, self.tilt, self.radius = x, y, tilt, radius
        self.c, self.s, self.begun = begin(x, y, ga, gb)
        self.outside, self.was_right = np.zeros(n, bool), np.zeros(n, bool)
        self.right, self.left = np.full(n, -1), np.full(n, -1)
        for name in "rx0 ry0 rc rs lx0 ly0 lc ls".split():
            setattr(self, name, np.zeros(n))
        self.index = np.arange(n)
        self.nearest = np.zeros(n)

    def run(self):
        for _ in range(MOST_STEPS):
            if len(self.index) == 0:
                break
            self.step()
        return self.nearest

    def step(self):
        c, s, x, y = self.c, self.s, self.x, self.y
        d = c * self.ga + s * self.gb
        ahead = d > 0
        corner = (ahead * BITS).sum(0)
        sign = np.where(ahead, 1.0, -1.0)
        bend, nn = c * c + self.tilt * s * s, c * c + s * s
        bow = np.where(bend > FLAT * nn, self.radius / np.sqrt(bend), 0)
        rx = x - (sign * self.ga).sum(0) - bow * c
        ry = y - (sign * self.gb).sum(0) - bow * self.tilt * s
        gain, t = c * rx + s * ry, c * ry - s * rx
        k = np.nonzero((d * d < SQUARE * nn).any(0) | (bow == 0))[0]
        if len(k):
            across = c[k] * self.gb[:, k] - s[k] * self.ga[:, k]
            level = np.where(bow[k] == 0, self.radius[k], 0)
            move, t[k], corner[k] = shift(c[k], s[k], nn[k], t[k], corner[k], d[:, k], across, level)
            rx[k] += move * s[k]
            ry[k] -= move * c[k]
        there, gains = t * t <= NO_ANGLE * gain * gain, gain > 0
        found = there & gains
        self.nearest[self.index[found]] = np.sqrt((gain[found] ** 2 + t[found] ** 2) / nn[found])
        self.outside |= gains
        live = ~(there & (gains | (self.begun == TURNED)))
        flipped = (t > 0) != self.was_right
        self.keep(t > 0, corner, x - rx, y - ry)
        curve = np.where(bow > 0, bow * self.tilt * nn / bend, 0)
        self.turn(live, gain, flipped, rx + curve * c, ry + curve * s)

    def keep(self, now, corner, px, py):
        self.was_right = now
        for names, side in (("right rx0 ry0 rc rs", now), ("left lx0 ly0 lc ls", ~now)):
            for name, value in zip(names.split(), (corner, px, py, self.c, self.s)):
                setattr(self, name, np.where(side, value, getattr(self, name)))

    def turn(self, live, gain, flipped, nx, ny):
        c, s = self.c, self.s
        one = (self.right < 0) | (self.left < 0)
        lost = one & ~(gain > 0)
        live &= ~(lost & (self.begun == TURNED))
        cx, cy = self.lx0 - self.rx0, self.ly0 - self.ry0
        within = (self.x - self.rx0) * cy - (self.y - self.ry0) * cx <= 0
        live &= one | self.outside | ~within
        differ = self.right ^ self.left
        first = differ & -differ
        pick = np.where(first == 1, 0, np.where(first == 2, 1, np.where(first == 4, 2, 3)))[None]
        sign = np.where(self.left & first, 1.0, -1.0)
        between = ~one & (differ != 0)
        newton = (gain > 0) & (self.rc * ny - self.rs * nx > 0) & (nx * self.ls - ny * self.lc > 0)
        chord = ~one & (differ == 0) & (cx * cx + cy * cy > SQUARE) & (flipped | ~newton)
        quarter, again = lost & (self.begun == STRAIGHT), lost & (self.begun == AHEAD)
        side = np.where(self.was_right, 1.0, -1.0)
        cases = [between, chord, quarter, again]
        self.c = np.select(cases, [sign * np.take_along_axis(self.gb, pick, 0)[0], cy, -side * s, self.x], nx)
        self.s = np.select(cases, [-sign * np.take_along_axis(self.ga, pick, 0)[0], -cx, side * c, self.y], ny)
        self.begun = np.where(quarter, TURNED, np.where(again, STRAIGHT, self.begun))
        self.right, self.left = (np.where(again, -1, corner) for corner in (self.right, self.left))
        if not live.all():
            k = np.nonzero(live)[0]
            for name in self.COLUMNS:
                setattr(self, name, getattr(self, name)[k])
            self.ga, self.gb = self.ga[:, k], self.gb[:, k]


def clearances(pairs):
    q, w, up, h = pairs[0:3], pairs[3:6], pairs[6:9], pairs[9:12]
    rounding, least, most, radius, half = pairs[12:17]
    distance = Search(*along_path(q, w, up, h, half), radius).run()
    length = (w * w).sum(0)
    middle = -(q * w).sum(0) / length
    reach = (h * np.abs(w)).sum(0) / length + (radius + half) / np.sqrt(length)
    ends = (middle - reach < least) | (middle + reach > most)
    return np.where(ends, np.nan, distance) - rounding


def main():
    pairs = np.ascontiguousarray(np.fromfile(sys.argv[1]).reshape(-1, 17).T)
    start = time.process_time()
    with np.errstate(all="ignore"):
        for _ in range(int(sys.argv[3])):
            answers = clearances(pairs)
    print(f"{time.process_time() - start:.9f}")
    answers.tofile(sys.argv[2])


main()
