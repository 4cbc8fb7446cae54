// Says in the stack of an error where a line of the bundle comes from. Node does so for the modules that it loads itself; and here
// the map, as large as the bundle, is read only once there is a stack to be shown.
import { readFileSync } from 'node:fs'
import { SourceMap } from 'node:module'
import { dirname, resolve } from 'node:path'

/** The maps of the files that are run, null until one is asked for. */
const maps = new Map()

/** From now on places in the file are said as places in its sources, by the map beside it. */
export function showSourcesOf(file) {
  if (maps.size === 0) Error.prepareStackTrace = stackOf
  maps.set(file, maps.get(file) ?? null)
}

const stackOf = (error, frames) =>
  [heading(error), ...frames.map((frame) => `    at ${inSources(frame)}`)].join('\n')

function heading(error) {
  try {
    return Error.prototype.toString.call(error)
  } catch {
    return 'Error'
  }
}

function inSources(frame) {
  const said = String(frame)
  const file = frame.getFileName()
  const map = maps.has(file) ? mapOf(file) : null
  const from = map?.findEntry(frame.getLineNumber() - 1, frame.getColumnNumber() - 1)
  if (from?.originalSource === undefined) return said
  const source = resolve(dirname(file), from.originalSource)
  const place = `${file}:${frame.getLineNumber()}:${frame.getColumnNumber()}`
  return said.replace(place, `${source}:${from.originalLine + 1}:${from.originalColumn + 1}`)
}

/** Where it cannot be read, the place in the bundle is what can be said. */
function mapOf(file) {
  if (maps.get(file) === null)
    try {
      maps.set(file, new SourceMap(JSON.parse(readFileSync(`${file}.map`, 'utf8'))))
    } catch {
      maps.set(file, undefined)
    }
  return maps.get(file)
}
