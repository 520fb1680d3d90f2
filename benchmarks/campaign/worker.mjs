import { parentPort, workerData } from "node:worker_threads"
import { repeater } from "./repeat.mjs"
import { experimentOf } from "./scenes.mjs"

/** Makes the runs whose numbers it is sent, one at a time, and says what each found. */
const { scene, lines, part } = workerData
const repeat = repeater(experimentOf(scene, lines, "coverage"))
parentPort.on("message", async (number) => {
  parentPort.postMessage({ number, ...(await repeat(`coverage ${part} ${number}`)) })
})
