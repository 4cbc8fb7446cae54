// What `src/start.mjs` runs is what the sources say, at the first start, after a changed letter, and again.
import { execFileSync, spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { pathToFileURL } from 'node:url'
import { expect, test } from 'vitest'

const root = join(import.meta.dirname, '../..')

test('a changed letter makes a new bundle, unchanged sources are neither read nor bundled again', async () => {
  const { house, write, main } = smallHouse()
  try {
    const start = () => execFileSync(process.execPath, ['src/start.mjs'], { cwd: house, encoding: 'utf8' })
    const cache = join(house, 'node_modules/.cache')
    expect(start()).toBe('one door\n')
    // Of the same size and at once, so that size and time could hide it.
    main('two')
    expect(start()).toBe('two door\n')
    await wait(2100)
    expect(start()).toBe('two door\n')
    expect(readdirSync(cache).sort()).toEqual(['dooryard', 'dooryard-last.json'])
    // Known by their looks now: the bundle that is named runs, whatever it holds.
    const bundles = readdirSync(join(cache, 'dooryard'))
    for (const bundle of bundles)
      writeFileSync(join(cache, 'dooryard', bundle, 'main.cjs'), "(function () { console.log('kept') })")
    expect(start()).toBe('kept\n')
    main('six')
    expect(start()).toBe('six door\n')
    write('views/part.ts', "export const word = 'yard'")
    expect(start()).toBe('six yard\n')
    write(
      'src/main.ts',
      "\n\nconst broken = (): string => {\n  throw new Error('no door')\n}\nconsole.log(broken())",
    )
    const { stderr } = spawnSync(process.execPath, ['src/start.mjs'], { cwd: house, encoding: 'utf8' })
    expect(stderr).toContain('Error: no door\n')
    expect(stderr).toMatch(/\(?.*src[\\/]main\.ts:4:9\)?\n/)
    expect(stderr).toMatch(/src[\\/]main\.ts:6:13/)
    // As where another user has installed it: nothing can be put beside it.
    rmSync(cache, { recursive: true })
    writeFileSync(cache, 'not a folder')
    main('own')
    const XDG_CACHE_HOME = join(house, 'of-the-user')
    const started = execFileSync(process.execPath, ['src/start.mjs'], {
      cwd: house,
      encoding: 'utf8',
      env: { ...process.env, XDG_CACHE_HOME },
    })
    expect(started).toBe('own yard\n')
    expect(readdirSync(join(XDG_CACHE_HOME, 'dooryard'))).toContain('dooryard')
  } finally {
    rmSync(house, { recursive: true, force: true })
  }
})

test('installing the house makes its bundle, which the first start runs, and what hinders that does not hinder installing', () => {
  const { house, main } = smallHouse()
  try {
    const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
    const [node, ...args] = String(scripts.postinstall).split(' ')
    expect(node).toBe('node')
    const install = () => spawnSync(process.execPath, args, { cwd: house, encoding: 'utf8' })
    const bundles = join(house, 'node_modules/.cache/dooryard')
    expect(install()).toMatchObject({ status: 0, stderr: '' })
    const [made] = readdirSync(bundles)
    writeFileSync(join(bundles, made!, 'main.cjs'), "(function () { console.log('as installed') })")
    const start = () => spawnSync(process.execPath, ['src/start.mjs'], { cwd: house, encoding: 'utf8' })
    expect(start().stdout).toBe('as installed\n')
    main('torn', 'const =')
    expect(install()).toMatchObject({ status: 0, stderr: expect.stringContaining('at the first start') })
    expect(start().status).not.toBe(0)
  } finally {
    rmSync(house, { recursive: true, force: true })
  }
})

test('installing goes through one start: what it made and what V8 made of it lie in the bundle', () => {
  const { house, main } = smallHouse()
  try {
    main(
      'served',
      `import { mkdirSync, writeFileSync } from 'node:fs'
      import { createServer } from 'node:http'
      const { argv } = process
      const data = argv[argv.indexOf('--data') + 1]!
      const server = createServer((request, reply) => {
        mkdirSync(data)
        writeFileSync(data + '/asked', [argv[2], argv.includes('--sample'), request.url].join(' '))
        reply.end('a page')
      })
      process.once('SIGTERM', () => server.close())
      server.listen(0, '127.0.0.1', () => console.log('open at http://127.0.0.1:' + (server.address() as { port: number }).port))`,
    )
    const install = spawnSync(process.execPath, ['src/start/ready.mjs'], { cwd: house, encoding: 'utf8' })
    expect(install).toMatchObject({ status: 0, stdout: '', stderr: '' })
    const bundles = join(house, 'node_modules/.cache/dooryard')
    const [made] = readdirSync(bundles)
    expect(readFileSync(join(bundles, made!, 'made/asked'), 'utf8')).toBe('serve true /now')
    expect(readdirSync(join(bundles, made!))).toContainEqual(
      expect.stringMatching(
        new RegExp(`^main\\.cjs\\.serve-${process.version}-${process.arch}-\\d+\\.code$`),
      ),
    )
    expect(readdirSync(join(bundles, made!)).filter((name) => name.startsWith('run-by-'))).toEqual([])
  } finally {
    rmSync(house, { recursive: true, force: true })
  }
})

test('a bundle stays while a server runs it, however many come after, and goes when no one does', async () => {
  const { house, main } = smallHouse()
  let server: ReturnType<typeof spawn> | undefined
  try {
    const bundles = () => readdirSync(join(house, 'node_modules/.cache/dooryard'))
    const run = (says: string) => {
      main(says)
      execFileSync(process.execPath, ['src/start.mjs'], { cwd: house })
    }
    main('served', 'setInterval(() => {}, 1000)')
    server = spawn(process.execPath, ['src/start.mjs'], {
      cwd: house,
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    await once(server.stdout!, 'data')
    const [served] = bundles()
    for (const says of ['a', 'b', 'c', 'd', 'e']) run(says)
    expect(bundles()).toContain(served)
    expect(bundles()).toHaveLength(4)
    // Killed, it takes nothing away: its mark says nothing any more.
    const gone = once(server, 'exit')
    server.kill('SIGKILL')
    await gone
    run('f')
    expect(bundles()).not.toContain(served)
    expect(bundles()).toHaveLength(3)
  } finally {
    server?.kill('SIGKILL')
    rmSync(house, { recursive: true, force: true })
  }
})

test('what V8 made of a file is kept and taken again, and what it refuses is made anew', () => {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-code-'))
  try {
    const file = join(folder, 'file.cjs')
    const functions = Array.from(
      { length: 400 },
      (_, at) => `const f${at} = (x) => x + ${at} // ${'-'.repeat(40)}`,
    )
    writeFileSync(
      file,
      `(function (exports) { exports.few = () => f0(1); exports.all = () => ${functions.map((_, at) => `f${at}(1)`).join('+')};\n${functions.join('\n')}\n})`,
    )
    const kept = () => readdirSync(folder).filter((name) => name.endsWith('.code'))
    const size = () => statSync(join(folder, kept()[0]!)).size
    const run = (calls: string, options = '{}', flags: string[] = []) =>
      execFileSync(process.execPath, [...flags, '--input-type=module'], {
        input: `import { runBundled } from ${JSON.stringify(pathToFileURL(join(root, 'src/start/run-bundled.mjs')).href)}
          const { exports, keep } = runBundled(${JSON.stringify(file)}, { root: ${JSON.stringify(folder)}, by: 'serve' })
          console.log(exports.${calls}())
          keep(${options})`,
        encoding: 'utf8',
      })
    expect(run('few')).toBe('1\n')
    const keptIn = new RegExp(`^file\\.cjs\\.serve-${process.version}-${process.arch}-\\d+\\.code$`)
    expect(kept()).toEqual([expect.stringMatching(keptIn)])
    const few = size()
    run('few')
    expect(size()).toBe(few)
    run('all', '{ onlyIfNone: true }')
    expect(size()).toBe(few)
    run('all')
    const all = size()
    expect(all).toBeGreaterThan(few * 1.5)
    // What has not run this time is in it all the same: it was taken, not made from the letters.
    run('few')
    expect(size()).toBe(all)
    writeFileSync(join(folder, kept()[0]!), 'torn')
    expect(run('all')).toBe('80200\n')
    expect(size()).toBeGreaterThan(few * 1.5)
    expect(readdirSync(folder).sort()).toEqual(['file.cjs', ...kept()])
    // Under other flags of V8 it would be refused: that run has a file of its own, and leaves this one.
    const before = kept()
    run('few', '{}', ['--max-lazy'])
    expect(kept()).toHaveLength(2)
    expect(kept()).toEqual(expect.arrayContaining(before))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
})

/** A folder that starts as the house does, with one line to say. */
function smallHouse() {
  const house = mkdtempSync(join(tmpdir(), 'dooryard-start-'))
  const write = (file: string, text: string) => {
    mkdirSync(dirname(join(house, file)), { recursive: true })
    writeFileSync(join(house, file), text)
  }
  const main = (says: string, then = '') =>
    write('src/main.ts', `import { word } from '../views/part.ts'\nconsole.log('${says}', word)\n${then}`)
  write('package.json', '{ "type": "module" }')
  write('views/part.ts', "export const word = 'door'")
  write('sample/plan.json', '{}')
  main('one')
  for (const worker of [
    'chance/worker',
    'today/slower-years/slower-years-work',
    'ledger/statements/reading/reading-work',
  ])
    write(`src/${worker}.ts`, 'export {}')
  for (const file of ['start.mjs', 'start'])
    cpSync(join(root, 'src', file), join(house, 'src', file), { recursive: true })
  mkdirSync(join(house, 'node_modules'))
  for (const name of ['esbuild', '@esbuild', 'env-paths', 'is-safe-filename', 'highs'])
    symlinkSync(join(root, 'node_modules', name), join(house, 'node_modules', name))
  return { house, write, main }
}
