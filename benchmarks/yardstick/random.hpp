// Philox4x32-10, the inverse normal (AS 241) and a fast cumulative lognormal: the same as in src/sim/random.
#pragma once
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

struct Key {
  uint32_t word0, word1;
};

enum Stream : uint32_t { PLAY = 0, SHOOTER = 1, GOALIE = 3 };

inline void philox(uint32_t a, uint32_t b, uint32_t c, uint32_t d, Key key, uint32_t* out) {
  uint32_t k0 = key.word0, k1 = key.word1;
  for (int round = 0; round < 10; round++) {
    const uint64_t product0 = uint64_t(a) * 0xd2511f53u;
    const uint64_t product1 = uint64_t(c) * 0xcd9e8d57u;
    a = uint32_t(product1 >> 32) ^ b ^ k0;
    b = uint32_t(product1);
    c = uint32_t(product0 >> 32) ^ d ^ k1;
    d = uint32_t(product0);
    k0 += 0x9e3779b9u;
    k1 += 0xbb67ae85u;
  }
  out[0] = a;
  out[1] = b;
  out[2] = c;
  out[3] = d;
}

// counter (shot, block, stream, replicate); u = (word + 1/2) / 2^32
inline void fillUniforms(Key key, uint32_t replicate, Stream stream, uint32_t first, int count, int draws, double* out) {
  uint32_t words[4];
  for (int shot = 0; shot < count; shot++)
    for (int slot = 0; slot < draws; slot += 4) {
      philox(first + uint32_t(shot), uint32_t(slot / 4), stream, replicate, key, words);
      for (int i = 0; i < 4; i++) out[shot * draws + slot + i] = (double(words[i]) + 0.5) / 4294967296.0;
    }
}

inline double invertNormal(double p) {
  const double q = p - 0.5;
  if (q >= -0.425 && q <= 0.425) {
    const double r = 0.180625 - q * q;
    double n = 2509.0809287301227 * r + 33430.57558358813;
    n = (n * r + 67265.7709270087) * r + 45921.95393154987;
    n = (n * r + 13731.69376550946) * r + 1971.5909503065513;
    n = (n * r + 133.14166789178438) * r + 3.3871328727963665;
    double d = 5226.495278852854 * r + 28729.085735721943;
    d = (d * r + 39307.89580009271) * r + 21213.794301586597;
    d = (d * r + 5394.196021424751) * r + 687.1870074920579;
    d = (d * r + 42.31333070160091) * r + 1;
    return q * (n / d);
  }
  const double tail = q < 0 ? p : 1 - p;
  double r = std::sqrt(-std::log(tail));
  double n, d;
  if (r <= 5) {
    r -= 1.6;
    n = 0.0007745450142783414 * r + 0.022723844989269184;
    n = (n * r + 0.2417807251774506) * r + 1.2704582524523684;
    n = (n * r + 3.6478483247632045) * r + 5.769497221460691;
    n = (n * r + 4.630337846156546) * r + 1.4234371107496835;
    d = 1.0507500716444169e-9 * r + 0.0005475938084995345;
    d = (d * r + 0.015198666563616457) * r + 0.14810397642748008;
    d = (d * r + 0.6897673349851) * r + 1.6763848301838038;
    d = (d * r + 2.053191626637759) * r + 1;
  } else {
    r -= 5;
    n = 2.0103343992922881e-7 * r + 2.7115555687434876e-5;
    n = (n * r + 0.0012426609473880784) * r + 0.026532189526576124;
    n = (n * r + 0.29656057182850487) * r + 1.7848265399172913;
    n = (n * r + 5.463784911164114) * r + 6.657904643501103;
    d = 2.0442631033899397e-15 * r + 1.421511758316446e-7;
    d = (d * r + 1.8463183175100548e-5) * r + 0.0007868691311456133;
    d = (d * r + 0.014875361290850615) * r + 0.1369298809227358;
    d = (d * r + 0.599832206555888) * r + 1;
  }
  return q < 0 ? -n / d : n / d;
}

// normal cut at three standard deviations
inline double sampleTruncatedNormal(double u, double mean, double sd) {
  return mean + sd * invertNormal(0.0013498980316300946 + 0.9973002039367398 * u);
}

// Taylor series about the nearest point of a table, a thirty-second apart
class FastNormal {
 public:
  FastNormal() : table(2 * COUNT) {
    for (int i = 0; i < COUNT; i++) {
      const double x = double(i) / 32 - 8;
      table[2 * i] = 0.5 * std::erfc(-x / std::sqrt(2.0));
      table[2 * i + 1] = 0.3989422804014327 * std::exp(-0.5 * x * x);
    }
  }
  double below(double x) const {
    if (!(x > -8)) return 0;
    if (x >= 8) return 1;
    const int i = int((x + 8) * 32 + 0.5);
    const double centre = double(i) / 32 - 8;
    const double h = x - centre;
    const double s = centre * centre;
    const double series =
        1 + h * (-0.5 * centre + h * ((s - 1) * (1.0 / 6) + h * (centre * (3 - s) * (1.0 / 24))));
    return table[2 * i] + table[2 * i + 1] * h * series;
  }

 private:
  static constexpr int COUNT = 2 * 8 * 32 + 1;
  std::vector<double> table;
};

inline double cumulativeLognormal(const FastNormal& normal, double x, double median, double sdOfLog) {
  return x > 0 ? normal.below(std::log(x / median) / sdOfLog) : 0;
}
