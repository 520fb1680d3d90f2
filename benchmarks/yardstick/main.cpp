// The straight-shot kernel in plain C++: shots, every pose, tallies. A yardstick for the speed of src/sim, and a second
// account of it: reads a scene, fires the same batches and writes the same sums.
//   yardstick scene.bin tally.bin key0 key1 replicates batches batch [repeats]
// Prints the processor seconds of each repeat.
#include <cstring>
#include <ctime>
#include "iron.hpp"
#include "react.hpp"

enum { DRAW_ORIGIN_1, DRAW_ORIGIN_2, DRAW_AIM_1, DRAW_AIM_2, DRAW_SPEED, DRAW_AZIMUTH, DRAW_ELEVATION,
       SHOOTER_DRAWS = 8 };
enum { DRAW_DEPTH, DRAW_OFF_LINE, DRAW_ANGLE, DRAW_TURN, DRAW_LEAK, DRAW_BLOCK, DRAW_BLOCK_LEAD, DRAW_LIMB,
       DRAW_REACTION = 13, DRAW_READING, DRAW_VIGOUR, GOALIE_DRAWS = 16 };
enum { SHOTS_COUNTED, ON_GOAL_SUM, SAVED, STOOD, CLEAR_ON_GOAL, CLEAR_SAVED, MISSED, IRON_OUT_SUM, IRON_IN_SUM,
       SHORT_SUM, UNREACHABLE, DEPTH_CUT, BLOCKS, DEPTH_SUM, BY_REGION, BY_ZONE = BY_REGION + REGIONS,
       TALLY_STRIDE = BY_ZONE + 6 };
constexpr int MAP_COLUMNS = 24, MAP_ROWS = 16, MAP_CELLS = MAP_COLUMNS * MAP_ROWS;

// the multiple of 2^-30 nearest to a value
static double quantise(double value) {
  volatile double rounder = 1.5 * 4194304;
  return value + rounder - rounder;
}

struct Shot {
  double x, y, z, speed, aimY, aimZ;
  Crossing crossing;
  bool unreachable;
  Fate fate;
  int stratum;
  Path path;
};

struct Tally {
  Numbers sums, maps;
};

class Engine {
 public:
  Engine(const Scene& s, int batch)
      : scene(s), world(s.world), shots(size_t(batch)), goalie(size_t(batch * GOALIE_DRAWS)),
        uniforms(size_t(batch * SHOOTER_DRAWS)), meeting(mostPhases(s), mostParts(s), s.world), reaction(meeting) {
    for (const Posture& posture : s.postures) prepared.emplace_back(posture, s.world[PUCK_RADIUS]);
    double sum = 0;
    for (double a : s.allotment) cumulative.push_back(sum += a);
  }

  Tally fire(Key key, uint32_t replicate, int batches, int batch) {
    Tally tally{Numbers(scene.poses.size() * size_t(scene.spots) * TALLY_STRIDE),
                Numbers(scene.poses.size() * MAP_CELLS)};
    for (int b = 0; b < batches; b++) {
      makeShots(key, replicate, uint32_t(b * batch), batch);
      for (int i = 0; i < batch; i++)
        for (size_t p = 0; p < scene.poses.size(); p++) {
          const int stratum = shots[i].stratum;
          const double weight = scene.share[p * size_t(scene.strata) + size_t(stratum)] / scene.allotment[stratum];
          if (weight > 0) addShot(i, int(p), weight, tally);
        }
    }
    return tally;
  }

 private:
  const Scene& scene;
  const Numbers& world;
  const FastNormal normal;
  std::vector<Shot> shots;
  Numbers goalie, uniforms, cumulative;
  std::vector<Prepared> prepared;
  Meeting meeting;
  Reaction reaction;
  Saves saves, cover;
  Station station{};
  double byRegion[REGIONS];

  static int mostPhases(const Scene& s) {
    int most = 2;
    for (const Posture& p : s.postures) most = std::max(most, p.phases);
    return most;
  }
  static int mostParts(const Scene& s) {
    int most = 1;
    for (const Posture& p : s.postures) most = std::max(most, p.count);
    return most;
  }

  void makeShots(Key key, uint32_t replicate, uint32_t first, int count) {
    uint32_t words[4];
    philox(first, 0, PLAY, replicate, key, words);
    const double shift = (double(words[0]) + 0.5) / 4294967296.0, total = cumulative.back();
    int s = 0;
    for (int i = 0; i < count; i++) {
      const double target = ((i + shift) / count) * total;
      while (s < scene.strata - 1 && cumulative[s] <= target) s++;
      shots[i].stratum = s;
    }
    fillUniforms(key, replicate, SHOOTER, first, count, SHOOTER_DRAWS, uniforms.data());
    for (int i = 0; i < count; i++) release(shots[i], &uniforms[i * SHOOTER_DRAWS]);
    fillUniforms(key, replicate, GOALIE, first, count, GOALIE_DRAWS, goalie.data());
    for (int i = 0; i < count; i++) {
      double* draws = &goalie[i * GOALIE_DRAWS];
      for (int d = DRAW_DEPTH; d <= DRAW_TURN; d++) draws[d] = invertNormal(draws[d]);
      for (int d = DRAW_READING; d <= DRAW_VIGOUR; d++) draws[d] = invertNormal(draws[d]);
      for (int d = DRAW_LIMB; d < DRAW_REACTION; d++) draws[d] = std::sqrt(-2 * std::log(draws[d]));
    }
  }

  void release(Shot& shot, const double* u) {
    const double* row = &scene.table[shot.stratum * STRATUM_STRIDE];
    placeOrigin(row, u[DRAW_ORIGIN_1], u[DRAW_ORIGIN_2], shot);
    const double* aim = row + AIM;
    if (row[AIM_KIND] == 1) {
      shot.aimY = aim[0] + aim[1] * invertNormal(u[DRAW_AIM_1]);
      shot.aimZ = std::max(0.0, aim[2] + aim[3] * invertNormal(u[DRAW_AIM_2]));
    } else {
      shot.aimY = aim[0] + u[DRAW_AIM_1] * (aim[1] - aim[0]);
      shot.aimZ = aim[2] + u[DRAW_AIM_2] * (aim[3] - aim[2]);
    }
    shot.z = row[RELEASE_HEIGHT];
    shot.speed = std::max(sampleTruncatedNormal(u[DRAW_SPEED], row[SPEED_MEAN], row[SPEED_SD]), row[SPEED_LEAST]);
    Aim aimed{world, 0, shot.speed, 0};
    shot.unreachable = !aimed.at(shot.x, shot.y, shot.z, shot.aimY, shot.aimZ, row[STEEPEST_AIM]);
    const double azimuth = aimed.azimuth + row[ERROR_AZIMUTH] * invertNormal(u[DRAW_AZIMUTH]);
    const double elevation = std::atan(aimed.tangent) + row[ERROR_ELEVATION] * invertNormal(u[DRAW_ELEVATION]);
    const double reach = std::sqrt(shot.x * shot.x + shot.y * shot.y) * 1.5 + 0.3;
    fly(world, shot.x, shot.y, shot.z, azimuth, elevation > 0 || shot.z > 0 ? elevation : 0, shot.speed, reach,
        shot.path);
    shot.fate = crossMouth(world, shot.path, shot.crossing);
  }

  static void placeOrigin(const double* row, double u1, double u2, Shot& shot) {
    const double* o = row + ORIGIN;
    if (row[ORIGIN_KIND] == 1) {
      const double r = std::sqrt(o[0] * o[0] + u1 * (o[1] * o[1] - o[0] * o[0])), angle = o[2] + u2 * (o[3] - o[2]);
      shot.x = r * std::cos(angle);
      shot.y = r * std::sin(angle);
      return;
    }
    const double root = std::sqrt(u1), a = 1 - root, b = root * (1 - u2), c = root * u2;
    shot.x = a * o[0] + b * o[2] + c * o[4];
    shot.y = a * o[1] + b * o[3] + c * o[5];
  }

  // where this shot finds the goalie of a pose
  void stand(const Shot& shot, const double* n, const Posture& posture, const double* draws) {
    const double wanted = std::max(0.0, n[DEPTH] + n[DEPTH_ERROR] * draws[DRAW_DEPTH]);
    const double px = shot.x, py = shot.y, half = posture.halfStance, nearest = posture.foremost + n[STAND_OFF];
    const double distance = std::sqrt(px * px + py * py), cosBearing = px / distance, side = py < 0 ? -1 : 1;
    const double sinBearing = (side * py) / distance;
    double d = wanted;
    if (d > distance - nearest) d = distance - nearest > 0 ? distance - nearest : 0;
    double sinTurn = sinBearing, cosTurn = cosBearing;
    const double insidePost = world[MOUTH_HALF_WIDTH] - half * cosBearing;
    if (d * sinBearing > insidePost && d * cosBearing < half * sinBearing) {
      const double fromPost = insidePost > 0 ? insidePost / d : 0, cosFromLine = (half * sinBearing) / d;
      const double fromLine = cosFromLine < 1 ? std::sqrt(1 - cosFromLine * cosFromLine) : 0;
      sinTurn = std::min(std::max(fromPost, fromLine), sinBearing);
      cosTurn = std::sqrt(1 - sinTurn * sinTurn);
    }
    sinTurn *= side;
    const double angle = n[ANGLE_BIAS] + n[ANGLE_ERROR] * draws[DRAW_ANGLE];
    const double swing = d * angle + n[OFF_LINE_ERROR] * draws[DRAW_OFF_LINE], turn = n[TURN_ERROR] * draws[DRAW_TURN];
    station.x = std::max(0.0, d * cosTurn - swing * sinTurn);
    station.y = d * sinTurn + swing * cosTurn;
    const double fx = px - station.x, fy = py - station.y, away = std::sqrt(fx * fx + fy * fy);
    const double c = 1 - 0.5 * turn * turn, length = std::sqrt(c * c + turn * turn);
    station.c = (fx * c - fy * turn) / (away * length);
    station.s = (fy * c + fx * turn) / (away * length);
    station.depth = d;
    station.cut = d < wanted;
  }

  void setMoment(const Shot& shot, const Pose& pose, const double* draws) {
    const double* n = pose.numbers.data();
    Moment& now = reaction.now;
    const double distance = meeting.distanceToBody(), flight = shot.path.time(distance);
    now.read = scene.table[shot.stratum * STRATUM_STRIDE + EARLY_READ];
    now.dropLead = n[DROP_LEAD];
    now.dropTime = n[DROP_TIME];
    now.leaks = draws[DRAW_LEAK] < scene.postures[pose.posture].leak;
    now.frozen = n[ANSWER] == ANSWER_FROZEN;
    now.errors = draws + DRAW_LIMB;
    now.stands = false;
    now.blockShare = n[ANSWER] == ANSWER_BLOCK           ? 1
                     : n[ANSWER] != ANSWER_BY_DISTANCE   ? 0
                     : flight >= n[BLOCK_NEVER]          ? 0
                     : flight <= n[BLOCK_ALWAYS]         ? 1
                                                         : (n[BLOCK_NEVER] - flight) / (n[BLOCK_NEVER] - n[BLOCK_ALWAYS]);
    now.longestLead = n[BLOCK_LEAD];
    now.drawnLead = n[BLOCK_LEAD] * draws[DRAW_BLOCK_LEAD];
    now.reactPhase = shot.path.height(distance) <= n[HIGH_PUCK] ? 1 : n[HIGH_DROP];
  }

  void collectSaves(const Prepared& with) {
    saves.clear();
    meeting.setDrop(with.posture->phases, reaction.now.dropTime);
    for (int part : with.order) {
      if (saves.certain && reaction.now.stands) return;
      if (!meeting.meetPart(with, part)) continue;
      if (saves.certain) reaction.stands();
      else reaction.saves(part, saves);
    }
  }

  void collectCover(const Prepared& with) {
    cover.clear();
    meeting.setDrop(with.posture->phases, reaction.now.dropTime);
    for (int part : with.order) {
      if (cover.certain && reaction.now.stands) return;
      if (!meeting.meetPart(with, part)) continue;
      reaction.stands();
      if (!cover.certain) reaction.cover(part, cover);
    }
  }

  double savedWith(const Pose& pose, double weight) {
    collectSaves(prepared[pose.posture]);
    const double* n = pose.numbers.data();
    return weight *
           saves.probability(normal, n[REACTION_MEDIAN], n[REACTION_SPREAD], reaction.now.read, weight, byRegion);
  }

  double savedByBlock(const Pose& pose, double weight) {
    Moment& now = reaction.now;
    const double length = now.longestLead;
    now.lastPhase = 1;
    now.blockLead = now.drawnLead;
    if (now.leaks || !(length > 0)) return savedWith(pose, weight);
    collectCover(prepared[pose.posture]);
    const double covered = cover.coveredShare(length, weight, byRegion);
    if (covered >= 1 - 1e-12) return weight * covered;
    now.blockLead = -cover.placeInOpen(length, 1 - now.drawnLead / length);
    return weight * covered + savedWith(pose, weight * (1 - covered));
  }

  double decide(const Shot& shot, const Pose& pose, const double* draws) {
    const Path& path = shot.path;
    const double line = path.dx < 0 ? -path.x / path.dx : path.end;
    const double over = path.dx < 0 ? (path.x + world[POST_RADIUS] + world[PUCK_RADIUS]) / -path.dx : path.end;
    meeting.meetGoalie(path, station, line, shot.fate == IRON_IN ? line : over);
    setMoment(shot, pose, draws);
    std::fill(byRegion, byRegion + REGIONS, 0.0);
    Moment& now = reaction.now;
    double saved = 0;
    if (now.blockShare < 1) {
      now.blockLead = REACTS;
      now.lastPhase = now.reactPhase;
      saved += savedWith(pose, 1 - now.blockShare);
    }
    if (now.blockShare > 0) saved += savedByBlock(pose, now.blockShare);
    return saved;
  }

  void addShot(int i, int p, double weight, Tally& tally) {
    const Shot& shot = shots[i];
    const Pose& pose = scene.poses[p];
    const int spot = int(scene.table[shot.stratum * STRATUM_STRIDE + SPOT]);
    double* sums = &tally.sums[(size_t(p) * size_t(scene.spots) + size_t(spot)) * TALLY_STRIDE];
    const double w = quantise(weight);
    sums[SHOTS_COUNTED] += w;
    if (shot.unreachable) sums[UNREACHABLE] += w;
    if (shot.fate == IRON_OUT) sums[IRON_OUT_SUM] += w;
    else if (shot.fate == SHORT) sums[SHORT_SUM] += w;
    else if (shot.fate == MISS) sums[MISSED] += w;
    if (shot.fate != ON_GOAL && shot.fate != IRON_IN) return;
    sums[ON_GOAL_SUM] += w;
    sums[shot.fate == IRON_IN ? IRON_IN_SUM : CLEAR_ON_GOAL] += w;

    double saved = 0;
    const double* draws = &goalie[i * GOALIE_DRAWS];
    if (pose.numbers[ANSWER] != ANSWER_ABSENT) {
      stand(shot, pose.numbers.data(), scene.postures[pose.posture], draws);
      saved = quantise(weight * decide(shot, pose, draws));
      sums[SAVED] += saved;
      sums[STOOD] += quantise(reaction.now.stands ? weight : 0);
      sums[BLOCKS] += quantise(weight * reaction.now.blockShare);
      sums[DEPTH_SUM] += quantise(weight * station.depth);
      if (station.cut) sums[DEPTH_CUT] += w;
      if (shot.fate == ON_GOAL) sums[CLEAR_SAVED] += saved;
      for (int region = 0; region < REGIONS; region++) sums[BY_REGION + region] += quantise(weight * byRegion[region]);
    }
    if (w - saved > 0) placeGoal(shot, pose, p, sums, w - saved, tally);
  }

  void placeGoal(const Shot& shot, const Pose& pose, int p, double* sums, double goal, Tally& tally) {
    const double y = shot.crossing.y, z = shot.crossing.z, middle = pose.numbers[ZONE_MIDDLE];
    const int side = y <= middle && y >= -middle ? 1 : y * pose.numbers[GLOVE_SIDE] > 0 ? 0 : 2;
    sums[BY_ZONE + (z < pose.numbers[ZONE_LOW] ? 0 : 3) + side] += goal;
    const int column = int((y / world[MOUTH_HALF_WIDTH] + 1) * 0.5 * MAP_COLUMNS);
    const int line = int((z / world[MOUTH_HEIGHT]) * MAP_ROWS);
    tally.maps[size_t(p) * MAP_CELLS + size_t(std::clamp(line, 0, MAP_ROWS - 1) * MAP_COLUMNS +
                                              std::clamp(column, 0, MAP_COLUMNS - 1))] += goal;
  }
};

static double processorSeconds() {
  timespec now;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return double(now.tv_sec) + 1e-9 * double(now.tv_nsec);
}

int main(int count, char** arguments) {
  if (count < 8) {
    std::fprintf(stderr, "usage: yardstick scene.bin tally.bin key0 key1 replicates batches batch [repeats]\n");
    return 2;
  }
  const Scene scene = readScene(arguments[1]);
  const Key key{uint32_t(std::strtoul(arguments[3], nullptr, 10)), uint32_t(std::strtoul(arguments[4], nullptr, 10))};
  const int replicates = std::atoi(arguments[5]), batches = std::atoi(arguments[6]), batch = std::atoi(arguments[7]);
  const int repeats = count > 8 ? std::atoi(arguments[8]) : 1;
  Engine engine(scene, batch);
  for (int repeat = 0; repeat < repeats; repeat++) {
    const double from = processorSeconds();
    FILE* out = std::fopen(arguments[2], "wb");
    for (int r = 0; r < replicates; r++) {
      const Tally tally = engine.fire(key, uint32_t(r), batches, batch);
      std::fwrite(tally.sums.data(), sizeof(double), tally.sums.size(), out);
      std::fwrite(tally.maps.data(), sizeof(double), tally.maps.size(), out);
    }
    std::fclose(out);
    std::printf("%.6f\n", processorSeconds() - from);
  }
}
