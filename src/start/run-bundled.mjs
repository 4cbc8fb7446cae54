// Runs a file of the bundle with what V8 made of its letters at an earlier start: reading them anew takes half of the time to the
// first page. Node 20 keeps nothing of the kind, and later ones only whole modules, so it is kept here, beside the file and with it.
import { isAscii } from 'node:buffer'
import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { cachedDataVersionTag } from 'node:v8'
import { Script } from 'node:vm'
import { showSourcesOf } from './stacks-of-sources.mjs'

/** More than that of what is kept has to be new before it is written anew. */
const worthKeeping = 1.05

/**
 * What the file exports, and `keep`, which puts by what V8 has made of it so far: functions that have run are in it, others are not,
 * so it is called when what a start needs has run. `by` tells apart who runs it for different ends, as commands do; `root` is the
 * house, whose libraries it asks for. The file is of the older module kind, written as one function of `exports, require, module`.
 */
export function runBundled(file, { root, by = '' }) {
  const { version, arch } = process
  // Of the flags as they stand: under others V8 would refuse it.
  const tag = cachedDataVersionTag()
  const keptIn = `${file}.${[by, version, arch, tag].filter(Boolean).join('-')}.code`
  const cachedData = bytesOf(keptIn)
  const script = new Script(lettersOf(file), {
    filename: file,
    ...(cachedData && { cachedData }),
  })
  showSourcesOf(file)
  const module = { exports: {} }
  let size = script.cachedDataRejected === false ? cachedData.length : 0
  script.runInThisContext()(
    module.exports,
    createRequire(join(root, 'package.json')),
    module,
    file,
    dirname(file),
  )
  const keep = ({ onlyIfNone = false } = {}) => {
    if ((onlyIfNone && size > 0) || cachedDataVersionTag() !== tag) return
    const made = script.createCachedData()
    if (made.length > size * worthKeeping && write(keptIn, made)) size = made.length
  }
  return { exports: module.exports, keep }
}

/**
 * A byte a letter takes V8 a third of the time, and half of the memory: esbuild writes all text so but for patterns, in which the
 * sources therefore name other letters by their numbers.
 */
function lettersOf(file) {
  const bytes = readFileSync(file)
  return isAscii(bytes) ? bytes.latin1Slice() : bytes.utf8Slice()
}

function bytesOf(file) {
  try {
    return readFileSync(file)
  } catch {
    return undefined
  }
}

/** Where it cannot be written, the next start reads the letters again. */
function write(file, bytes) {
  const making = `${file}.${process.pid}.${Math.trunc(performance.now() * 1000)}`
  try {
    writeFileSync(making, bytes)
    renameSync(making, file)
    return true
  } catch {
    rmSync(making, { force: true })
    return false
  }
}
