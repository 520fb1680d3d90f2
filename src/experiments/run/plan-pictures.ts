import { chosenFrame } from "../../models/goal/chosen-frame.ts"
import { buildPosture } from "../../models/goalie/posture.ts"
import { type UsualCourse, usualCourses } from "../../models/plays/usual-course.ts"
import { chosenRink } from "../../models/rink/chosen-rink.ts"
import { withSettings } from "../../models/settings.ts"
import type { Experiment } from "../experiment.ts"
import { percent } from "../report/words.ts"
import type { PlanPicture } from "../results.ts"
import { poseText } from "./picture-points.ts"
import { planPoints } from "./plan-points.ts"

/** Pictures in all: one for each branch of the plays, the most usual of every point before the others. */
const MOST_PICTURES = 4

/** The play of some design points from above, branch by branch. */
export function plansOf(experiment: Experiment): PlanPicture[] {
  const plans = planPoints(experiment).map((index) => {
    const { settings } = experiment.points[index]!
    const courses = usualCourses(settings).toSorted((a, b) => b.share - a.share)
    return courses.map((course) => planOf(experiment, index, course, courses.length))
  })
  const ranks = plans.flatMap((ofPoint) => ofPoint.map((plan, rank) => ({ plan, rank })))
  const shown = new Set(ranks.toSorted((a, b) => a.rank - b.rank).slice(0, MOST_PICTURES))
  return ranks.filter((one) => shown.has(one)).map(({ plan }) => plan)
}

function planOf(experiment: Experiment, index: number, course: UsualCourse, ways: number): PlanPicture {
  const { settings } = experiment.points[index]!
  const title = poseText(experiment, index)
  const several = ways > 1
  return {
    index,
    ways,
    title: several ? `${title}: ${course.name}` : title,
    subtitle: several ? `${percent(course.share, 0)} of the plays where nobody chooses` : "",
    rink: chosenRink(settings),
    mouthHalfWidth: 0.5 * chosenFrame(settings).width,
    halfStance: buildPosture(withSettings(settings, { choices: { "play.goalie": "present" } })).halfStance,
    course,
  }
}
