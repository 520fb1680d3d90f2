// Posts and bar: the same as src/sim/{iron,iron-contact}.ts.
#pragma once
#include "flight.hpp"

enum Fate { MISS, ON_GOAL, IRON_OUT, IRON_IN, SHORT };
enum Iron { NO_IRON, LEFT_POST, RIGHT_POST, BAR };

constexpr double INF = std::numeric_limits<double>::infinity();

struct Crossing {
  double y, z, t;
};

struct Puck {
  double x, y, z, vx, vy, vz, t;
};

inline double circleTime(double a, double b, double va, double vb, double radius) {
  const double square = va * va + vb * vb, dot = a * va + b * vb, cross = a * vb - b * va;
  const double inside = radius * radius * square - cross * cross;
  return inside <= 0 ? INF : (-dot - std::sqrt(inside)) / square;
}

inline double signOf(double v) { return v > 0 ? 1 : v < 0 ? -1 : 0; }

inline double rectangleTime(double a, double b, double va, double vb, double halfA, double halfB) {
  const double enter = std::max((-halfA * signOf(va) - a) / va, vb == 0 ? -INF : (-halfB * signOf(vb) - b) / vb);
  const double leave = std::min((halfA * signOf(va) - a) / va, vb == 0 ? INF : (halfB * signOf(vb) - b) / vb);
  const bool beside = vb == 0 && std::fabs(b) >= halfB;
  return enter >= leave || beside ? INF : enter;
}

inline double barTime(const Numbers& world, const Puck& p) {
  const double R = world[PUCK_RADIUS], H = world[PUCK_HALF_THICKNESS], r = world[BAR_RADIUS];
  const double a = p.x, b = p.z - world[MOUTH_HEIGHT] - r;
  double time = std::min(rectangleTime(a, b, p.vx, p.vz, R + r, H), rectangleTime(a, b, p.vx, p.vz, R, H + r));
  time = std::min({time, circleTime(a - R, b - H, p.vx, p.vz, r), circleTime(a - R, b + H, p.vx, p.vz, r)});
  return std::min({time, circleTime(a + R, b - H, p.vx, p.vz, r), circleTime(a + R, b + H, p.vx, p.vz, r)});
}

inline double contactTime(const Numbers& world, const Puck& p, int iron) {
  const double axis = world[MOUTH_HALF_WIDTH] + world[POST_RADIUS];
  if (iron == BAR) {
    const double time = barTime(world, p);
    return std::fabs(p.y + p.vy * time) <= axis ? time : INF;
  }
  const double postY = iron == RIGHT_POST ? -axis : axis;
  const double time = circleTime(p.x, p.y - postY, p.vx, p.vy, world[PUCK_RADIUS] + world[POST_RADIUS]);
  const double underside = p.z + p.vz * time - world[PUCK_HALF_THICKNESS];
  return underside < world[MOUTH_HEIGHT] + 2 * world[BAR_RADIUS] ? time : INF;
}

inline void bounce(const Numbers& world, Puck& p, int iron) {
  const double axis = world[MOUTH_HALF_WIDTH] + world[POST_RADIUS];
  const double R = world[PUCK_RADIUS], H = world[PUCK_HALF_THICKNESS];
  const double up = iron == BAR ? p.z - world[MOUTH_HEIGHT] - world[BAR_RADIUS] : 0;
  double nx = iron == BAR ? p.x - std::max(-R, std::min(R, p.x)) : p.x;
  double ny = iron == BAR ? 0 : p.y - (iron == RIGHT_POST ? -axis : axis);
  double nz = iron == BAR ? up - std::max(-H, std::min(H, up)) : 0;
  const double length = std::sqrt(nx * nx + ny * ny + nz * nz);
  nx /= length;
  ny /= length;
  nz /= length;
  const double into = p.vx * nx + p.vy * ny + p.vz * nz;
  const double tx = p.vx - into * nx, ty = p.vy - into * ny, tz = p.vz - into * nz;
  const double along = std::sqrt(tx * tx + ty * ty + tz * tz), e = world[IRON_RESTITUTION];
  const double lost = along > 0 ? std::min(1.0 / 3, (world[IRON_FRICTION] * (1 + e) * -into) / along) : 0;
  p.vx = tx * (1 - lost) - e * into * nx;
  p.vy = ty * (1 - lost) - e * into * ny;
  p.vz = tz * (1 - lost) - e * into * nz;
}

inline bool betweenAxes(const Numbers& world, double y, double z) {
  return std::fabs(y) < world[MOUTH_HALF_WIDTH] + world[POST_RADIUS] && z < world[MOUTH_HEIGHT] + world[BAR_RADIUS];
}

inline bool comesIn(const Numbers& world, const Puck& p, Crossing& out) {
  if (p.vx >= 0) return false;
  const double g = world[GRAVITY];
  const double over = std::max(0.0, (p.x + world[POST_RADIUS] + world[PUCK_RADIUS]) / -p.vx);
  if (!betweenAxes(world, p.y + p.vy * over, p.z + p.vz * over - 0.5 * g * over * over)) return false;
  const double crossing = std::max(0.0, p.x / -p.vx);
  out.y = p.y + p.vy * crossing;
  out.z = std::max(p.z + p.vz * crossing - 0.5 * g * crossing * crossing, world[PUCK_HALF_THICKNESS]);
  out.t = p.t + crossing;
  return true;
}

inline Fate reflectOffIron(const Numbers& world, const Path& path, double D, Crossing& out) {
  const double speed = 1 / path.pace(D);
  Puck p{0, out.y, path.height(D), path.dx * speed, path.dy * speed, path.slope(D) * speed, path.time(D)};
  int iron = NO_IRON;
  double from = -INF;
  for (int contact = 0; contact < 2; contact++) {
    int next = NO_IRON;
    double soonest = INF;
    for (int i = LEFT_POST; i <= BAR; i++) {
      if (i == iron) continue;
      const double time = contactTime(world, p, i);
      if (time >= from && time < soonest) {
        soonest = time;
        next = i;
      }
    }
    if (next == NO_IRON) break;
    p.x += p.vx * soonest;
    p.y += p.vy * soonest;
    p.z += p.vz * soonest;
    p.t += soonest;
    bounce(world, p, next);
    iron = next;
    from = 0;
  }
  if (iron == NO_IRON) return betweenAxes(world, p.y, p.z) ? ON_GOAL : MISS;
  return comesIn(world, p, out) ? IRON_IN : IRON_OUT;
}

inline Fate crossMouth(const Numbers& world, const Path& path, Crossing& out) {
  const double D = -path.x / path.dx;
  if (!(path.dx < 0) || path.x < 0 || path.end < D - 1e-9) {
    out.y = out.z = out.t = std::numeric_limits<double>::quiet_NaN();
    return path.dx < 0 && path.pieces[path.count].t1 == INF ? SHORT : MISS;
  }
  out.y = path.y + D * path.dy;
  out.z = path.height(D);
  out.t = path.time(D);
  const double axis = world[MOUTH_HALF_WIDTH] + world[POST_RADIUS], touch = world[PUCK_RADIUS] + world[POST_RADIUS];
  const double besidePost = -(axis - std::fabs(out.y)) * path.dx;
  if (besidePost <= -touch) return MISS;
  const double slope = -path.slope(D) / path.dx, steep = std::sqrt(1 + slope * slope);
  const double toBar = (world[MOUTH_HEIGHT] + world[BAR_RADIUS] - out.z) / steep;
  const double reach =
      world[BAR_RADIUS] + (world[PUCK_RADIUS] * std::fabs(slope) + world[PUCK_HALF_THICKNESS]) / steep;
  if (toBar <= -reach) return MISS;
  if (besidePost >= touch && toBar >= reach) return ON_GOAL;
  return reflectOffIron(world, path, D, out);
}
