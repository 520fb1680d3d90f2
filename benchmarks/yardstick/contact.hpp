// Clearance of a puck on a straight path from a rounded box: the same as src/sim/{rounded-box,planar-distance}.ts.
#pragma once
#include "swept.hpp"

// squared sines under which a path counts as upright and as level, and an edge as along it
constexpr double UPRIGHT_PATH = 1e-16, LEVEL_PATH = 1e-12, EDGE_ON = 1e-22;
constexpr double NO_ANGLE = 1e-8, SQUARE = 1e-24, FLAT = 1e-20;
constexpr int MOST_STEPS = 48, NO_CORNER = -1;

// what the path shows of box and disc
inline void seeAlong(const Box& box, const Row& row, double length, Plane& p) {
  const double q0 = row.q[0], q1 = row.q[1], q2 = row.q[2], w0 = row.w[0], w1 = row.w[1], w2 = row.w[2];
  const double u0 = row.up[0], u1 = row.up[1], u2 = row.up[2];
  const double rise = u0 * w0 + u1 * w1 + u2 * w2, both = length * (u0 * u0 + u1 * u1 + u2 * u2);
  double a0 = u1 * w2 - u2 * w1, a1 = u2 * w0 - u0 * w2, a2 = u0 * w1 - u1 * w0;
  double across = a0 * a0 + a1 * a1 + a2 * a2;
  if (across <= UPRIGHT_PATH * both) {
    a0 = w1 - w2;
    a1 = w2 - w0;
    a2 = w0 - w1;
    across = a0 * a0 + a1 * a1 + a2 * a2;
  }
  const double unit = 1 / std::sqrt(across), pace = 1 / std::sqrt(length);
  a0 *= unit;
  a1 *= unit;
  a2 *= unit;
  double b0 = (w1 * a2 - w2 * a1) * pace, b1 = (w2 * a0 - w0 * a2) * pace, b2 = (w0 * a1 - w1 * a0) * pace;
  if (a0 * a0 + b0 * b0 < EDGE_ON) a0 = b0 = 0;
  if (a1 * a1 + b1 * b1 < EDGE_ON) a1 = b1 = 0;
  if (a2 * a2 + b2 * b2 < EDGE_ON) a2 = b2 = 0;
  double tilt = (rise * rise) / both;
  if (tilt < LEVEL_PATH) tilt = 0;
  p.x = q0 * a0 + q1 * a1 + q2 * a2;
  p.y = q0 * b0 + q1 * b1 + q2 * b2;
  p.a[0] = box.h[0] * a0;
  p.a[1] = box.h[1] * a1;
  p.a[2] = box.h[2] * a2;
  p.a[3] = 0;
  p.b[0] = box.h[0] * b0;
  p.b[1] = box.h[1] * b1;
  p.b[2] = box.h[2] * b2;
  p.b[3] = box.discHalf * std::sqrt(tilt < 1 ? 1 - tilt : 0);
  p.tilt = tilt;
}

// how the corner moves for the segments square to the direction
struct Shift {
  double bow, slope;
  int corner, squares;
};

inline Shift shiftSquare(const Plane& p, double c, double s, double slope, int name, double level) {
  const double unit = 1 / std::sqrt(c * c + s * s), square = SQUARE * (c * c + s * s);
  int squares = 0, leftward = 0;
  double slack = 0, taken = 0;
  for (int i = 0; i < 4; i++) {
    const double gx = p.a[i], gy = p.b[i], far = c * gx + s * gy;
    if (far * far >= square) continue;
    const double along = (c * gy - s * gx) * unit;
    if (along == 0) continue;
    const int bit = 1 << i;
    squares |= bit;
    if (along > 0) leftward |= bit;
    slack += along > 0 ? along : -along;
    taken += (name & bit) == 0 ? -along : along;
  }
  const double middle = slope * unit + taken, most = slack + level;
  const int side = middle > most ? 1 : middle < -most ? -1 : 0;
  return {(side * most - taken) * unit, side == 0 ? 0 : (middle - side * most) / unit,
          (name & ~squares) | (side < 0 ? squares & ~leftward : leftward), squares};
}

enum Begun { AHEAD, STRAIGHT, TURNED };

// where the search begins: where the last one ended, or square to the longest segment, or straight at the point
inline Begun beginSearch(const Plane& p, Start& start) {
  const double c = start.c, s = start.s;
  const bool ahead = c * p.x + s * p.y > 0;
  const int squares = start.squares;
  if (ahead && squares == 0) return AHEAD;
  start.squares = 0;
  int i = 3;
  if (ahead) i = squares & 1 ? 0 : squares & 2 ? 1 : squares & 4 ? 2 : 3;
  else {
    double longest = 0;
    for (int j = 0; j < 3; j++) {
      const double squared = p.a[j] * p.a[j] + p.b[j] * p.b[j];
      if (squared > longest) {
        longest = squared;
        i = j;
      }
    }
  }
  const double gx = p.a[i], gy = p.b[i];
  const int turn = gy * (ahead ? c : p.x) - gx * (ahead ? s : p.y) > 0 ? 1 : -1;
  const double nx = turn * gy, ny = -turn * gx;
  if (nx * p.x + ny * p.y > 0) {
    start.c = nx;
    start.s = ny;
    return AHEAD;
  }
  if (ahead) return AHEAD;
  start.c = p.x != 0 || p.y != 0 ? p.x : 1;
  start.s = p.y;
  return STRAIGHT;
}

// the best direction so far on one side: its corner, where that lies with the bow, and itself
struct Side {
  int corner = NO_CORNER;
  double bowX = 0, bowY = 0, c = 0, s = 0;
};

// distance of the point from the sum of segments and ellipse, 0 where it is inside
inline double distanceInPlane(const Plane& p, double radius, Start& start) {
  const double x = p.x, y = p.y, a0 = p.a[0], a1 = p.a[1], a2 = p.a[2];
  const double b0 = p.b[0], b1 = p.b[1], b2 = p.b[2], b3 = p.b[3], tilt = p.tilt;
  Begun begun = beginSearch(p, start);
  double c = start.c, s = start.s;
  Side right, left;
  bool outside = false, wasRight = false;
  for (int step = 0; step < MOST_STEPS; step++) {
    const double d0 = c * a0 + s * b0, d1 = c * a1 + s * b1, d2 = c * a2 + s * b2, d3 = s * b3;
    int corner = (d0 > 0 ? 1 : 0) | (d1 > 0 ? 2 : 0) | (d2 > 0 ? 4 : 0) | (d3 > 0 ? 8 : 0);
    const double vx = (d0 > 0 ? a0 : -a0) + (d2 > 0 ? a2 : -a2) + (d1 > 0 ? a1 : -a1);
    const double vy = (d0 > 0 ? b0 : -b0) + (d2 > 0 ? b2 : -b2) + ((d1 > 0 ? b1 : -b1) + (d3 > 0 ? b3 : -b3));
    const double bend = c * c + tilt * s * s, nn = c * c + s * s;
    const double bow = bend > FLAT * nn ? radius / std::sqrt(bend) : 0;
    double rx = x - vx - bow * c, ry = y - vy - bow * tilt * s;
    const double gain = c * rx + s * ry, square = SQUARE * nn;
    double t = c * ry - s * rx;
    int squares = 0;
    if (d0 * d0 < square || d1 * d1 < square || d2 * d2 < square || d3 * d3 < square || bow == 0) {
      const Shift shift = shiftSquare(p, c, s, t, corner, bow == 0 ? radius : 0);
      t = shift.slope;
      rx += shift.bow * s;
      ry -= shift.bow * c;
      corner = shift.corner;
      squares = shift.squares;
    }
    if (gain > 0) {
      if (t * t <= NO_ANGLE * gain * gain) {
        start = {c, s, squares};
        return std::sqrt((gain * gain + t * t) / nn);
      }
      outside = true;
    } else if (begun == TURNED && t * t <= NO_ANGLE * gain * gain) break;

    const bool flipped = (t > 0) != wasRight;
    wasRight = t > 0;
    (wasRight ? right : left) = {corner, x - rx, y - ry, c, s};
    const double curve = bow > 0 ? (bow * tilt * nn) / bend : 0;
    double nx = rx + curve * c, ny = ry + curve * s;
    if (right.corner == NO_CORNER || left.corner == NO_CORNER) {
      if (!(gain > 0)) {
        if (begun == TURNED) break;
        if (begun == STRAIGHT) {
          nx = wasRight ? -s : s;
          ny = wasRight ? c : -c;
          begun = TURNED;
        } else {
          nx = x;
          ny = y;
          begun = STRAIGHT;
          right.corner = left.corner = NO_CORNER;
        }
      }
    } else {
      const double chordX = left.bowX - right.bowX, chordY = left.bowY - right.bowY;
      if (!outside && (x - right.bowX) * chordY - (y - right.bowY) * chordX <= 0) break;
      if (right.corner != left.corner) {
        const int differ = right.corner ^ left.corner, i = differ & 1 ? 0 : differ & 2 ? 1 : differ & 4 ? 2 : 3;
        const int sign = (left.corner & (differ & -differ)) == 0 ? -1 : 1;
        nx = sign * p.b[i];
        ny = -sign * p.a[i];
      } else if (chordX * chordX + chordY * chordY > SQUARE &&
                 (flipped || !(gain > 0 && right.c * ny - right.s * nx > 0 && nx * left.s - ny * left.c > 0))) {
        nx = chordY;
        ny = -chordX;
      }
    }
    c = nx;
    s = ny;
  }
  return 0;
}

// metres between disc and rounded box, no less than minus the rounding; the search starts where the last one ended
inline double solve(Box& box, const Row& row) {
  const double w0 = row.w[0], w1 = row.w[1], w2 = row.w[2], length = w0 * w0 + w1 * w1 + w2 * w2;
  Plane plane;
  seeAlong(box, row, length, plane);
  double nearest = distanceInPlane(plane, box.discRadius, box.start);
  const double middle = -(row.q[0] * w0 + row.q[1] * w1 + row.q[2] * w2) / length;
  const double along = box.h[0] * std::fabs(w0) + box.h[1] * std::fabs(w1) + box.h[2] * std::fabs(w2);
  const double reach = along / length + (box.discRadius + box.discHalf) / std::sqrt(length);
  if (middle - reach < box.least || middle + reach > box.most)
    nearest = distanceInSpace(box, row, plane, nearest, length, middle);
  return nearest - box.rounding;
}
