// Distance of a disc from a box where its path may end before it is closest: the same as src/sim/swept-disc.ts.
#pragma once
#include <algorithm>
#include <cmath>
#include <limits>

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

// as seen along the path: the puck's middle, half edges of the box and half the disc's thickness, squared sine of slope
struct Plane {
  double x, y, a[4], b[4], tilt;
};

// distance of the puck from the core box with the ends of the path put right
class Swept {
 public:
  Swept(const Box& box, const Row& row) : b(box), r(row) {
    for (int i = 0; i < 3; i++) {
      length += r.w[i] * r.w[i];
      along -= r.q[i] * r.w[i];
      extent += b.h[i] * std::fabs(r.w[i]);
    }
  }

  // whether all places of closest approach, seen along the path, lie between its ends; or its middle enters the box
  bool touchesBetweenEnds(const Plane& p, double distance) {
    const double middle = along / length;
    if (!(distance > 0)) return overlapsNear(middle);
    const Start& start = b.start;
    const double unit = 1 / std::sqrt(start.c * start.c + start.s * start.s), c = start.c * unit, s = start.s * unit;
    double at = 0, either = 0;
    for (int i = 0; i < 3; i++) {
      const double far = c * p.a[i] + s * p.b[i], part = b.h[i] * r.w[i];
      if (std::fabs(far) <= ALONG) either += std::fabs(part);
      else at += far > 0 ? part : -part;
    }
    const double rise = std::sqrt(p.tilt * length), climbs = dot(r.up, r.w);
    const double up = s * std::sqrt(std::max(0.0, 1 - p.tilt));
    const double level = std::sqrt(std::max(0.0, 1 - up * up)), signedRise = climbs > 0 ? rise : -rise;
    if (level < FLAT_SINE) either += b.discRadius * std::sqrt(length);
    else at -= (b.discRadius * up * signedRise) / level;
    if (std::fabs(s) <= ALONG) either += b.discHalf * rise;
    else at += s > 0 ? b.discHalf * signedRise : -b.discHalf * signedRise;
    const double much = EXACTLY * std::sqrt(length);
    return at - either + much >= (b.least - middle) * length && at + either - much <= (b.most - middle) * length;
  }

  // Gilbert, Johnson and Keerthi's way
  double distance() {
    setStretch();
    int count = 0;
    double squared = std::numeric_limits<double>::infinity();
    for (int i = 0; i < 3; i++) nearest[i] = from[i];
    for (int step = 0; step < 100; step++) {
      farthest(kept[count]);
      if (count > 0 && squared - dot(nearest, kept[count]) <= EXACTLY * std::sqrt(squared)) break;
      count = span(count + 1);
      const double before = squared;
      squared = dot(nearest, nearest);
      if (count == 4 || squared < EXACTLY * EXACTLY || squared >= before) break;
    }
    return squared < EXACTLY * EXACTLY ? 0 : std::sqrt(squared);
  }

 private:
  static constexpr double EXACTLY = 1e-9, ALONG = 1e-9, FLAT_SINE = 1e-6, UPRIGHT = 1e-20;
  static constexpr int TURNS = 6;
  const Box& b;
  const Row& r;
  double length = 0, along = 0, extent = 0;
  double kept[4][3], nearest[3], from[3], stretch[3], tried[4], best[4];

  static double dot(const double* x, const double* y) { return x[0] * y[0] + x[1] * y[1] + x[2] * y[2]; }
  double within(double s) const { return std::min(b.most, std::max(b.least, s)); }

  void setStretch() {
    const double middle = along / length, reach = extent / length + (b.discRadius + b.discHalf) / std::sqrt(length);
    const double lo = within(middle - reach), hi = within(middle + reach);
    for (int i = 0; i < 3; i++) {
      from[i] = r.q[i] + lo * r.w[i];
      stretch[i] = (hi - lo) * r.w[i];
    }
  }

  bool overlapsNear(double first) const {
    const double tall = dot(r.up, r.up), half = b.discHalf / std::sqrt(tall), radius = b.discRadius;
    double s = within(first), apart[3] = {0, 0, 0};
    for (int turn = 0; turn < TURNS; turn++) {
      double up = 0;
      for (int i = 0; i < 3; i++) {
        const double q = r.q[i] + s * r.w[i], h = b.h[i], p = q + apart[i];
        apart[i] = (p > h ? h : p < -h ? -h : p) - q;
        up += apart[i] * r.up[i];
      }
      up /= tall;
      const double raised = up > half ? half : up < -half ? -half : up;
      double level = 0;
      for (int i = 0; i < 3; i++) level += (apart[i] - up * r.up[i]) * (apart[i] - up * r.up[i]);
      const double inward = level > radius * radius ? radius / std::sqrt(level) : 1;
      if (inward == 1 && raised == up) return true;
      double ahead = 0;
      for (int i = 0; i < 3; i++) {
        const double disc = inward * (apart[i] - up * r.up[i]) + raised * r.up[i];
        ahead += (apart[i] - disc) * r.w[i];
        apart[i] = disc;
      }
      s = within(s + ahead / length);
    }
    return false;
  }

  // q less the point of the sum that lies farthest in the direction of `nearest`
  void farthest(double* point) const {
    const double tall = dot(r.up, r.up), up = dot(nearest, r.up);
    double level[3];
    for (int i = 0; i < 3; i++) level[i] = nearest[i] - (up / tall) * r.up[i];
    const double squared = dot(level, level);
    const double rim = squared * tall > UPRIGHT * up * up ? b.discRadius / std::sqrt(squared) : 0;
    const double face = (up > 0 ? b.discHalf : -b.discHalf) / std::sqrt(tall);
    const double s = dot(nearest, stretch) > 0 ? 0 : 1;
    for (int i = 0; i < 3; i++) {
      const double half = nearest[i] > 0 ? b.h[i] : -b.h[i];
      point[i] = from[i] + s * stretch[i] - half - rim * level[i] - face * r.up[i];
    }
  }

  // the nearest point of what `count` points span, of which the newest is the last; keeps those that it lies between
  int span(int count) {
    const int chosen = choose(count);
    nearest[0] = nearest[1] = nearest[2] = 0;
    int left = 0;
    for (int j = 0; j < count; j++) {
      if ((chosen & (1 << j)) == 0) continue;
      for (int i = 0; i < 3; i++) {
        nearest[i] += best[j] * kept[j][i];
        kept[left][i] = kept[j][i];
      }
      left++;
    }
    return left;
  }

  // all of up to three points where the nearest lies between them, or three of four that the fourth is not nearer than
  int choose(int count) {
    const double outside = std::numeric_limits<double>::infinity();
    const int all = (1 << count) - 1;
    if (count < 4) return keepIfLess(all, count, outside) < outside || count == 1 ? all : chooseLeast(count, all);
    for (int out = 0; out < 3; out++) {
      const int three = 15 & ~(1 << out);
      const double squared = keepIfLess(three, 4, outside);
      if (squared == outside) continue;
      double ahead = 0;
      for (int i = 0; i < 3; i++) {
        double v = 0;
        for (int j = 0; j < 4; j++) v += tried[j] * kept[j][i];
        ahead += v * kept[out][i];
      }
      if (ahead >= squared) return three;
    }
    return chooseLeast(4, 0);
  }

  // of all choices with the newest point but one, which comes nearest to nothing
  int chooseLeast(int count, int but) {
    const int newest = 1 << (count - 1);
    double least = std::numeric_limits<double>::infinity();
    int chosen = newest;
    for (int rest = 0; rest < newest; rest++) {
      if ((rest | newest) == but) continue;
      const double squared = keepIfLess(rest | newest, count, least);
      if (squared >= least) continue;
      least = squared;
      chosen = rest | newest;
    }
    return chosen;
  }

  double keepIfLess(int mask, int count, double least) {
    const double squared = between(mask, count);
    if (squared < least) std::copy(tried, tried + 4, best);
    return squared;
  }

  // squared distance of nothing from what the points of a mask span, weights into `tried`; infinite where it is outside
  double between(int mask, int count) {
    const double outside = std::numeric_limits<double>::infinity();
    const int newest = count - 1;
    int others[3], k = 0;
    for (int j = 0; j < newest; j++)
      if (mask & (1 << j)) others[k++] = j;
    const double* last = kept[newest];
    double equations[3][4];
    for (int row = 0; row < k; row++)
      for (int column = 0; column <= k; column++) {
        double sum = 0;
        for (int i = 0; i < 3; i++)
          sum += (kept[others[row]][i] - last[i]) * (column < k ? kept[others[column]][i] - last[i] : -last[i]);
        equations[row][column < k ? column : 3] = sum;
      }
    for (double& weight : tried) weight = 0;
    if (!eliminate(equations, k)) return outside;
    double rest = 1;
    for (int row = 0; row < k; row++) {
      const double weight = equations[row][3];
      if (!(weight > 0)) return outside;
      tried[others[row]] = weight;
      rest -= weight;
    }
    if (!(rest > 0)) return outside;
    tried[newest] = rest;
    double squared = 0;
    for (int i = 0; i < 3; i++) {
      double sum = 0;
      for (int j = 0; j < count; j++) sum += tried[j] * kept[j][i];
      squared += sum * sum;
    }
    return squared;
  }

  // Gauss and Jordan on the first `k` equations; columns that hold no number of them are left alone
  static bool eliminate(double (&equations)[3][4], int k) {
    for (int pivot = 0; pivot < k; pivot++) {
      const double head = equations[pivot][pivot];
      if (!(head > 1e-24)) return false;
      for (int column = pivot; column < 4; column++)
        if (column < k || column == 3) equations[pivot][column] /= head;
      for (int row = 0; row < k; row++) {
        if (row == pivot) continue;
        const double factor = equations[row][pivot];
        for (int column = pivot; column < 4; column++)
          if (column < k || column == 3) equations[row][column] -= factor * equations[pivot][column];
      }
    }
    return true;
  }
};

// what the plane says where the path ends beyond the contact, else the distance in space
[[gnu::noinline]] inline double distanceInSpace(const Box& box, const Row& row, const Plane& plane, double found) {
  Swept swept(box, row);
  return swept.touchesBetweenEnds(plane, found) ? found : swept.distance();
}
