// Path, air, ice and aim: the same as src/sim/{path,flight,flight-step,ice,launch}.ts.
#pragma once
#include <algorithm>
#include <cmath>
#include <limits>
#include "scene.hpp"

constexpr int MOST_PIECES = 8;

// a piece holds from `start` on; height and time are cubics of the distance from there
struct Piece {
  double start, z0, z1, z2, z3, t0, t1, t2, t3;
};

struct Path {
  double x, y, dx, dy, end;
  int count;
  Piece pieces[MOST_PIECES + 1];

  const Piece& at(double D) const {
    int i = count - 1;
    while (i > 0 && pieces[i].start > D) i--;
    return pieces[i];
  }
  double height(double D) const {
    const Piece& p = at(D);
    const double q = D - p.start;
    return p.z0 + q * (p.z1 + q * (p.z2 + q * p.z3));
  }
  double slope(double D) const {
    const Piece& p = at(D);
    const double q = D - p.start;
    return p.z1 + q * (2 * p.z2 + q * 3 * p.z3);
  }
  double time(double D) const {
    const Piece& p = at(D);
    const double q = D - p.start;
    return p.t0 + q * (p.t1 + q * (p.t2 + q * p.t3));
  }
  double pace(double D) const {
    const Piece& p = at(D);
    const double q = D - p.start;
    return p.t1 + q * (2 * p.t2 + q * 3 * p.t3);
  }
};

// one Runge-Kutta step in distance, then the cubics that meet both ends
inline void stepPiece(const Numbers& world, Piece& piece, Piece& next, double h) {
  const double g = world[GRAVITY], k = world[DRAG], l = world[LIFT];
  const double s1 = piece.z1, p1 = piece.t1, half = 0.5 * h;
  const double q1 = 1 + s1 * s1, sec1 = std::sqrt(q1);
  const double bend1 = l * sec1 * q1 - g * p1 * p1, slow1 = p1 * sec1 * (k + l * s1);
  const double s2 = s1 + half * bend1, p2 = p1 + half * slow1;
  const double q2 = 1 + s2 * s2, sec2 = std::sqrt(q2);
  const double bend2 = l * sec2 * q2 - g * p2 * p2, slow2 = p2 * sec2 * (k + l * s2);
  const double s3 = s1 + half * bend2, p3 = p1 + half * slow2;
  const double q3 = 1 + s3 * s3, sec3 = std::sqrt(q3);
  const double bend3 = l * sec3 * q3 - g * p3 * p3, slow3 = p3 * sec3 * (k + l * s3);
  const double s4 = s1 + h * bend3, p4 = p1 + h * slow3;
  const double q4 = 1 + s4 * s4, sec4 = std::sqrt(q4);
  const double bend4 = l * sec4 * q4 - g * p4 * p4, slow4 = p4 * sec4 * (k + l * s4);

  const double sixth = h / 6;
  const double rise = sixth * (s1 + 2 * (s2 + s3) + s4);
  const double lapse = sixth * (p1 + 2 * (p2 + p3) + p4);
  const double sEnd = s1 + sixth * (bend1 + 2 * (bend2 + bend3) + bend4);
  const double pEnd = p1 + sixth * (slow1 + 2 * (slow2 + slow3) + slow4);
  next.start = piece.start + h;
  next.z0 = piece.z0 + rise;
  next.z1 = sEnd;
  next.t0 = piece.t0 + lapse;
  next.t1 = pEnd;

  const double perH = 1 / h, meanSlope = rise * perH, meanPace = lapse * perH;
  piece.z2 = (3 * meanSlope - 2 * s1 - sEnd) * perH;
  piece.z3 = (s1 + sEnd - 2 * meanSlope) * perH * perH;
  piece.t2 = (3 * meanPace - 2 * p1 - pEnd) * perH;
  piece.t3 = (p1 + pEnd - 2 * meanPace) * perH * perH;
}

inline int piecesFor(const Numbers& world, const Piece& piece, double span, int most) {
  const double s = piece.z1, p = piece.t1;
  const double fall = world[GRAVITY] * p * p * span;
  const double steepest = std::max(std::fabs(s), std::fabs(s - fall));
  const double slowing = (world[DRAG] + std::fabs(world[LIFT])) * span * std::sqrt(1 + steepest * steepest);
  if (slowing == 0) return 1;
  return int(std::min(std::ceil(9 * slowing + 1.5 * fall), double(most)));
}

inline double legLength(const Numbers& world, const Piece& piece, double until) {
  const double left = until - piece.start, s = piece.z1, p = piece.t1, lift = world[LIFT];
  const double bend = world[GRAVITY] * p * p - (lift > 0 ? 3 * lift : 0);
  if (bend <= 0) return left;
  const double height = piece.z0 - world[PUCK_HALF_THICKNESS];
  return std::min((1.001 * (s + std::sqrt(s * s + 2 * bend * height))) / bend, left);
}

inline void cutAtIce(Piece& piece, Piece& next, double floor) {
  const double above = piece.z0 - floor;
  double q = next.start - piece.start;
  for (int i = 0; i < 30; i++) {
    const double step = (above + q * (piece.z1 + q * (piece.z2 + q * piece.z3))) /
                        (piece.z1 + q * (2 * piece.z2 + q * 3 * piece.z3));
    q -= step;
    if (std::fabs(step) < 1e-12) break;
  }
  next.start = piece.start + q;
  next.z0 = floor;
  next.z1 = piece.z1 + q * (2 * piece.z2 + q * 3 * piece.z3);
  next.t0 = piece.t0 + q * (piece.t1 + q * (piece.t2 + q * piece.t3));
  next.t1 = piece.t1 + q * (2 * piece.t2 + q * 3 * piece.t3);
}

inline int flyLeg(const Numbers& world, Piece* piece, double until, int most) {
  const double floor = world[PUCK_HALF_THICKNESS];
  const double span = legLength(world, *piece, until);
  const double h = span / piecesFor(world, *piece, span, most);
  for (int used = 1;; used++, piece++) {
    const double left = until - piece->start;
    const bool arrives = h * 1.000001 > left;
    stepPiece(world, piece[0], piece[1], arrives ? left : h);
    if (piece[1].z0 <= floor) cutAtIce(piece[0], piece[1], floor);
    if (arrives || used == most || piece[1].z0 <= floor) return used;
  }
}

inline bool landOnIce(const Numbers& world, Piece& piece) {
  const double horizontal = 1 / piece.t1;
  const double down = -piece.z1 * horizontal, up = world[ICE_RESTITUTION] * down;
  const bool hops = up > world[SLIDE_THRESHOLD];
  const double lost = world[ICE_FRICTION] * (hops ? down + up : down);
  const double left = horizontal > lost ? horizontal - lost : 0;
  piece.z0 = world[PUCK_HALF_THICKNESS];
  piece.z1 = hops && left > 0 ? up / left : 0;
  piece.t1 = 1 / left;
  return hops && left > 0;
}

inline double slideLength(double friction, double k, double from, double to) {
  const double x = (k * (from * from - to * to)) / (friction + k * to * to);
  const double free = (from * from - to * to) / (2 * (friction + k * to * to));
  return x < 1e-9 ? free : free * (std::log1p(x) / x);
}

inline double slideTime(double friction, double k, double from, double to, double h) {
  if (from <= to) return h / from;
  const double r = (from - to) / (friction + k * from * to), x = r * std::sqrt(friction * k);
  return x < 1e-9 ? r : (r * std::atan(x)) / x;
}

inline int slideOnIce(const Numbers& world, Piece* piece, double until, int most) {
  const double friction = world[ICE_FRICTION] * world[GRAVITY], k = world[DRAG], start = piece->start;
  double speed = 1 / piece->t1;
  const double stopping =
      friction <= 0 ? std::numeric_limits<double>::infinity() : slideLength(friction, k, speed, 0);
  const double length = std::min(until - start, stopping);
  const double x = 2 * k * length, fade = x < 1e-9 ? 1 : -std::expm1(-x) / x;
  const double squared = speed * speed * std::exp(-x) - 2 * friction * length * fade;
  const double last = squared > 0 ? std::sqrt(squared) : 0;

  const double wanted = last < speed ? std::ceil(std::log(std::max(last / speed, 1e-3)) / std::log(0.7)) : 1;
  const int count = int(std::max(1.0, std::min(double(most), wanted)));
  const double kept = last <= 1e-6 * speed ? 0.7 : std::pow(last / speed, 1.0 / count);
  for (int i = 1; i <= count; i++, piece++) {
    const bool ends = i == count;
    const double to = ends ? last : speed * kept;
    const double h = ends ? start + length - piece->start : slideLength(friction, k, speed, to);
    const double lapse = slideTime(friction, k, speed, to, h);
    const double p1 = 1 / speed, mean = lapse / h, p2 = std::min(1 / to, 3 * mean - 2 * p1);
    piece->z1 = piece->z2 = piece->z3 = 0;
    piece->t1 = p1;
    piece->t2 = (3 * mean - 2 * p1 - p2) / h;
    piece->t3 = (p1 + p2 - 2 * mean) / (h * h);
    piece[1].start = piece->start + h;
    piece[1].z0 = world[PUCK_HALF_THICKNESS];
    piece[1].z1 = 0;
    piece[1].t0 = piece->t0 + lapse;
    piece[1].t1 = 1 / to;
    speed = to;
  }
  return count;
}

inline void fly(const Numbers& world, double x, double y, double z, double azimuth, double elevation, double speed,
                double until, Path& path) {
  const double floor = world[PUCK_HALF_THICKNESS], cosine = std::cos(elevation);
  Piece* piece = path.pieces;
  path.x = x;
  path.y = y;
  path.dx = std::cos(azimuth);
  path.dy = std::sin(azimuth);
  piece->start = 0;
  piece->z0 = z > floor ? z : floor;
  piece->z1 = std::sin(elevation) / cosine;
  piece->t0 = 0;
  piece->t1 = 1 / (speed * cosine);

  int left = MOST_PIECES, most = 5;
  bool airborne = z > floor || elevation > 0;
  while (airborne && left > 2 && piece->start < until) {
    const int used = flyLeg(world, piece, until, std::min(most, left));
    piece += used;
    left -= used;
    most = 1;
    if (piece->start < until) airborne = landOnIce(world, *piece);
  }
  if (piece->start < until && left > 0 && std::isfinite(piece->t1)) piece += slideOnIce(world, piece, until, left);
  path.count = int(piece - path.pieces);
  path.end = piece->start;
}

// aiming: height at the goal line of a launch with this tangent, as if there were no ice
struct Aim {
  const Numbers& world;
  double from, speed, D;
  double azimuth = 0, tangent = 0;

  double climb(double slope) const {
    Piece pieces[2];
    pieces[0].start = 0;
    pieces[0].z0 = from;
    pieces[0].z1 = slope;
    pieces[0].t0 = 0;
    pieces[0].t1 = std::sqrt(1 + slope * slope) / speed;
    const int steps = piecesFor(world, pieces[0], D, 5);
    for (int step = 0; step < steps; step++) {
      stepPiece(world, pieces[0], pieces[1], D / steps);
      pieces[0] = pieces[1];
    }
    return pieces[0].z0;
  }

  bool withCare(double wanted, double steepest) {
    const double floor = world[PUCK_HALF_THICKNESS], fast = speed * speed;
    tangent = 0;
    const double gravity = world[GRAVITY] - (world[LIFT] > 0 ? world[LIFT] * fast : 0);
    if (gravity > 0 && from + (0.5 * fast) / gravity - (0.5 * gravity * D * D) / fast <= floor) return false;
    const double low = std::min((floor - from) / D, steepest);
    const bool rising = climb(steepest) > climb(steepest - 1e-4);
    double high = steepest;
    if (!rising) {
      const double golden = 0.5 * (std::sqrt(5.0) - 1);
      double a = low, b = steepest;
      while (b - a > 1e-6) {
        const double left = b - golden * (b - a), right = a + golden * (b - a);
        if (climb(left) < climb(right)) a = left;
        else b = right;
      }
      high = 0.5 * (a + b);
    }
    const double peak = climb(high);
    if (peak < wanted - 1e-5) {
      if (peak > floor) tangent = high;
      return false;
    }
    double below = low, above = high;
    while (above - below > 1e-8) {
      const double middle = 0.5 * (below + above);
      if (climb(middle) < wanted) below = middle;
      else above = middle;
    }
    tangent = above;
    return true;
  }

  bool at(double x, double y, double z, double targetY, double targetZ, double steepest) {
    const double floor = world[PUCK_HALF_THICKNESS];
    const double wanted = targetZ > floor ? targetZ : floor, across = targetY - y;
    from = z > floor ? z : floor;
    D = std::sqrt(x * x + across * across);
    azimuth = std::atan2(across, -x);
    const double drop = (0.5 * world[GRAVITY] * D * D) / (speed * speed);
    const double a = drop * (1 + (2.0 / 3) * world[DRAG] * D) - 0.5 * world[LIFT] * D * D;
    const double rise = wanted - from, inside = D * D - 4 * a * (a + rise);
    if (inside > 0.04 * D * D) {
      double t = (2 * (a + rise)) / (D + std::sqrt(inside));
      const double perHeight = 1 / (D - 2 * a * t);
      for (int i = 0; i < 8; i++) {
        const double error = climb(t) - wanted;
        t -= error * perHeight;
        if (std::fabs(error) < 1e-5) {
          if (t > steepest) break;
          tangent = t;
          return true;
        }
      }
    }
    return withCare(wanted, steepest);
  }
};
