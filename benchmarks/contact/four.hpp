// The clearance of ../yardstick/contact.hpp for four pairs at once; every lane takes the steps it would take alone.
#pragma once
#include "../yardstick/contact.hpp"
#ifdef __AVX2__
#include <immintrin.h>

typedef double V __attribute__((vector_size(32)));
typedef long long M __attribute__((vector_size(32)));

inline V root(V x) { return (V)_mm256_sqrt_pd((__m256d)x); }
inline V magnitude(V x) { return x < 0 ? -x : x; }
inline bool any(M mask) { return _mm256_movemask_pd((__m256d)mask) != 0; }
inline V all(double x) { return V{x, x, x, x}; }

// four boxes and paths, column by column
struct Four {
  V q[3], w[3], up[3], h[3], rounding, least, most, radius, half;

  void put(int lane, const Box& box, const Row& row) {
    for (int i = 0; i < 3; i++) {
      q[i][lane] = row.q[i];
      w[i][lane] = row.w[i];
      up[i][lane] = row.up[i];
      h[i][lane] = box.h[i];
    }
    rounding[lane] = box.rounding;
    least[lane] = box.least;
    most[lane] = box.most;
    radius[lane] = box.discRadius;
    half[lane] = box.discHalf;
  }
  Box box(int lane) const {
    return {{h[0][lane], h[1][lane], h[2][lane]}, rounding[lane], least[lane], most[lane], radius[lane], half[lane], COLD};
  }
  Row row(int lane) const {
    Row out;
    for (int i = 0; i < 3; i++) {
      out.q[i] = q[i][lane];
      out.w[i] = w[i][lane];
      out.up[i] = up[i][lane];
    }
    return out;
  }
};

struct Plane4 {
  V x, y, a[4], b[4], tilt, radius;
};

inline V dot(const V* x, const V* y) { return x[0] * y[0] + x[1] * y[1] + x[2] * y[2]; }

inline void seeAlong(const Four& f, V length, Plane4& p) {
  const V *u = f.up, *w = f.w;
  const V rise = dot(u, w), both = length * dot(u, u);
  V a[3] = {u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]};
  V across = dot(a, a);
  const M upright = across <= UPRIGHT_PATH * both;
  if (any(upright)) {
    a[0] = upright ? w[1] - w[2] : a[0];
    a[1] = upright ? w[2] - w[0] : a[1];
    a[2] = upright ? w[0] - w[1] : a[2];
    across = dot(a, a);
  }
  const V unit = 1 / root(across), pace = 1 / root(length);
  for (V& x : a) x *= unit;
  V b[3] = {(w[1] * a[2] - w[2] * a[1]) * pace, (w[2] * a[0] - w[0] * a[2]) * pace, (w[0] * a[1] - w[1] * a[0]) * pace};
  for (int i = 0; i < 3; i++) {
    const M edgeOn = a[i] * a[i] + b[i] * b[i] < EDGE_ON;
    a[i] = edgeOn ? all(0) : a[i];
    b[i] = edgeOn ? all(0) : b[i];
  }
  V tilt = (rise * rise) / both;
  tilt = tilt < LEVEL_PATH ? all(0) : tilt;
  p.x = dot(f.q, a);
  p.y = dot(f.q, b);
  for (int i = 0; i < 3; i++) {
    p.a[i] = f.h[i] * a[i];
    p.b[i] = f.h[i] * b[i];
  }
  p.a[3] = all(0);
  p.b[3] = f.half * root(tilt < 1 ? 1 - tilt : all(0));
  p.tilt = tilt;
  p.radius = f.radius;
}

// the state of a search that has not ended in all lanes
class Search4 {
 public:
  explicit Search4(const Plane4& plane) : p(plane) { begin(); }

  V distance() {
    for (int step = 0; step < MOST_STEPS && any(live); step++) {
      look();
      end();
      if (!any(live)) break;
      keep();
      turn();
    }
    return nearest;
  }

 private:
  const Plane4& p;
  V c, s, nearest = all(0);
  M live = M{-1, -1, -1, -1}, outside{}, wasRight{}, flipped{};
  // begun straight at the point; turned a quarter from there
  M straight{}, turned{};
  M right = M{-1, -1, -1, -1}, left = M{-1, -1, -1, -1};
  V rightX{}, rightY{}, rightC{}, rightS{}, leftX{}, leftY{}, leftC{}, leftS{};
  // of one step: corner and the way from it to the point, how far that goes along and across the direction, the bow
  M corner;
  V rx, ry, gain, t, bow, bend, nn;

  // square to the longest segment, or straight at the point
  void begin() {
    V longest = all(0), gx = all(0), gy = p.b[3];
    for (int i = 0; i < 3; i++) {
      const V squared = p.a[i] * p.a[i] + p.b[i] * p.b[i];
      const M longer = squared > longest;
      longest = longer ? squared : longest;
      gx = longer ? p.a[i] : gx;
      gy = longer ? p.b[i] : gy;
    }
    const M leftward = gy * p.x - gx * p.y > 0;
    c = leftward ? gy : -gy;
    s = leftward ? -gx : gx;
    straight = ~(c * p.x + s * p.y > 0);
    const M somewhere = (p.x != 0) | (p.y != 0);
    c = straight ? (somewhere ? p.x : all(1)) : c;
    s = straight ? p.y : s;
  }

  // the corner that lies farthest in the direction
  void look() {
    const V d0 = c * p.a[0] + s * p.b[0], d1 = c * p.a[1] + s * p.b[1], d2 = c * p.a[2] + s * p.b[2], d3 = s * p.b[3];
    const M m0 = d0 > 0, m1 = d1 > 0, m2 = d2 > 0, m3 = d3 > 0;
    corner = (m0 & 1) | (m1 & 2) | (m2 & 4) | (m3 & 8);
    const V vx = (m0 ? p.a[0] : -p.a[0]) + (m2 ? p.a[2] : -p.a[2]) + (m1 ? p.a[1] : -p.a[1]);
    const V vy = (m0 ? p.b[0] : -p.b[0]) + (m2 ? p.b[2] : -p.b[2]) +
                 ((m1 ? p.b[1] : -p.b[1]) + (m3 ? p.b[3] : -p.b[3]));
    bend = c * c + p.tilt * s * s;
    nn = c * c + s * s;
    bow = bend > FLAT * nn ? p.radius / root(bend) : all(0);
    rx = p.x - vx - bow * c;
    ry = p.y - vy - bow * p.tilt * s;
    gain = c * rx + s * ry;
    t = c * ry - s * rx;
    const V square = SQUARE * nn;
    const M level = bow == 0;
    const M shifted = (d0 * d0 < square) | (d1 * d1 < square) | (d2 * d2 < square) | (d3 * d3 < square) | level;
    if (any(shifted & live)) shift(shifted, level ? p.radius : all(0));
  }

  // of what is square to the direction, the end toward the point
  void shift(M where, V level) {
    const V unit = 1 / root(nn), square = SQUARE * nn;
    M squares{}, leftward{};
    V slack = all(0), taken = all(0);
    for (int i = 0; i < 4; i++) {
      const V far = c * p.a[i] + s * p.b[i], along = (c * p.b[i] - s * p.a[i]) * unit;
      const M counts = (far * far < square) & (along != 0), ahead = along > 0;
      const long long bit = 1 << i;
      squares |= counts & bit;
      leftward |= counts & ahead & bit;
      slack += counts ? magnitude(along) : all(0);
      taken += counts ? ((corner & bit) == 0 ? -along : along) : all(0);
    }
    const V middle = t * unit + taken, most = slack + level;
    const M toLeft = middle > most, toRight = middle < -most;
    const V end = toLeft ? most : toRight ? -most : all(0);
    const V moved = (end - taken) * unit;
    t = where ? (toLeft | toRight ? (middle - end) / unit : all(0)) : t;
    rx += where ? moved * s : all(0);
    ry -= where ? moved * c : all(0);
    corner = where ? (corner & ~squares) | (toRight ? squares & ~leftward : leftward) : corner;
  }

  // lanes that are there, or known to be inside
  void end() {
    const M gains = gain > 0, there = t * t <= NO_ANGLE * gain * gain;
    const M found = live & gains & there;
    nearest = found ? root((gain * gain + t * t) / nn) : nearest;
    outside |= gains;
    live &= ~(there & (gains | turned));
  }

  void keep() {
    const M now = t > 0;
    flipped = now ^ wasRight;
    wasRight = now;
    const V x = p.x - rx, y = p.y - ry;
    right = now ? corner : right;
    rightX = now ? x : rightX;
    rightY = now ? y : rightY;
    rightC = now ? c : rightC;
    rightS = now ? s : rightS;
    left = now ? left : corner;
    leftX = now ? leftX : x;
    leftY = now ? leftY : y;
    leftC = now ? leftC : c;
    leftS = now ? leftS : s;
  }

  // the next direction: Newton's, or square to what lies between the two corners
  void turn() {
    const V curve = bow > 0 ? (bow * p.tilt * nn) / bend : all(0);
    V nx = rx + curve * c, ny = ry + curve * s;
    const M one = (right < 0) | (left < 0);
    const V chordX = leftX - rightX, chordY = leftY - rightY;
    const M inside = ~outside & ((p.x - rightX) * chordY - (p.y - rightY) * chordX <= 0);
    live &= one | ~inside;

    const M differ = right ^ left, first = differ & -differ;
    V gx = p.a[3], gy = p.b[3];
    for (int i = 2; i >= 0; i--) {
      const M here = first == (1 << i);
      gx = here ? p.a[i] : gx;
      gy = here ? p.b[i] : gy;
    }
    const M away = (left & first) == 0;
    const M between = ~one & (differ != 0);
    const M newton = (gain > 0) & (rightC * ny - rightS * nx > 0) & (nx * leftS - ny * leftC > 0);
    const M chord = ~one & (differ == 0) & (chordX * chordX + chordY * chordY > SQUARE) & (flipped | ~newton);
    nx = between ? (away ? -gy : gy) : chord ? chordY : nx;
    ny = between ? (away ? gx : -gx) : chord ? -chordX : ny;

    // seen from outside on one side alone: straight at the point, then a quarter turn
    const M lost = one & ~(gain > 0);
    if (any(lost & live)) {
      const M quarter = lost & straight, again = lost & ~straight & ~turned;
      live &= ~(lost & turned);
      nx = quarter ? (wasRight ? -s : s) : again ? p.x : nx;
      ny = quarter ? (wasRight ? c : -c) : again ? p.y : ny;
      turned |= quarter;
      straight = again | (straight & ~quarter);
      right |= again;
      left |= again;
    }
    c = live ? nx : c;
    s = live ? ny : s;
  }
};

// metres between each disc and its rounded box; lanes whose path ends near the box are solved one by one
inline V solve(const Four& f) {
  const V length = dot(f.w, f.w);
  Plane4 plane;
  seeAlong(f, length, plane);
  V clearance = Search4(plane).distance() - f.rounding;
  const V middle = -dot(f.q, f.w) / length;
  const V along = f.h[0] * magnitude(f.w[0]) + f.h[1] * magnitude(f.w[1]) + f.h[2] * magnitude(f.w[2]);
  const V reach = along / length + (f.radius + f.half) / root(length);
  const M ends = (middle - reach < f.least) | (middle + reach > f.most);
  if (any(ends))
    for (int lane = 0; lane < 4; lane++) {
      if (!ends[lane]) continue;
      Box box = f.box(lane);
      clearance[lane] = solve(box, f.row(lane));
    }
  return clearance;
}
#endif
