// Clearances of a list of paths and rounded boxes, each searched for anew.
//   clearances scalar|four pairs.bin answers.bin passes
// A pair is the head of a record of src/sim/box-record.ts, up to the disc's half thickness. Prints the processor seconds of
// all passes; "missing" for four at once on a processor without AVX2.
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <vector>
#include "four.hpp"

constexpr size_t HEAD = 17;

struct Pair {
  Box box;
  Row row;
};

static std::vector<Pair> readPairs(const char* name) {
  std::vector<Pair> pairs;
  FILE* file = std::fopen(name, "rb");
  double n[HEAD];
  while (file && std::fread(n, sizeof(double), HEAD, file) == HEAD) {
    Pair pair{{{n[9], n[10], n[11]}, n[12], n[13], n[14], n[15], n[16], COLD}, {}};
    std::memcpy(&pair.row, n, sizeof(Row));
    pairs.push_back(pair);
  }
  if (file) std::fclose(file);
  return pairs;
}

static double processorSeconds() {
  timespec now;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return double(now.tv_sec) + 1e-9 * double(now.tv_nsec);
}

static double scalar(std::vector<Pair>& pairs, int passes, std::vector<double>& answers) {
  const double from = processorSeconds();
  for (int pass = 0; pass < passes; pass++)
    for (size_t i = 0; i < pairs.size(); i++) {
      pairs[i].box.start = COLD;
      answers[i] = solve(pairs[i].box, pairs[i].row);
    }
  return processorSeconds() - from;
}

#ifdef __AVX2__
static double four(const std::vector<Pair>& pairs, int passes, std::vector<double>& answers) {
  std::vector<Four> groups((pairs.size() + 3) / 4);
  for (size_t i = 0; i < 4 * groups.size(); i++) {
    const Pair& pair = pairs[std::min(i, pairs.size() - 1)];
    groups[i / 4].put(int(i % 4), pair.box, pair.row);
  }
  answers.resize(4 * groups.size());
  const double from = processorSeconds();
  for (int pass = 0; pass < passes; pass++)
    for (size_t g = 0; g < groups.size(); g++) _mm256_storeu_pd(&answers[4 * g], (__m256d)solve(groups[g]));
  const double seconds = processorSeconds() - from;
  answers.resize(pairs.size());
  return seconds;
}
#endif

int main(int count, char** arguments) {
  if (count != 5) {
    std::fprintf(stderr, "usage: clearances scalar|four pairs.bin answers.bin passes\n");
    return 2;
  }
  std::vector<Pair> pairs = readPairs(arguments[2]);
  std::vector<double> answers(pairs.size());
  const int passes = std::atoi(arguments[4]);
  double seconds = 0;
  if (std::strcmp(arguments[1], "scalar") == 0) seconds = scalar(pairs, passes, answers);
#ifdef __AVX2__
  else seconds = four(pairs, passes, answers);
#else
  else {
    std::printf("missing\n");
    return 0;
  }
#endif
  FILE* out = std::fopen(arguments[3], "wb");
  std::fwrite(answers.data(), sizeof(double), answers.size(), out);
  std::fclose(out);
  std::printf("%.9f\n", seconds);
}
