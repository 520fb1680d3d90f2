// Distance of a box from a level disc that stands still, proven: the same as src/sim/still-disc.ts.
#pragma once
#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

// a straight path in a part's axes, with the share of each axis that is vertical
struct Row {
  double q[3], w[3], up[3];
};

// the direction that the last search ended with, and the segments square to it, as bits
struct Start {
  double c, s;
  int squares;
};
constexpr Start COLD{std::numeric_limits<double>::quiet_NaN(), 0, 0};

// the part in hand: sizes, range of the path, disc, and where a search starts
struct Box {
  double h[3], rounding, least, most, discRadius, discHalf;
  Start start;
};

class Still {
 public:
  // of the distance, by a unit of the path
  double change = 0;

  Still(const Box& box, const Row& row) : b(box), r(row) {}

  double distance(double s) {
    change = 0;
    if (overlapsAtStart(s)) return 0;
    double least = std::numeric_limits<double>::infinity(), slackLeft = least, before = least, damping = 0, best[3];
    int wandered = 0;
    bool returned = false;
    for (int step = 0; step < 10000; step++) {
      look();
      const double found = squared, size = std::sqrt(found);
      if (size < 1e-9) return 0;
      if (slack <= (step < 100 ? 5e-10 : 2e-9) * size) return take();
      if (found < least || (found <= least + 1e-16 * size && slack < 0.5 * slackLeft)) {
        least = std::min(least, found);
        slackLeft = std::min(slackLeft, slack);
        std::copy(x, x + 3, best);
        wandered = 0;
        if (!returned) damping = damping < 1e-10 ? 0 : 0.1 * damping;
        returned = false;
      } else if (damping == 0 && wandered < 80) wandered += found < before ? 1 : 10;
      else {
        std::copy(best, best + 3, x);
        look();
        if (damping == 1 && slack <= 1e-15) return take();
        wandered = 0;
        damping = damping == 1 ? 0 : damping == 0 ? 1e-9 : std::min(1.0, 10 * damping);
        returned = true;
      }
      before = found;
      takeStep(damping);
    }
    throw std::runtime_error("no distance");
  }

 private:
  const Box& b;
  const Row& r;
  // the disc's middle and axis, a point of the box, the way to it from the disc, and outward from the axis
  double p[3], u[3], x[3], e[3], n[3];
  double squared, slack, stiffUp, stiffOut, stiffRound;

  static double dot(const double* v, const double* w) { return v[0] * w[0] + v[1] * w[1] + v[2] * w[2]; }
  double within(double v, int i) const { return v > b.h[i] ? b.h[i] : v < -b.h[i] ? -b.h[i] : v; }

  double take() {
    const double size = std::sqrt(squared);
    change = -dot(e, r.w) / size;
    return size;
  }

  bool overlapsAtStart(double s) {
    const double unit = 1 / std::sqrt(dot(r.up, r.up));
    double y[3], l[3];
    for (int i = 0; i < 3; i++) {
      p[i] = r.q[i] + s * r.w[i];
      u[i] = r.up[i] * unit;
      y[i] = within(p[i], i) - p[i];
    }
    const double up = dot(y, u);
    for (int i = 0; i < 3; i++) l[i] = y[i] - up * u[i];
    const double level = dot(l, l);
    if (level <= b.discRadius * b.discRadius && up <= b.discHalf && up >= -b.discHalf) return true;
    const double rim = level > 0 ? b.discRadius / std::sqrt(level) : 0;
    const double face = up > 0 ? b.discHalf : up < 0 ? -b.discHalf : 0;
    for (int i = 0; i < 3; i++) x[i] = within(p[i] + rim * l[i] + face * u[i], i);
    return false;
  }

  void look() {
    double y[3], l[3];
    for (int i = 0; i < 3; i++) y[i] = x[i] - p[i];
    const double up = dot(y, u), half = b.discHalf;
    for (int i = 0; i < 3; i++) l[i] = y[i] - up * u[i];
    const double rho = std::sqrt(dot(l, l));
    const double over = up > half ? up - half : up < -half ? up + half : 0;
    const double out = rho > b.discRadius ? rho - b.discRadius : 0, unit = out > 0 ? 1 / rho : 0;
    for (int i = 0; i < 3; i++) {
      n[i] = l[i] * unit;
      e[i] = over * u[i] + out * n[i];
    }
    squared = over * over + out * out;
    slack = std::fabs(e[0]) * b.h[0] + e[0] * x[0] + (std::fabs(e[1]) * b.h[1] + e[1] * x[1]) +
            (std::fabs(e[2]) * b.h[2] + e[2] * x[2]);
    stiffUp = over == 0 ? 0 : 1;
    stiffOut = out > 0 ? 1 : 0;
    stiffRound = out * unit;
  }

  void takeStep(double damping) {
    const double left = 1 - damping, round = left * stiffRound, lift = left * stiffUp - round;
    const double outward = left * stiffOut - round, all = round + damping + 1e-13;
    const auto at = [&](int i, int j) { return lift * u[i] * u[j] + outward * n[i] * n[j]; };
    const double a00 = at(0, 0) + all, a11 = at(1, 1) + all, a22 = at(2, 2) + all;
    const double a01 = at(0, 1), a02 = at(0, 2), a12 = at(1, 2);
    // what is at a face and pushed outward stays, what leaves the box on the way is held at its face
    bool isFree[3];
    double d[3] = {0, 0, 0};
    for (int i = 0; i < 3; i++) isFree[i] = !((x[i] <= -b.h[i] && e[i] > 0) || (x[i] >= b.h[i] && e[i] < 0));
    for (int held = 0; held <= 3; held++) {
      const bool f0 = isFree[0], f1 = isFree[1], f2 = isFree[2];
      const double b0 = f0 ? -e[0] - ((f1 ? 0 : a01 * d[1]) + (f2 ? 0 : a02 * d[2])) : d[0];
      const double b1 = f1 ? -e[1] - ((f0 ? 0 : a01 * d[0]) + (f2 ? 0 : a12 * d[2])) : d[1];
      const double b2 = f2 ? -e[2] - ((f0 ? 0 : a02 * d[0]) + (f1 ? 0 : a12 * d[1])) : d[2];
      const double m01 = f0 && f1 ? a01 : 0, m02 = f0 && f2 ? a02 : 0, k0 = f0 ? 1 / a00 : 1;
      const double m12 = (f1 && f2 ? a12 : 0) - m01 * k0 * m02, k1 = 1 / (f1 ? a11 - m01 * k0 * m01 : 1);
      const double rest = b1 - m01 * k0 * b0;
      d[2] = (b2 - m02 * k0 * b0 - m12 * k1 * rest) / ((f2 ? a22 - m02 * k0 * m02 : 1) - m12 * k1 * m12);
      d[1] = (rest - m12 * d[2]) * k1;
      d[0] = (b0 - m01 * d[1] - m02 * d[2]) * k0;
      bool leaves = false;
      for (int i = 0; i < 3; i++) {
        if (!isFree[i] || (x[i] + d[i] <= b.h[i] && x[i] + d[i] >= -b.h[i])) continue;
        d[i] = (d[i] > 0 ? b.h[i] : -b.h[i]) - x[i];
        isFree[i] = false;
        leaves = true;
      }
      if (!leaves) break;
    }
    for (int i = 0; i < 3; i++) x[i] = isFree[i] ? x[i] + d[i] : x[i] + d[i] > 0 ? b.h[i] : -b.h[i];
  }
};
