import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:net'
import { hostname, networkInterfaces, tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, expect, test, vi } from 'vitest'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { copyApart } from '#src/cli/serving/copy-apart.ts'
import { hostNamesOf, listen } from '#src/cli/serving/serve-address.ts'
import { readServeOptions } from '#src/cli/serving/serve-options.ts'

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

test('a second server on the same file says where the first one is', async () => {
  const one = start(['--port', '0'])
  const [, address] = await one.says(/open at (http:\/\/127\.0\.0\.1:\d+)/)
  await one.says(/Stop with/)
  const two = start(['--port', '0', '--data', one.folder])
  await two.says(new RegExp(`Another Dooryard has the same file open at ${address}`))
  one.child.kill('SIGKILL')
  await one.ended
  two.child.kill('SIGTERM')
  expect(await two.ended).toBe(0)
  // A note of a killed one means nothing.
  const three = start(['--port', '0', '--data', one.folder])
  await three.says(/Stop with/)
  expect(three.output()).not.toContain('Another Dooryard')
})

test('books whose file was taken away while they were open are saved when the server stops', async () => {
  const house = start(['--port', '0'])
  const [, address] = await house.says(/open at (http:\/\/127\.0\.0\.1:\d+)/)
  const path = join(house.folder, 'books.sqlite')
  for (const suffix of ['', '-wal', '-shm']) rmSync(path + suffix, { force: true })
  const page = await fetch(`${address}/settings`)
  expect(await page.text()).toContain('Nothing is stored now')
  house.child.kill('SIGTERM')
  expect(await house.ended).toBe(0)
  const saved = /saved in (.+\.sqlite)/.exec(house.output())?.[1] ?? ''
  expect(dirname(saved)).toBe(join(house.folder, 'backups'))
  const books = openBooksOrThrow(saved, { now: new Date(0), mustExist: true })
  expect(verifyBooks(books.sqlite).findings).toEqual([])
  books.close()
  // The next start makes new books, and says where those of before are.
  const again = start(['--port', '0', '--data', house.folder])
  await again.says(
    /There is no books file at .*books\.sqlite, so new books are begun\. Copies of earlier ones are in .*backups/,
  )
})

test('what was entered in a first short sitting is in the copy of the day that stopping keeps', async () => {
  const house = start(['--port', '0'])
  const [, address] = await house.says(/open at (http:\/\/127\.0\.0\.1:\d+)/)
  const form = await (await fetch(`${address}/start/who`)).text()
  const field = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(form)![1]!
  const sent = await fetch(`${address}/start/who`, {
    method: 'POST',
    redirect: 'manual',
    headers: { origin: address! },
    body: new URLSearchParams({
      formId: field('formId'),
      basedOn: field('basedOn'),
      farmName: 'Fernlea',
      'people.0.name': 'Oda',
      'people.0.born': '1988-03-09',
    }),
  })
  expect(sent.status).toBe(303)
  house.child.kill('SIGTERM')
  expect(await house.ended).toBe(0)
  const backups = join(house.folder, 'backups')
  const [copy] = readdirSync(backups)
  expect(copy).toMatch(/^books-\d{4}-\d\d-\d\d\.sqlite$/)
  const books = openBooksOrThrow(join(backups, copy!), { now: new Date(0), mustExist: true })
  expect(books.sqlite.prepare('SELECT name FROM sides ORDER BY kind').pluck().all()).toEqual([
    'Fernlea',
    'Household',
  ])
  books.close()
})

test('the copy of the day is made by a process of its own, and what hinders it is told in words', async () => {
  const house = start(['--port', '0'])
  await house.says(/Stop with/)
  const [, entry] = process.argv
  process.argv[1] = join(root, 'src/start.mjs')
  try {
    expect(await copyApart(join(house.folder, 'books.sqlite'))).toBeNull()
    expect(readdirSync(join(house.folder, 'backups'))).toEqual([
      expect.stringMatching(/^books-\d{4}-\d{2}-\d{2}\.sqlite$/),
    ])
    rmSync(join(house.folder, 'backups'), { recursive: true })
    writeFileSync(join(house.folder, 'backups'), '')
    expect(await copyApart(join(house.folder, 'books.sqlite'))).toMatch(/^.*backups.*\.$/)
  } finally {
    process.argv[1] = entry!
  }
})

test('listening everywhere, it prints the addresses that work', async () => {
  const names = hostNamesOf('0.0.0.0')
  const own = Object.values(networkInterfaces()).flatMap((list) => list ?? [])
  for (const { address, family } of own) expect(names.includes(address)).toBe(family === 'IPv4')
  expect(names).toContain(hostname())
  const server = createServer() as never
  const addresses = await listen(server, { ...readServeOptions([]), host: '0.0.0.0', port: 0 })
  expect(addresses[0]).toMatch(/^http:\/\/127\.0\.0\.1:[1-9]\d*$/)
  expect(addresses.join()).not.toContain('0.0.0.0')
  ;(server as Server).close()
})
