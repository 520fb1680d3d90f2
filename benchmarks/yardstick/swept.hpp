// Distance of a disc from a box where its path may end before it is closest: the same as src/sim/swept-disc.ts.
#pragma once
#include "still.hpp"

// as seen along the path: the puck's middle, half edges of the box and half the disc's thickness, squared sine of slope
struct Plane {
  double x, y, a[4], b[4], tilt;
};

// where the search along the path begins; none where all places of closest approach lie between its ends
inline double placeBeyond(const Box& box, const Row& row, const Plane& p, double length, double middle) {
  const double rise = std::sqrt(p.tilt * length);
  const double climbs = row.up[0] * row.w[0] + row.up[1] * row.w[1] + row.up[2] * row.w[2];
  const double forth = climbs > 0 ? rise : -rise;
  const double unit = 1 / std::sqrt(box.start.c * box.start.c + box.start.s * box.start.s);
  const double c = box.start.c * unit, s = box.start.s * unit;
  double at = 0, either = 0, lacking = c * p.y - s * p.x, forward = 0, sideways = 0;
  int squares = 0;
  for (int i = 0; i < 4; i++) {
    const double far = c * p.a[i] + s * p.b[i], aside = c * p.b[i] - s * p.a[i];
    const double along = i < 3 ? box.h[i] * row.w[i] : box.discHalf * forth;
    if (std::fabs(far) > 1e-9) {
      at += far > 0 ? along : -along;
      lacking -= far > 0 ? aside : -aside;
    } else if (along != 0 || aside != 0) {
      either += std::fabs(along);
      squares += along * along > 1e6 * length * aside * aside ? 2 : 1;
      forward = along;
      sideways = aside;
    }
  }
  const double up = s * std::sqrt(std::max(0.0, 1 - p.tilt)), level = std::sqrt(std::max(0.0, 1 - up * up));
  if (level < 1e-6) either += box.discRadius * std::sqrt(length);
  else {
    at -= (box.discRadius * up * forth) / level;
    lacking -= (box.discRadius * (p.tilt - 1) * c * s) / level;
    if (squares == 1 && p.tilt > 0) {
      at += std::min(1.0, std::max(-1.0, lacking / sideways)) * forward;
      either = 0;
    }
  }
  const double much = 1e-9 * std::sqrt(length);
  if (at - either + much >= (box.least - middle) * length && at + either - much <= (box.most - middle) * length)
    return std::numeric_limits<double>::quiet_NaN();
  return std::min(box.most, std::max(box.least, middle + at / length));
}

// what the plane says where the path ends beyond the contact, else the least distance along it
[[gnu::noinline]] inline double distanceInSpace(const Box& box, const Row& row, const Plane& plane, double found,
                                                double length, double middle) {
  double s = std::min(box.most, std::max(box.least, middle));
  if (found > 0) {
    s = placeBeyond(box, row, plane, length, middle);
    if (std::isnan(s)) return found;
  }
  const double seen = found - (plane.tilt > 0 ? 0 : 1e-6 * box.discRadius);
  double past = std::numeric_limits<double>::infinity(), before = -past, nearest = 0;
  Still still(box, row);
  for (int tried = 0; tried < 200; tried++) {
    nearest = still.distance(s);
    const double room = still.change < 0 ? std::min(past, box.most) - s : s - std::max(before, box.least);
    if (nearest <= seen + 5e-10 || std::fabs(still.change) * room <= 5e-10) break;
    (still.change < 0 ? before : past) = s;
    const double next = std::min(box.most, std::max(box.least, s - (nearest - seen) / still.change));
    s = next > before && next < past ? next : 0.5 * (before + past);
  }
  return nearest;
}
