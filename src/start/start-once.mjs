// Starts the house with the sample, asks for the first page and stops, in a process of its own: `node start-once.mjs BUNDLE`. What is
// left of it, the books of the sample and what V8 made, lies in the bundle.
import { join } from 'node:path'
import { madeBefore } from './bundle.mjs'
import { runHouse, setFlags } from './run-house.mjs'

setFlags()
const [, , folder] = process.argv
const data = join(folder, madeBefore)
process.argv = [process.argv[0], 'dooryard', 'serve', '--sample', '--no-open', '--port', '0', '--data', data]
process.stdout.write = (said) => {
  const open = /open at (http:\S+)/.exec(said)
  if (open) void askAndStop(open[1])
  return true
}
const { keep } = runHouse(folder)

async function askAndStop(address) {
  const page = await fetch(`${address}/now`)
  await page.text()
  keep()
  // As Ctrl+C would, also where a signal would end the process at once.
  process.emit('SIGTERM')
}
