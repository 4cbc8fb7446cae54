// What Enterprises tells of hours and batches: what purchases save stands between the hours of the budgets and those of the year. By the
// sample farm, whose walking tractor is bought in March 2027 and saves 80 hours a year.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { FarmFigures } from '#today/farm/figures.ts'
import { copySample } from '../sample/built-sample.ts'
import { type TestApp, testApp } from './test-app.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-hours-saved-'))
let app: TestApp
beforeAll(async () => {
  app = testApp({ today: '2026-11-25', file: await copySample(folder) })
}, 60_000)
afterAll(() => {
  app.close()
  rmSync(folder, { recursive: true })
})

const text = async (path: string) =>
  (await (await app.get(path)).text()).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')

test('what purchases save makes up the hours that the budgets have more than the year', async () => {
  const { lines, summary } = (await (await app.get('/farm/enterprises.json?year=2027')).json()) as FarmFigures
  const ofBudgets = lines.reduce((sum, line) => sum + line.ownHours, 0)
  const ofYear = summary.worked - summary.hiredHours
  expect(ofBudgets - ofYear).toBeGreaterThan(40)
  expect(ofBudgets - ofYear).toBeLessThan(80)
  const whole = (hours: number) => Math.round(hours).toLocaleString('en-US')
  expect(await text('/farm/enterprises?year=2027')).toContain(
    `Purchases save ${whole(ofBudgets - ofYear)} of these hours in 2027: ${whole(ofYear)} are left to work.`,
  )
  expect(await text('/farm?year=2027')).toContain(`${whole(ofYear)} hours in the year`)
})

test('what became of a batch is told by what there was of it, and not by what there was none of', async () => {
  const page = await text('/farm/enterprises?year=2027')
  expect(page).toContain('of 5 beds: 3 sold, 2 lost')
  expect(page).toContain('of 26 lambs: 17 sold, 3 lost, 6 left')
})
