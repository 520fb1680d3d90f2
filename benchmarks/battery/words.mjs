import { philox4x32 } from "../../dist/sim/random/philox.js"
import { BOOTSTRAP, DESIGN, GOALIE, PLAY, PUCK, SHOOTER, uniformAt } from "../../dist/sim/random/streams.js"
import { GOALIE_DRAWS, SHOOTER_DRAWS } from "../../dist/sim/shots.js"

const STREAMS = [PLAY, SHOOTER, PUCK, GOALIE, BOOTSTRAP, DESIGN]
/** Draws of one shot before the next is taken, where the words run along the draws. */
const DRAWS = 4096

/**
 * Ways through the addresses of the random numbers. Each takes a step of 0, 1, 2 … and says where its words are: shot,
 * block of four draws, stream and replicate, and how many of the four words are taken.
 */
export const ADDRESSINGS = {
  fired: {
    why: "as a run takes them: shot after shot, its draws of the shooter, then its draws of the goalie",
    words: 4,
    at(step, put) {
      const shooter = SHOOTER_DRAWS / 4
      const blocks = shooter + GOALIE_DRAWS / 4
      const block = step % blocks
      const shot = (step - block) / blocks
      if (block < shooter) put(shot, block, SHOOTER, 0)
      else put(shot, block - shooter, GOALIE, 0)
    },
  },
  shots: { why: "along the shots: draw 0 of each", words: 1, at: (step, put) => put(step, 0, SHOOTER, 0) },
  draws: {
    why: `along the draws: ${DRAWS} of each shot`,
    words: 4,
    at: (step, put) => put(Math.floor((4 * step) / DRAWS), step % (DRAWS / 4), GOALIE, 0),
  },
  replicates: {
    why: "along the replicates: draw 0 of shot 0 in each",
    words: 1,
    at: (step, put) => put(0, 0, GOALIE, step),
  },
  streams: {
    why: "streams in turn: draw 0 of each shot in every stream",
    words: 1,
    at: (step, put) => put(Math.floor(step / STREAMS.length), 0, STREAMS[step % STREAMS.length], 0),
  },
  "32 replicates": {
    why: "replicates in turn: draw 0 of each shot in all 32 replicates of a run",
    words: 1,
    at: (step, put) => put(step >>> 5, 0, SHOOTER, step & 31),
  },
}

/** Fills `out` with the words of one addressing from `step` on, and returns the step after the last. */
export function fillWords({ at, words }, key, step, out) {
  const block = new Uint32Array(4)
  let put = 0
  const take = (shot, draws, stream, replicate) => philox4x32(shot, draws, stream, replicate, key[0], key[1], block, 0)
  while (put < out.length) {
    at(step++, take)
    for (let i = 0; i < words; i++) out[put++] = block[i]
  }
  return step
}

/** Throws unless the words are those that the program's own streams turn into draws. */
export function checkWords(addressing, key) {
  const out = new Uint32Array(256)
  fillWords(addressing, key, 0, out)
  for (let i = 0; i < out.length; i++) {
    let address = null
    addressing.at(Math.floor(i / addressing.words), (...where) => {
      address = where
    })
    const [shot, block, stream, replicate] = address
    const draw = 4 * block + (i % addressing.words)
    const word = uniformAt(key, replicate, stream, shot, draw) * 2 ** 32 - 0.5
    if (word !== out[i]) throw new Error(`word ${i} is ${out[i]} and its draw is made from ${word}`)
  }
}
