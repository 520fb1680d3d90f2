/** A commented experiment file to start from; it checks clean as it stands. */
export function starterText(): string {
  return `# One question, one file. Check it with: goalmouth check FILE   Run it with: goalmouth run FILE
# Every key with its default, range and source: goalmouth parameters
# Quantities carry their unit (1.2 m, 4 ft, 6 ft 2 in, 95 km/h, 60 mph, 12 deg, 185 ms); shares are 0.25 or 25 %.

question: How far out should our goalie stand for a clear shot from the slot?
why: Depth hides net from the puck, and costs time to react and to move across.

# Who stands in the net. "goalie: none" leaves it empty; "file: goalies/tall.yaml" starts from a goalie file.
goalie:
  name: Our goalie
  stature: 1.85 m
  catches: left
  stance: set

# Where the puck is when it leaves the stick, from the centre of the goal line; angles count to the goalie's left.
# Several places instead: from: [ { label: slot, distance: 8 m, angle: 0 deg, weight: 2 }, ... ] or a CSV file.
play:
  kind: straight shot
  distance: 8 m
  angle: 15 deg

shooter:
  level: professional
  aim: reads

# What changes from point to point. Several keys are crossed; the first one is the x axis of the curve.
sweep:
  goalie.depth: { from: 0 m, to: 2.5 m, step: 0.25 m }

# Named alternatives, each crossed with the sweep.
compare:
  - { name: hands beside, goalie.hands: beside }
  - { name: hands tucked, goalie.hands: tucked }

# Every other point is compared with this one, on the same shots.
baseline: { case: hands beside, goalie.depth: 1.25 m }

measures: [save rate, goal rate, net covered, box]

# Shots for each point, or until the save rate is known well enough: the first to be reached ends the run.
until: { half-width: 0.5 %, most: 100000 }

seed: our goalie 1
charts: [curve, puck's eye]
`
}
