// Where a path runs relative to one goalie and each part: the same as src/sim/{prepared,clearance,meet}.ts.
#pragma once
#include <algorithm>
#include <cmath>
#include <cstdint>
#include "contact.hpp"
#include "flight.hpp"

constexpr double INFINITE = std::numeric_limits<double>::infinity();
constexpr double BOW = 0.06, SWAY = 0.005, ACROSS = 0.2, FURTHEST_PART = 0.7;

struct Bounds {
  double u0, u1, v0, v1, z0, z1;
};

struct Prepared {
  const Posture* posture;
  std::vector<Bounds> bounds, boxes;
  Numbers reach, least, greatest, moves;
  std::vector<int> order;

  Prepared(const Posture& p, double puckRadius)
      : posture(&p), boxes(size_t(p.count * p.phases)), moves(size_t(p.count * p.phases)) {
    const int last = p.phases - 1;
    for (int part = 0; part < p.count; part++) {
      const int limb = p.carrier[part];
      const double* row = limb == NO_LIMB ? nullptr : &p.limbs[limb * LIMB_STRIDE];
      reach.push_back(row ? row[LONGEST_REACH] : 0);
      least.push_back(row ? row[LEAST_V] : -INFINITE);
      greatest.push_back(row ? row[GREATEST_V] : INFINITE);
      bounds.push_back(boundsOver(part, 0, last, puckRadius));
      for (int k = 0; k <= last; k++) {
        const bool rests = k == 0 || k == last;
        boxes[part * p.phases + k] = boundsOver(part, rests ? k : k - 1, rests ? k : k + 1, puckRadius);
        if (k < last) moves[part * p.phases + k] = furthestMove(part, k);
      }
      order.push_back(part);
    }
    const auto front = [&](int part) { return p.parts[((p.phases >> 1) * p.count + part) * PART_STRIDE]; };
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return front(a) > front(b); });
  }

 private:
  Bounds boundsOver(int part, int from, int to, double puckRadius) const {
    double out[6];
    for (int axis = 0; axis < 3; axis++) {
      out[2 * axis] = INFINITE;
      out[2 * axis + 1] = -INFINITE;
      for (int phase = from; phase <= to; phase++) {
        const double* row = &posture->parts[(phase * posture->count + part) * PART_STRIDE];
        double extent = row[ROUNDING];
        for (int i = 0; i < 3; i++) extent += row[HALF_SIZE + i] * std::fabs(row[AXIS_0 + 3 * i + axis]);
        extent += puckRadius;
        out[2 * axis] = std::min(out[2 * axis], row[CENTRE + axis] - extent);
        out[2 * axis + 1] = std::max(out[2 * axis + 1], row[CENTRE + axis] + extent);
      }
    }
    return {out[0], out[1], out[2], out[3], out[4], out[5]};
  }

  double furthestMove(int part, int k) const {
    const double* a = &posture->parts[(k * posture->count + part) * PART_STRIDE];
    const double* b = a + posture->count * PART_STRIDE;
    const auto shift = [&](int i) {
      const double x = b[i] - a[i], y = b[i + 1] - a[i + 1], z = b[i + 2] - a[i + 2];
      return std::sqrt(x * x + y * y + z * z);
    };
    double most = shift(CENTRE);
    for (int i = 0; i < 3; i++) most += shift(AXIS_0 + 3 * i) * (a[HALF_SIZE + i] + a[ROUNDING]);
    return most;
  }
};

struct Station {
  double x, y, c, s, depth;
  bool cut;
};

// the path at the moment it is level with a part
struct Level {
  double time, pace, u, v, z, slope, distance, leastGap, end;
};

class Meeting {
 public:
  const Prepared* prepared = nullptr;
  Level level{};
  bool own = true;

  Meeting(int phases, int count, const Numbers& world)
      : state(size_t(count)), known(size_t(count)), levels(size_t(count)), local(size_t(count * phases)),
        filled(size_t(count * phases)), covers(size_t(count * phases)), gaps(size_t(count * phases)) {
    box.discRadius = world[PUCK_RADIUS];
    box.discHalf = world[PUCK_HALF_THICKNESS];
    mouth = world[MOUTH_HALF_WIDTH];
  }

  void meetGoalie(const Path& p, const Station& at, double crossing, double until) {
    path = &p;
    station = &at;
    line = crossing;
    const double x = p.x - at.x, y = p.y - at.y, c = at.c, s = at.s;
    u = c * x + s * y;
    v = c * y - s * x;
    du = c * p.dx + s * p.dy;
    dv = c * p.dy - s * p.dx;
    end = until < p.end ? until : p.end;
    inverse = du < -ACROSS || du > ACROSS ? 1 / du : 0;
    std::fill(state.begin(), state.end(), UNASKED);
  }

  void setDrop(int phases, double dropTime) { rate = (phases - 1) / dropTime; }

  double distanceToBody() const { return std::max(0.0, -(u * du + v * dv)); }

  bool meetPart(const Prepared& with, int which) {
    prepared = &with;
    part = which;
    row = which * with.posture->phases;
    if (state[part] == UNASKED) {
      state[part] = refuse();
      if (state[part] != REFUSED) levelWith();
    }
    if (state[part] == REFUSED) return false;
    level = levels[part];
    own = state[part] == MET;
    const double* sizes = &with.posture->parts[part * PART_STRIDE];
    for (int i = 0; i < 3; i++) box.h[i] = sizes[HALF_SIZE + i];
    box.rounding = sizes[ROUNDING];
    box.least = -level.distance;
    box.most = level.end - level.distance;
    box.start = COLD;
    return true;
  }

  double still(int phase) { return solve(box, localRow(phase)); }

  double moving(double phase, double phasePerMetre) {
    const int phases = prepared->posture->phases;
    int k = int(phase);
    if (k > phases - 2) k = phases - 2;
    const double share = phase - k;
    const bool atKey = share < 1e-9 && k > 0;
    const Row &here = localRow(k), &next = localRow(k + 1), &before = atKey ? localRow(k - 1) : here;
    const double motion = (atKey ? 0.5 : 1) * phasePerMetre;
    Row mixed;
    for (int i = 0; i < 3; i++) {
      mixed.q[i] = here.q[i] + share * (next.q[i] - here.q[i]);
      mixed.w[i] = here.w[i] + share * (next.w[i] - here.w[i]) + motion * (next.q[i] - before.q[i]);
      mixed.up[i] = here.up[i] + share * (next.up[i] - here.up[i]);
    }
    return solve(box, mixed);
  }

  double gapAt(int k) {
    double& gap = gaps[row + k];
    if (!std::isnan(gap)) return gap;
    const Row& here = localRow(k);
    if (k == 0 || k == prepared->posture->phases - 1) return gap = solve(box, here);
    const Row &next = localRow(k + 1), &before = localRow(k - 1);
    const double motion = 0.5 * level.pace * rate;
    Row mixed = here;
    for (int i = 0; i < 3; i++) mixed.w[i] += motion * (next.q[i] - before.q[i]);
    return gap = solve(box, mixed);
  }

  double leastGapAt(int k) const {
    if (inverse == 0) return 0;
    const Bounds& b = prepared->boxes[row + k];
    const double near = (b.u0 - level.u) * inverse, far = (b.u1 - level.u) * inverse;
    const double v1 = level.v + dv * near, v2 = level.v + dv * far;
    const double beside = std::max(std::min(v1, v2) - b.v1, b.v0 - std::max(v1, v2));
    const double z1 = level.z + level.slope * near, z2 = level.z + level.slope * far;
    const double apart = std::max(std::min(z1, z2) - b.z1, b.z0 - std::max(z1, z2));
    if (beside <= 0) return apart - SWAY;
    return (apart <= 0 ? beside : std::sqrt(beside * beside + apart * apart)) - SWAY;
  }

  bool coversAt(int k) {
    if (!own) return false;
    if (k >= known[part]) tellCovers(k);
    return covers[row + k] == 1;
  }

 private:
  enum : uint8_t { UNASKED, REFUSED, MET, MET_BY_REACH };
  const Path* path = nullptr;
  const Station* station = nullptr;
  double u = 0, v = 0, du = 0, dv = 0, end = 0, line = 0, mouth = 0, inverse = 0, rate = 0;
  int part = 0, row = 0;
  Box box{};
  std::vector<uint8_t> state;
  std::vector<int> known;
  std::vector<Level> levels;
  std::vector<Row> local;
  std::vector<uint8_t> filled, covers;
  Numbers gaps;

  uint8_t refuse() {
    double& leastGap = levels[part].leastGap;
    leastGap = 0;
    if (inverse == 0) return MET;
    const Bounds& b = prepared->bounds[part];
    const double near = (b.u0 - u) * inverse, far = (b.u1 - u) * inverse;
    const double v1 = v + dv * near, v2 = v + dv * far;
    const double rightmost = std::min(v1, v2), leftmost = std::max(v1, v2);
    const double beside = std::max(rightmost - b.v1, b.v0 - leftmost);
    const bool wrong = leftmost < prepared->least[part] || rightmost > prepared->greatest[part];
    const double grown = wrong ? BOW : prepared->reach[part] + BOW;
    if (beside > grown) return REFUSED;
    const double z1 = path->height(near > 0 ? near : 0), z2 = path->height(far > 0 ? far : 0);
    const double apart = std::max(std::min(z1, z2) - b.z1, b.z0 - std::max(z1, z2));
    if (apart > grown) return REFUSED;
    if (beside <= BOW && apart <= BOW) return MET;
    const double away = beside <= 0 ? apart : apart <= 0 ? beside : std::sqrt(beside * beside + apart * apart);
    leastGap = away - BOW;
    return MET_BY_REACH;
  }

  // how far a part may stop the puck: outside the net not behind the goal line
  double endFor(double pu, double pv) const {
    if (station->x > FURTHEST_PART || line >= end) return end;
    const double x = station->x + station->c * pu - station->s * pv, y = station->y + station->s * pu + station->c * pv;
    return x < 0 && std::fabs(y) > mouth ? line : end;
  }

  void levelWith() {
    const Posture& p = *prepared->posture;
    const double* middle = &p.parts[((p.phases >> 1) * p.count + part) * PART_STRIDE];
    double D = (middle[CENTRE] - u) * du + (middle[CENTRE + 1] - v) * dv;
    if (D < 0) D = 0;
    const double until = endFor(middle[CENTRE], middle[CENTRE + 1]);
    if (D > until) D = until;
    const Piece& piece = path->at(D);
    const double q = D - piece.start;
    Level& l = levels[part];
    l.time = piece.t0 + q * (piece.t1 + q * (piece.t2 + q * piece.t3));
    l.pace = piece.t1 + q * (2 * piece.t2 + q * 3 * piece.t3);
    l.u = u + du * D;
    l.v = v + dv * D;
    l.z = piece.z0 + q * (piece.z1 + q * (piece.z2 + q * piece.z3));
    l.slope = piece.z1 + q * (2 * piece.z2 + q * 3 * piece.z3);
    l.distance = D;
    l.end = until;
    known[part] = 0;
    for (int k = row; k < row + p.phases; k++) {
      filled[k] = 0;
      gaps[k] = std::numeric_limits<double>::quiet_NaN();
    }
  }

  const Row& localRow(int phase) {
    Row& out = local[row + phase];
    if (filled[row + phase]) return out;
    filled[row + phase] = 1;
    const Posture& p = *prepared->posture;
    const double* at = &p.parts[(phase * p.count + part) * PART_STRIDE];
    const double ru = level.u - at[CENTRE], rv = level.v - at[CENTRE + 1], rz = level.z - at[CENTRE + 2];
    for (int i = 0; i < 3; i++) {
      const double* axis = at + AXIS_0 + 3 * i;
      out.q[i] = ru * axis[0] + rv * axis[1] + rz * axis[2];
      out.w[i] = du * axis[0] + dv * axis[1] + level.slope * axis[2];
      out.up[i] = axis[2];
    }
    return out;
  }

  void tellCovers(int to) {
    const double* moves = &prepared->moves[row];
    int k = known[part];
    if (k == 0) covers[row + k++] = leastGapAt(0) <= 0 && gapAt(0) <= 0;
    double measured = gaps[row + k - 1], slack = 0;
    for (; k <= to; k++) {
      slack += moves[k - 1];
      const double most = slack + moves[k];
      covers[row + k] = measured <= 0;
      if ((measured > most || measured < -most) && k < prepared->posture->phases - 1) continue;
      if (leastGapAt(k) > 0) covers[row + k] = 0;
      else {
        measured = gapAt(k);
        slack = 0;
        covers[row + k] = measured <= 0;
      }
    }
    known[part] = k;
  }
};
