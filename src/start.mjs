#!/usr/bin/env node
// Finds or makes the bundle of src and runs it; nothing else.
import { readyBundle } from './start/bundle.mjs'
import { compileAsUsual, runHouse, setFlags } from './start/run-house.mjs'

/** By then the first page is there, or soon will be. */
const keptAfterMilliseconds = 30_000

setFlags()
const { keep } = runHouse(await readyBundle())
setTimeout(() => {
  keep()
  compileAsUsual()
}, keptAfterMilliseconds).unref()
process.once('exit', () => keep({ onlyIfNone: true }))
