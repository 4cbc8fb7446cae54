// The table of one of us who can no longer work says as CSV what it says on the page: whether the floor is reached as planned too.
import { afterEach, expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

/** Two potters who live on 1,800 a month, 900 of it her pay; without interest, tax and rising prices. */
const potters = (savings: number) => {
  app = testApp({ today: '2027-01-05' })
  app.savePlan(
    planSchema.parse({
      startMonth: '2027-01',
      household: {
        people: [
          { id: 'una', name: 'Una', born: '1975-01-02', planToAge: 65 },
          { id: 'cal', name: 'Cal', born: '1975-01-02', planToAge: 65 },
        ],
        pay: [{ id: 'job', name: 'Job', person: 'una', perMonth: 900 }],
        living: [{ id: 'all', name: 'Living', perMonth: 1800 }],
        floor: { kind: 'dollars', dollars: 10_000 },
      },
      savings: { accounts: [{ id: 'jar', name: 'Jar', kind: 'cash', balance: savings }] },
      tax: { method: 'none' },
      assumptions: { inflation: 0 },
    }),
  )
}
const table = async () =>
  (await (await app.get('/slower-years/answers.csv?table=alone')).text())
    .trim()
    .split(/\r?\n/)
    .map((row) => row.split(','))

test('each row says whether savings reach the floor as planned too', async () => {
  // 12,000 less 900 a month is below 10,000 after three months, in March, whoever works: as planned.
  potters(12_000)
  const [head, una] = await table()
  const at = head!.indexOf('below it as planned too')
  expect(head!.slice(0, 4)).toEqual(['who', 'from', 'below the floor', 'below it as planned too'])
  expect([una![2], una![at]]).toEqual(['2027-03', 'yes'])
  app.close()
  // As planned 300,000 less 13 years of 10,800 is never below it; without her pay 21,600 a year is never below it either.
  potters(300_000)
  const [, still] = await table()
  expect([still![2], still![at]]).toEqual(['', ''])
})
