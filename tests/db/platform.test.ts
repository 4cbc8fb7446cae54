// What is done otherwise on other systems, as far as it can be told apart from running on them.
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test, vi } from 'vitest'
import { patiently, takePlace, toDisk, waysOf } from '#db/platform.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-platform-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const failing = (code: string, times: number) => {
  let left = times
  return vi.fn(() => {
    left -= 1
    if (left >= 0) throw Object.assign(new Error(code), { code })
    return 'moved'
  })
}

test('a rename that another program holds up is tried again, as often as said; other faults are told at once', () => {
  const wait = vi.fn()
  const held = failing('EBUSY', 3)
  expect(patiently(held, 4, wait)).toBe('moved')
  expect([held.mock.calls.length, wait.mock.calls.length]).toEqual([4, 3])
  expect(() => patiently(failing('EPERM', 3), 3, wait)).toThrow('EPERM')
  const full = failing('ENOSPC', 1)
  expect(() => patiently(full, 20, wait)).toThrow('ENOSPC')
  expect(full).toHaveBeenCalledTimes(1)
})

test('only on Windows is a rename tried more than once, and an open file not replaced', () => {
  expect(waysOf('win32')).toMatchObject({ flushesFolders: false, replacesOpen: false })
  expect(waysOf('win32').renameTries).toBeGreaterThan(1)
  // Closing the window of the command: https://nodejs.org/docs/latest-v20.x/api/process.html#signal-events
  expect(waysOf('win32').stopSignals).toContain('SIGHUP')
  for (const platform of ['linux', 'darwin'] as const) {
    expect(waysOf(platform)).toMatchObject({ flushesFolders: true, replacesOpen: true, renameTries: 1 })
    // Who starts it with nohup wants it to outlive the terminal.
    expect(waysOf(platform).stopSignals).not.toContain('SIGHUP')
  }
})

test('files are waited for on every system, folders where they can be', () => {
  const file = join(folder, 'made')
  writeFileSync(file, 'whole')
  for (const platform of ['win32', 'linux', 'darwin'] as const) {
    toDisk(file, waysOf(platform))
    toDisk(folder, waysOf(platform))
    expect(() => toDisk(join(folder, 'nowhere'), waysOf(platform))).toThrow('ENOENT')
  }
  writeFileSync(join(folder, 'place'), 'before')
  takePlace(file, join(folder, 'place'))
  expect(readFileSync(join(folder, 'place'), 'utf8')).toBe('whole')
  expect(readdirSync(folder)).toEqual(['place'])
})
