// A scene as the engine compiled it, read from one file of doubles.
#pragma once
#include <cstdio>
#include <cstdlib>
#include <vector>

using Numbers = std::vector<double>;

// world
enum { GRAVITY, DRAG, LIFT, ICE_FRICTION, ICE_RESTITUTION, SLIDE_THRESHOLD, PUCK_RADIUS, PUCK_HALF_THICKNESS,
       MOUTH_HALF_WIDTH, MOUTH_HEIGHT, POST_RADIUS, BAR_RADIUS, IRON_RESTITUTION, IRON_FRICTION };
// strata
enum { STRATUM_STRIDE = 24, ORIGIN_KIND = 0, ORIGIN = 1, RELEASE_HEIGHT = 7, AIM_KIND = 8, AIM = 9, SPEED_MEAN = 13,
       SPEED_SD = 14, SPEED_LEAST = 15, ERROR_AZIMUTH = 16, ERROR_ELEVATION = 17, STEEPEST_AIM = 18, EARLY_READ = 21,
       SPOT = 22 };
// parts and limbs
enum { PART_STRIDE = 16, CENTRE = 0, AXIS_0 = 3, HALF_SIZE = 12, ROUNDING = 15, REGIONS = 9, LIMBS = 6, NO_LIMB = 255 };
enum { LIMB_STRIDE = 12, CATCH_RADIUS = 0, LONGEST_REACH, PEAK_SPEED, PEAK_ACCELERATION, LAG, ERROR_STEADY,
       ERROR_PER_SPEED, LEAST_V, GREATEST_V, ROOT_LENGTH };
// poses
enum { DEPTH, DEPTH_ERROR, OFF_LINE_ERROR, ANGLE_BIAS, ANGLE_ERROR, TURN_ERROR, STAND_OFF, REACTION_MEDIAN,
       REACTION_SPREAD, DROP_LEAD, DROP_TIME, HIGH_PUCK, HIGH_DROP, BLOCK_NEVER, BLOCK_ALWAYS, BLOCK_LEAD, ANSWER,
       GLOVE_SIDE, ZONE_LOW, ZONE_MIDDLE };
constexpr double ANSWER_BY_DISTANCE = 0, ANSWER_BLOCK = 2, ANSWER_FROZEN = 3, ANSWER_ABSENT = 4;

struct Posture {
  int phases, count;
  Numbers parts, limbs, roots;
  std::vector<int> region, carrier;
  double halfStance, foremost, leak;
};

struct Pose {
  int posture;
  Numbers numbers;
};

struct Scene {
  Numbers world, table, allotment, share;
  int strata = 0, spots = 0;
  std::vector<Posture> postures;
  std::vector<Pose> poses;
};

class Reader {
 public:
  explicit Reader(const char* path) : file(std::fopen(path, "rb")) {
    if (!file) {
      std::fprintf(stderr, "Cannot read the scene as the file must exist: current value is %s\n", path);
      std::exit(1);
    }
  }
  ~Reader() { std::fclose(file); }
  double number() {
    double value = 0;
    if (std::fread(&value, sizeof value, 1, file) != 1) {
      std::fprintf(stderr, "Cannot read the scene as the file must be whole: it ends early\n");
      std::exit(1);
    }
    return value;
  }
  int integer() { return int(number()); }
  Numbers array() {
    const size_t length = size_t(number());
    Numbers values(length);
    for (double& value : values) value = number();
    return values;
  }
  std::vector<int> integers() {
    const Numbers values = array();
    return std::vector<int>(values.begin(), values.end());
  }

 private:
  FILE* file;
};

inline Scene readScene(const char* path) {
  Reader in(path);
  Scene scene;
  scene.world = in.array();
  scene.strata = in.integer();
  scene.table = in.array();
  scene.allotment = in.array();
  scene.share = in.array();
  scene.spots = in.integer();
  scene.postures.resize(size_t(in.integer()));
  for (Posture& posture : scene.postures) {
    posture.phases = in.integer();
    posture.count = in.integer();
    posture.parts = in.array();
    posture.region = in.integers();
    posture.carrier = in.integers();
    posture.limbs = in.array();
    posture.roots = in.array();
    posture.halfStance = in.number();
    posture.foremost = in.number();
    posture.leak = in.number();
  }
  scene.poses.resize(size_t(in.integer()));
  for (Pose& pose : scene.poses) {
    pose.posture = in.integer();
    pose.numbers = in.array();
  }
  return scene;
}
