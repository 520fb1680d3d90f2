import { formatQuantity } from "../experiments/quantity.ts"
import type { Survey } from "../experiments/survey/survey.ts"
import { printProblems } from "./check.ts"
import { colours, printError, printJson, wrapped } from "./print.ts"
import { type Arguments, type Command, EXIT, type Streams } from "./streams.ts"

const WIDTH = 100

export const command: Command = {
  options: (yargs) =>
    yargs
      .positional("file", { type: "string", describe: "Rink file: the sheet, what was measured, the home rink" })
      .option("json", { type: "boolean", describe: "Print the survey as JSON" })
      .option("out", { type: "string", requiresArg: true, describe: "Folder for a picture of it, SVG and PNG" }),
  run: async (given, streams) => {
    const { readSurvey } = await import("../experiments/survey/read-survey.ts")
    const { surveyRink } = await import("../experiments/survey/survey.ts")
    const read = readSurvey(String(given.file))
    if ("problems" in read) {
      if (given.json === true) printJson({ problems: read.problems }, streams)
      else printProblems(read.problems, streams)
      return EXIT.wrong
    }
    const survey = surveyRink(read.request)
    const files = await drawn(survey, given, streams)
    if (files === null) return EXIT.wrong
    if (given.json === true) {
      const { surveyJson } = await import("../experiments/survey/survey-json.ts")
      printJson(files.length === 0 ? surveyJson(survey) : { ...surveyJson(survey), files }, streams)
    } else await printSurvey(survey, files, streams)
    return EXIT.done
  },
}

/** Paths of the pictures that were asked for and written; null, with the reason told, where they could not be. */
async function drawn(survey: Survey, given: Arguments, streams: Streams): Promise<string[] | null> {
  if (given.out === undefined) return []
  const folder = String(Array.isArray(given.out) ? given.out.at(-1) : given.out)
  const { checkOutputFolder, writeIntoPlace } = await import("../experiments/write/into-place.ts")
  const { surveyPictures } = await import("../experiments/survey/survey-pictures.ts")
  try {
    await checkOutputFolder(folder)
    const files = await surveyPictures(survey)
    await writeIntoPlace(folder, files)
    return files.map(({ path }) => `${folder}/${path}`)
  } catch (error) {
    printError(error instanceof Error ? error.message : String(error), streams)
    return null
  }
}

async function printSurvey(survey: Survey, files: readonly string[], streams: Streams): Promise<void> {
  const { depthText, lineText, remarks, sheetText, SURVEY_CAUTIONS, verdictLines } = await import(
    "../experiments/survey/cue-words.ts"
  )
  const { surveyTables } = await import("../experiments/survey/survey-table.ts")
  const { bold, dim, green, yellow, red } = colours(streams)
  const { name, about, settings } = survey.request
  const say = (text: string, indent = "  "): void => streams.out(`${wrapped(text, WIDTH, indent)}\n`)
  const heading = (text: string): void => streams.out(`\n${bold(text)}\n`)
  const shown = (tables: readonly (readonly string[])[]): void =>
    streams.out(`${tables.map((lines) => lines.map((line) => `  ${line}\n`).join("")).join("\n")}`)

  streams.out(`${bold(`${name}: which cues lead to the angle`)}\n`)
  if (about !== "") say(about)
  say(sheetText(survey))
  say(`${depthText(survey)}; left and right are the goalie's`)

  heading("Off the line, cm: bias ± standard deviation, + toward the goalie's left")
  shown(surveyTables(survey, "cm"))
  heading("Off the angle, degrees: the same as seen from the middle of the goal line")
  shown(surveyTables(survey, "degrees"))
  const limit = (key: "reference.trust_within" | "reference.distrust_beyond") =>
    formatQuantity(settings.quantities[key], "length", "cm")
  const limits = `? over ${limit("reference.trust_within")} off, bias and spread together · ! over ${limit("reference.distrust_beyond")}`
  streams.out(`${dim(wrapped(limits, WIDTH, "  "))}\n`)

  heading("Marks in line: common practice, no source")
  for (const line of survey.lines) say(lineText(line))

  heading("What to go by")
  const paints = { trust: green, check: yellow, distrust: red }
  for (const { verdict, title, items } of verdictLines(survey)) {
    streams.out(`  ${paints[verdict](title)}\n`)
    if (verdict === "trust") say(items.join(", "), "    ")
    else for (const item of items) say(item, "    ")
  }
  for (const remark of remarks(survey)) say(remark)

  heading("Before you try it on the ice")
  for (const caution of SURVEY_CAUTIONS) say(`${caution}.`)
  if (files.length > 0) streams.out(`\nPicture: ${files.join(", ")}\n`)
}
