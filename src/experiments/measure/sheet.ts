import { formatQuantity } from "../quantity.ts"
import { MEASURE_CAUTIONS } from "./cautions.ts"
import { DROP_HOW, DROP_KEY, TIMED, type Timed } from "./timed.ts"

/** An empty sheet to fill in at the rink; the lines that stay empty are no readings. */
export function sheetText(): string {
  return `# Reading sheet. Fill in what was measured, leave the rest empty, then:
#   goalmouth measure THIS_FILE --out experiments/goalies/NAME.yaml
# Times carry their unit (0.85 s, 850 ms); from video write frames (26 frames) and the frame rate below.
# Several readings of one movement make a better one: [0.85 s, 0.91 s, 0.88 s].
# ${MEASURE_CAUTIONS}.

name:
about:

# The body without skates, and what it wears.
stature: # 1.83 m, 6 ft 1 in
mass: # 82 kg, 180 lb
catches: # left or right: the hand with the catching glove
gear: # north-american, anatomical, international or youth
pad_width: # 28 cm, as measured
pad_length: # 90 cm, as measured

# The instruments.
frame_rate: # frames a second the video was filmed at, such as 30, 60 or 240; not the rate of a slow-motion playback
watch_error: # what the hand on the stop-watch errs by; 0.1 s unless given

${TIMED.map(timedLines).join("\n")}
# ${DROP_HOW}.
${DROP_KEY}:
`
}

function timedLines(timed: Timed): string {
  const distance =
    timed.distance === null
      ? "2 m, as measured on the ice"
      : `${formatQuantity(timed.distance, "length", "m")}, the goal's opening, unless given`
  return `# ${timed.how}.
${timed.key}:
${timed.key}_distance: # ${distance}
`
}
