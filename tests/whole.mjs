// `npm test`: tests of every kind, and beside them what checks the sources, since tests that wait for a browser, a disk or a killed
// process leave a core idle. What stands beside is shown when it ends; a check that fails ends all.
import { spawn } from 'node:child_process'

/** Of these, one after the other. */
const beside = ['lint', 'types', 'arrows']
const running = new Set()
let failed = false

const run = (script, stdio) =>
  new Promise((resolve) => {
    const child = spawn('npm', ['run', '--silent', script], {
      stdio,
      shell: process.platform === 'win32',
    })
    const said = []
    for (const stream of [child.stdout, child.stderr]) stream?.on('data', (bytes) => said.push(bytes))
    running.add(child)
    child.on('close', (code) => {
      running.delete(child)
      if (said.length > 0) process.stdout.write(`\n${script}\n${Buffer.concat(said)}\n`)
      failed ||= code !== 0
      resolve(code === 0)
    })
  })

const besides = async () => {
  for (const script of beside) {
    if (await run(script, ['ignore', 'pipe', 'pipe'])) continue
    for (const child of running) child.kill('SIGTERM')
    return
  }
}

await Promise.all([run('test:all', 'inherit'), besides()])
if (failed) console.error('\nNot all of it passed: see above.')
process.exitCode = failed ? 1 : 0
