// Stretches of saving reactions and their probability: the same as src/sim/saves.ts.
#pragma once
#include "random.hpp"
#include "scene.hpp"

struct Saves {
  static constexpr int MOST = 96;
  int count = 0;
  bool certain = false;
  double lo[MOST], hi[MOST], when[MOST], ends[2 * MOST];
  int region[MOST];

  void clear() {
    count = 0;
    certain = false;
  }
  void add(double from, double to, double at, int by) {
    if (!(to > from) || count == MOST) return;
    lo[count] = from;
    hi[count] = to;
    when[count] = at;
    region[count++] = by;
  }
  int earliestOver(double a, double b) const {
    int by = -1;
    for (int i = 0; i < count; i++)
      if (lo[i] <= a && hi[i] >= b && (by < 0 || when[i] < when[by])) by = i;
    return by;
  }
  int sortEnds() {
    int n = 0;
    for (int i = 0; i < count; i++) {
      n = insert(n, lo[i]);
      n = insert(n, hi[i]);
    }
    return n;
  }
  double coveredShare(double length, double weight, double* byRegion) {
    if (count == 0) return 0;
    const int n = sortEnds();
    double total = 0;
    for (int e = 0; e + 1 < n; e++) {
      const double share = (ends[e + 1] - ends[e]) / length;
      const int by = earliestOver(ends[e], ends[e + 1]);
      if (by < 0) continue;
      byRegion[region[by]] += weight * share;
      total += share;
    }
    return total;
  }
  double placeInOpen(double length, double share) {
    if (count == 0) return (share - 1) * length;
    const int n = sortEnds();
    double open = length;
    for (int e = 0; e + 1 < n; e++)
      if (earliestOver(ends[e], ends[e + 1]) >= 0) open -= ends[e + 1] - ends[e];
    double left = share * open, from = -length;
    for (int e = 0; e < n; e++) {
      const double to = ends[e];
      if (!(e > 0 && earliestOver(ends[e - 1], to) >= 0)) {
        if (left <= to - from) return from + left;
        left -= to - from;
      }
      from = to;
    }
    return from + left;
  }
  double probability(const FastNormal& normal, double median, double spread, double read, double weight,
                     double* byRegion) {
    if (count == 0) return 0;
    const auto below = [&](double start) { return cumulativeLognormal(normal, start + read, median, spread); };
    if (count == 1) {
      const double p = below(hi[0]) - below(lo[0]);
      byRegion[region[0]] += weight * p;
      return p;
    }
    int first = 0;
    for (int i = 1; i < count; i++)
      if (when[i] < when[first]) first = i;
    if (std::isinf(lo[first]) && std::isinf(hi[first])) {
      byRegion[region[first]] += weight;
      return 1;
    }
    const int n = sortEnds();
    double total = 0, before = below(ends[0]);
    for (int e = 0; e + 1 < n; e++) {
      const double after = below(ends[e + 1]), p = after - before;
      before = after;
      if (!(p > 0)) continue;
      const int by = earliestOver(ends[e], ends[e + 1]);
      if (by < 0) continue;
      byRegion[region[by]] += weight * p;
      total += p;
    }
    return total;
  }

 private:
  int insert(int n, double value) {
    int i = n;
    while (i > 0 && ends[i - 1] > value) i--;
    if (i > 0 && ends[i - 1] == value) return n;
    for (int j = n; j > i; j--) ends[j] = ends[j - 1];
    ends[i] = value;
    return n + 1;
  }
};
