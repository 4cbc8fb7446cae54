// What coverage costs in a year that has begun: where months on the marketplace that are over count, credit and costs are all of the year's.
// The sample farm in November 2026: ten months on the marketplace, then Medicaid.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { copySample } from '../sample/built-sample.ts'
import { type TestApp, testApp } from './test-app.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-cover-year-'))
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
const dollars = (said: string) => Number(said.replace(/,/g, ''))

test('credit and costs that count months behind are told as the year’s, not as those of its last months', async () => {
  const credit = await text('/cover/credit')
  expect(credit).toContain('the credit for 2026 is')
  expect(credit).toContain('Premium credit by household income, 2026')
  expect(credit).not.toContain('the credit for November and December 2026')
  const income = await text('/cover')
  expect(income).toMatch(/costs \$[\d,]+ for 2026/)
  expect(income).not.toMatch(/(costs|brings|step of) \$[\d,]+ for November and December 2026/)
  expect(await text('/runway/questions/income-room')).not.toContain('cost for November and December 2026')
  // The income itself stays that of the months of the plan, with what came earlier.
  expect(credit).toContain(
    'Income for November and December 2026, with what the plan’s taxes say came earlier',
  )
})

test('the mean of a month says over which months it is, and what each month on the marketplace costs', async () => {
  const said =
    /it is \$([\d,]+) a month on average over 12 months: \$([\d,]+) in each of 10 months on the marketplace/
  const [, mean, each] = said.exec(await text('/cover'))!
  // The same premiums of the year by twelve and by ten, each rounded to a dollar.
  expect(Math.abs(dollars(mean!) * 12 - dollars(each!) * 10)).toBeLessThanOrEqual(11)
  expect(await text('/cover/credit')).toContain(`Premium a month, after the credit $${each}`)
})
