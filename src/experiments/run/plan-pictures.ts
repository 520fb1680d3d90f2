import { chosenFrame } from "../../models/goal/chosen-frame.ts"
import { buildPosture } from "../../models/goalie/posture.ts"
import { type UsualCourse, usualCourses } from "../../models/plays/usual-course.ts"
import { chosenRink } from "../../models/rink/chosen-rink.ts"
import { type Settings, withSettings } from "../../models/settings.ts"
import type { Experiment } from "../experiment.ts"
import { percent } from "../report/words.ts"
import type { PlanPicture } from "../results.ts"
import { picturePoints, poseText } from "./picture-points.ts"

/** Design points shown, and pictures in all: one for each branch of their plays. */
const MOST_POINTS = 3
const MOST_PICTURES = 4

/** The play of some design points from above, branch by branch. */
export function plansOf(experiment: Experiment): PlanPicture[] {
  return picturePoints(experiment, MOST_POINTS)
    .flatMap((index) => {
      const { settings } = experiment.points[index]!
      const title = poseText(experiment, index)
      const courses = usualCourses(settings)
      return courses.map((course) => planOf(settings, title, course, courses.length > 1))
    })
    .slice(0, MOST_PICTURES)
}

function planOf(settings: Settings, title: string, course: UsualCourse, several: boolean): PlanPicture {
  return {
    title: several ? `${title}: ${course.name}` : title,
    subtitle: several ? `${percent(course.share, 0)} of the plays where nobody chooses` : "",
    rink: chosenRink(settings),
    mouthHalfWidth: 0.5 * chosenFrame(settings).width,
    halfStance: buildPosture(withSettings(settings, { choices: { "play.goalie": "present" } })).halfStance,
    course,
  }
}
