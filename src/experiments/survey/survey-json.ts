import type { Rink } from "../../models/rink/rink.ts"
import { degrees, remarks, SURVEY_CAUTIONS } from "./cue-words.ts"
import type { NamedRink } from "./request.ts"
import type { InLine, Survey } from "./survey.ts"

/** A survey as plain data with units in the names. */
export function surveyJson(survey: Survey): object {
  const { request, spots, rows, lines } = survey
  return {
    name: request.name,
    about: request.about,
    here: sheetJson(request.here),
    home: request.home === null ? "this rink" : sheetJson(request.home),
    spots: spots.map(({ label, x, y, bearing, depth, atPost }) => ({
      ...{ label, x_m: short(x), y_m: short(y), bearing_deg: short(degrees(bearing)), depth_m: short(depth) },
      at_post: atPost,
    })),
    cues: rows.map(({ cue, mark, at, verdict }) => ({
      cue,
      mark,
      verdict,
      spots: at.map((off, i) => ({
        spot: spots[i]!.label,
        off_line_cm: short(100 * off.bias),
        off_line_sd_cm: short(100 * off.spread),
        off_angle_deg: short(degrees(off.biasAngle)),
        off_angle_sd_deg: short(degrees(off.spreadAngle)),
        verdict: off.verdict,
      })),
    })),
    marks_in_line: lines.map(({ line, here, home }) => ({
      line,
      here: lineJson(here),
      home: home === null ? null : lineJson(home),
    })),
    remarks: remarks(survey),
    cautions: SURVEY_CAUTIONS,
  }
}

function sheetJson({ sheet, rink, measured }: NamedRink): object {
  return { sheet, measured: [...measured], ...marksOf(rink) }
}

function marksOf(rink: Rink): object {
  const place = ({ x, y }: { readonly x: number; readonly y: number }) => ({ x_m: short(x), y_m: short(y) })
  return {
    end_spot: place(rink.endSpot),
    neutral_spot: place(rink.neutralSpot),
    circle_radius_m: short(rink.circleRadius),
    crease: {
      shape: rink.crease.shape,
      radius_m: short(rink.crease.radius),
      half_width_m: short(rink.crease.halfWidth),
      mark_out_m: short(rink.crease.markOut),
    },
  }
}

function lineJson({ miss, verdict, depth, off }: InLine): object {
  return { miss_cm: short(100 * miss), verdict, depth_m: short(depth), off_line_cm: short(100 * off) }
}

/** To a micrometre or a millionth of a degree: finer is rounding of the machine. */
function short(value: number): number {
  return Number(value.toFixed(6)) + 0
}
