// The saving reactions that one part adds: the same as src/sim/{limb,react}.ts.
#pragma once
#include "body.hpp"
#include "saves.hpp"

inline double reachTime(const double* limb, double distance) {
  return std::max((15.0 / 8 * distance) / limb[PEAK_SPEED],
                  std::sqrt((10 / std::sqrt(3.0) * distance) / limb[PEAK_ACCELERATION]));
}

inline double wayLeft(double distance, double takes, double tau) {
  if (!(tau < takes)) return 0;
  const double x = tau / takes;
  return distance * (1 - x * x * x * (10 + x * (6 * x - 15)));
}

inline double spread(const double* limb, double distance, double tau) {
  const double steady = limb[ERROR_STEADY], hasty = (limb[ERROR_PER_SPEED] * distance) / tau;
  return std::sqrt(steady * steady + hasty * hasty);
}

inline double limbMargin(const double* limb, double gap, double tau, double error) {
  if (tau <= 0 || gap > limb[LONGEST_REACH]) return -1;
  const double radius = limb[CATCH_RADIUS], distance = gap + radius;
  return radius - wayLeft(distance, reachTime(limb, distance), tau) - error * spread(limb, distance, tau);
}

// whether the margin is zero or more
inline bool limbStopsInTime(const double* limb, double gap, double tau, double error) {
  if (tau <= 0 || gap > limb[LONGEST_REACH]) return false;
  const double radius = limb[CATCH_RADIUS], distance = gap + radius;
  const double margin = radius - wayLeft(distance, reachTime(limb, distance), tau);
  return margin >= 0 && margin - error * spread(limb, distance, tau) >= 0;
}

inline double latestStart(const double* limb, double gap, double time, double error, double earliest) {
  const double last = time - limb[LAG];
  if (limbMargin(limb, gap, last - earliest, error) < 0) return -INFINITE;
  if (gap <= 0) return last;
  const double radius = limb[CATCH_RADIUS], steady = limb[ERROR_STEADY], distance = gap + radius;
  const double rush = limb[ERROR_PER_SPEED] * distance, takes = reachTime(limb, distance);
  double shorter = 0, longer = last - earliest, tau = takes < longer ? 0.7 * takes : 0.7 * longer;
  for (int i = 0; i < 60; i++) {
    const double x = tau < takes ? tau / takes : 1, y = 1 - x, hasty = rush / tau;
    const double sd = std::sqrt(steady * steady + hasty * hasty);
    const double margin = radius - distance * (1 - x * x * x * (10 + x * (6 * x - 15))) - error * sd;
    if (margin >= 0) longer = tau;
    else shorter = tau;
    const double rise = (30 * distance * x * x * y * y) / takes + (error * hasty * hasty) / (sd * tau);
    double next = tau - margin / rise;
    if (!(next > shorter && next < longer)) next = 0.5 * (shorter + longer);
    const double step = next - tau;
    tau = next;
    if (step < 1e-10 && step > -1e-10) break;
  }
  return last - tau;
}

// how small a clearance counts as none, and a limb's margin; as a block's lead: the drop waits for the reaction
constexpr double NO_CLEARANCE = 1e-7, NO_MARGIN = 1e-10, REACTS = -1;

// root of a function between a and b by regula falsi (Anderson and Björck), every fourth step halving
template <typename F>
double root(double a, double b, double fa, double fb, bool zeroIsBelow, double nothing, F f) {
  int side = 0;
  const auto below = [&](double y) { return zeroIsBelow ? y <= 0 : y < 0; };
  for (int i = 1; i < 120 && b - a > nothing; i++) {
    const double x = i % 4 == 0 ? 0.5 * (a + b) : a - (fa * (b - a)) / (fb - fa), y = f(x);
    if (y < nothing && y > -nothing) return x;
    if (below(y) == below(fb)) {
      if (side == 1) fa *= y != fb && (y < fb) == (y > 0) ? 1 - y / fb : 0.5;
      b = x;
      fb = y;
      side = 1;
    } else {
      if (side == -1) fb *= y != fa && (y < fa) == (y > 0) ? 1 - y / fa : 0.5;
      a = x;
      fa = y;
      side = -1;
    }
  }
  return 0.5 * (a + b);
}

struct Moment {
  double read, dropLead, dropTime, lastPhase, blockShare, drawnLead, longestLead, reactPhase, blockLead;
  bool leaks, frozen, stands;
  const double* errors;
};

class Reaction {
 public:
  Meeting& m;
  Moment now{};
  Reaction(Meeting& meeting) : m(meeting) {}

  void stands() {
    if (!now.stands && !now.leaks && m.coversAt(0)) now.stands = true;
  }

  void saves(int which, Saves& to) {
    part = which;
    posture = m.prepared->posture;
    stands();
    if (now.frozen) {
      if (!now.leaks && m.coversAt(0)) to.add(-INFINITE, INFINITE, m.level.time, posture->region[part]);
    } else if (now.blockLead > REACTS) block(to);
    else react(to);
  }

  // moments of a block's start for which the part covers the path
  void cover(int which, Saves& to) {
    if (!m.own) return;
    part = which;
    posture = m.prepared->posture;
    const int last = posture->phases - 1;
    const double time = m.level.time, perPhase = now.dropTime / last;
    const double first = time / perPhase, furthest = (time + now.longestLead) / perPhase;
    double phase = first < last ? first : last, hi = 0;
    bool open = gapOf(phase) <= 0;
    while (phase < last && phase < furthest) {
      double next = std::floor(phase + 1e-9) + 1;
      if (next > furthest) next = furthest;
      if (next > last) next = last;
      if ((gapOf(next) <= 0) != open) {
        const double start = time - crossing(phase, next, gapOf(phase), gapOf(next)) * perPhase;
        if (open) to.add(start, hi, time, posture->region[part]);
        hi = start;
        open = !open;
      }
      phase = next;
    }
    if (open) {
      to.add(-now.longestLead, hi, time, posture->region[part]);
      if (hi == 0) to.certain = true;
    }
  }

 private:
  int part = 0, nodes = 0;
  double last = 0, landed = 0;
  const Posture* posture = nullptr;

  const double* limbRow(int limb) const { return &posture->limbs[limb * LIMB_STRIDE]; }
  double perMetre() const { return (m.level.pace * (posture->phases - 1)) / now.dropTime; }
  double gapOf(double phase) {
    const int k = int(phase);
    return k == phase ? m.gapAt(k) : m.moving(phase, perMetre());
  }
  double crossing(double a, double b, double fa, double fb) {
    const double rate = perMetre();
    return root(a, b, fa, fb, true, NO_CLEARANCE, [&](double x) { return m.moving(x, rate); });
  }

  bool limbHelps(int limb, double most) const {
    if (limb == NO_LIMB) return false;
    const double* row = limbRow(limb);
    if (m.level.v < row[LEAST_V] || m.level.v > row[GREATEST_V]) return false;
    return m.level.leastGap <= 0 || limbStopsInTime(row, m.level.leastGap, most - row[LAG], now.errors[limb]);
  }

  bool limbReaches(int limb, double phase) const {
    const double* row = limbRow(limb);
    if (m.level.v < row[LEAST_V] || m.level.v > row[GREATEST_V]) return false;
    const double length = row[ROOT_LENGTH];
    if (length == INFINITE) return true;
    int k = int(phase);
    if (k > posture->phases - 2) k = posture->phases - 2;
    const double share = phase - k;
    const double* a = &posture->roots[(k * LIMBS + limb) * 3];
    const double* b = a + LIMBS * 3;
    const double du = m.level.u - a[0] - share * (b[0] - a[0]);
    const double dv = m.level.v - a[1] - share * (b[1] - a[1]);
    const double dz = m.level.z - a[2] - share * (b[2] - a[2]);
    return du * du + dv * dv + dz * dz <= length * length;
  }

  void block(Saves& to) {
    const int end = posture->phases - 1, limb = posture->carrier[part];
    const double time = m.level.time;
    if (!m.own && !limbHelps(limb, time + now.read)) return;
    const double phase = std::max(0.0, ((time + now.blockLead) / now.dropTime) * end);
    const double gap = phase >= end ? m.gapAt(end) : gapOf(phase);
    if (gap <= 0) {
      if (!now.leaks) {
        to.add(-INFINITE, INFINITE, time, posture->region[part]);
        to.certain = true;
      }
      return;
    }
    if (limb == NO_LIMB || !limbReaches(limb, phase >= end ? end : phase)) return;
    to.add(-INFINITE, latestStart(limbRow(limb), gap, time, now.errors[limb], -now.read), time, posture->region[part]);
  }

  void react(Saves& to) {
    last = now.lastPhase * (posture->phases - 1);
    nodes = last > 1 ? int(std::ceil(last - 1e-9)) + 1 : 2;
    landed = std::numeric_limits<double>::quiet_NaN();
    if (m.own && !now.leaks) coverReacting(to);
    if (!to.certain) carry(to, posture->carrier[part]);
  }

  double phaseAt(int j) const { return j == nodes - 1 ? last : j; }
  double startAt(double phase) const {
    return m.level.time + now.dropLead - (phase / (posture->phases - 1)) * now.dropTime;
  }
  double nodeGap(int j) {
    if (j < nodes - 1 || last == posture->phases - 1) return m.gapAt(j);
    if (std::isnan(landed)) landed = m.moving(last, 0);
    return landed;
  }

  void coverReacting(Saves& to) {
    const double time = m.level.time;
    const int keys = last == posture->phases - 1 ? nodes - 1 : nodes - 2;
    m.coversAt(keys);
    bool open = m.coversAt(0);
    double hi = INFINITE;
    for (int j = 1; j < nodes; j++) {
      if ((j <= keys ? m.coversAt(j) : nodeGap(j) <= 0) == open) continue;
      const double start = startAt(crossing(j - 1, phaseAt(j), nodeGap(j - 1), nodeGap(j)));
      if (open) to.add(start, hi, time, posture->region[part]);
      hi = start;
      open = !open;
    }
    if (open) {
      to.add(-INFINITE, hi, time, posture->region[part]);
      if (hi == INFINITE) to.certain = true;
    }
  }

  double turn(const double* row, double error, double time, double startBefore, double start, bool opens, double gap,
              double gapAfter) const {
    const double widens = gapAfter - gap, tau = time - startBefore, longer = startBefore - start;
    const double fa = limbMargin(row, gap, tau, error), fb = limbMargin(row, gap + widens, tau + longer, error);
    if ((fa >= 0) == (fb >= 0)) return opens ? startBefore : start;
    const double x = root(0, 1, fa, fb, false, NO_MARGIN,
                          [&](double s) { return limbMargin(row, gap + s * widens, tau + s * longer, error); });
    return startBefore - x * longer;
  }

  void carry(Saves& to, int limb) {
    const double time = m.level.time, landing = time - startAt(last), most = std::max(time + now.read, landing);
    if (!limbHelps(limb, most)) return;
    const double* row = limbRow(limb);
    const double error = now.errors[limb], lag = row[LAG];
    const int region = posture->region[part], end = nodes - 1;
    const bool rooted = row[ROOT_LENGTH] < INFINITE;
    bool open = false;
    double hi = 0, startBefore = 0;
    for (int j = 0; j <= end; j++) {
      const double phase = phaseAt(j), start = startAt(phase), tau = time - start - lag;
      bool saved = false;
      if (tau > 0 && (!rooted || limbReaches(limb, phase)) && !tooWide(row, j, tau, error)) {
        const double gap = nodeGap(j);
        saved = !(now.leaks && gap <= 0) && limbStopsInTime(row, gap, tau, error);
      }
      if (saved != open) {
        const double at =
            j == 0 ? start : turn(row, error, time - lag, startBefore, start, saved, nodeGap(j - 1), nodeGap(j));
        if (open) to.add(at, hi, time, region);
        hi = at;
        open = saved;
      }
      startBefore = start;
    }
    if (open) to.add(-INFINITE, hi, time, region);
    else if (limbReaches(limb, last)) {
      const double gap = nodeGap(end);
      if (now.leaks && gap <= 0) return;
      to.add(-INFINITE, std::min(latestStart(row, gap, time, error, -now.read), startBefore), time, region);
    }
  }

  bool tooWide(const double* row, int j, double tau, double error) const {
    if (j == nodes - 1) return false;
    const double least = m.leastGapAt(j);
    return least > 0 && !limbStopsInTime(row, least, tau, error);
  }
};
