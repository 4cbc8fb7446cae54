import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, expect, test, vi } from 'vitest'

// Three processes are started; on a busy machine each takes its time.
vi.setConfig({ testTimeout: 120_000 })

const root = new URL('../..', import.meta.url).pathname
const started: ChildProcess[] = []
const folders: string[] = []

afterEach(() => {
  for (const child of started.splice(0)) child.kill('SIGKILL')
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true })
})

const start = (args: readonly string[]) => {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-'))
  folders.push(folder)
  const child = spawn('node', ['src/start.mjs', 'serve', '--data', folder, ...args], {
    cwd: root,
  })
  started.push(child)
  let output = ''
  child.stdout.on('data', (text) => {
    output += text
  })
  child.stderr.on('data', (text) => {
    output += text
  })
  const ended = new Promise<number | null>((resolve) => child.on('exit', resolve))
  const says = async (pattern: RegExp): Promise<RegExpExecArray> => {
    for (let tries = 0; tries < 1200; tries += 1) {
      const match = pattern.exec(output)
      if (match) return match
      await new Promise((resolve) => setTimeout(resolve, 50))
    }
    throw new Error(`It never said ${pattern}: ${output}`)
  }
  return { child, folder, ended, says, output: () => output }
}

test('it says where it is open and where the books are, answers there, and stops when told to', async () => {
  const house = start(['--port', '0'])
  const [, address] = await house.says(/open at (http:\/\/127\.0\.0\.1:\d+)/)
  await house.says(new RegExp(`books are in ${join(house.folder, 'books.sqlite')}`))
  const page = await fetch(`${address}/now`)
  expect(page.status).toBeLessThan(500)
  house.child.kill('SIGTERM')
  expect(await house.ended).toBe(0)
})

test('a taken port is told in one line that says what to do', async () => {
  const other = createServer().listen(0, '127.0.0.1')
  await new Promise((resolve) => other.once('listening', resolve))
  const { port } = other.address() as { port: number }
  const house = start(['--port', String(port)])
  expect(await house.ended).toBe(1)
  expect(house.output().trim().split('\n')).toEqual([
    expect.stringMatching(new RegExp(`^dooryard serve: Port ${port} is taken.*--port ${port + 1}\\.$`)),
  ])
  other.close()
})

test('a port that is no number is refused before anything is opened', async () => {
  const house = start(['--port', 'many'])
  expect(await house.ended).toBe(2)
  expect(house.output()).toContain('--port takes a number')
})

test('an address that other computers reach is refused without https and without a passphrase', async () => {
  const open = start(['--host', '0.0.0.0', '--port', '0'])
  expect(await open.ended).toBe(2)
  expect(open.output()).toContain('give --certificate and --key')
  const locked = start(['--host', '0.0.0.0', '--port', '0', '--certificate', 'a.pem', '--key', 'b.pem'])
  expect(await locked.ended).toBe(1)
  expect(locked.output()).toContain('set one in Settings under Passphrase')
})
