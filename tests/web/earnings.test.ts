import { afterAll, beforeAll, expect, test } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import type { Plan } from '#plan/plan.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const page = '/runway/plan/earnings/ida'
const peopleNow = () => (latestRevision(app.books, 'ours')!.document as Plan).household.people
const earnings = [
  { year: 2018, amount: 39_000 },
  { year: 2019, amount: 40_000 },
]

beforeAll(() => {
  app = testApp({ today: '2026-11-20' })
  const [ida, ole] = ['Ida', 'Ole'].map((name) => ({ id: name.toLowerCase(), name, born: '1980-04-02' }))
  app.savePlan({
    startMonth: '2027-01',
    household: {
      people: [
        { ...ida, earnings },
        { ...ole, earnings },
      ],
    },
  })
})
afterAll(() => app.close())

test('the household’s form leads to each person’s record and leaves it as it is', async () => {
  const html = await (await app.get('/runway/plan/household')).text()
  expect(html).toContain(`href="${page}"`)
  const form = await filledForm(app, '/runway/plan/household', { 'household.people.0.planToAge': '90' })
  expect((await app.post('/runway/plan/household', form)).status).toBe(303)
  expect(peopleNow().map((one) => [one.planToAge, one.earnings])).toEqual([
    [90, earnings],
    [95, earnings],
  ])
})

test('a pasted table is saved, for that person alone', async () => {
  const text = 'Year\tEarnings\n2018\t$39,000\n2019\t$40,000\n2020\t\n2021\t$45,000'
  const asked = await app.post(page, await filledForm(app, page, { earnings: text }))
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain('Enter an amount for 2020')

  const estimate = await app.post(page, await filledForm(app, page, { earnings: text, estimate: 'yes' }))
  expect(estimate.status).toBe(200)
  const shown = /<textarea[^>]*>([\s\S]*?)<\/textarea>/.exec(await estimate.text())![1]!
  expect(shown.split('\n')).toEqual(['2018 39000', '2019 40000', '2020 41228 estimate', '2021 45000'])
  expect(peopleNow()[0]!.earnings).toEqual(earnings)

  expect((await app.post(page, await filledForm(app, page, { earnings: shown }))).status).toBe(303)
  expect(peopleNow()[0]!.earnings).toEqual([
    ...earnings,
    { year: 2020, amount: 41_228, estimated: true },
    { year: 2021, amount: 45_000 },
  ])
  expect(peopleNow()[1]!.earnings).toEqual(earnings)
  expect(await (await app.get(page)).text()).toContain('4 years, 2018 to 2021, 1 of them estimates')
})

test('a wrong line is told at the field with what was typed, and nothing is saved', async () => {
  const before = peopleNow()
  const reply = await app.post(page, await filledForm(app, page, { earnings: '2019 forty' }))
  expect(reply.status).toBe(422)
  const html = await reply.text()
  expect(html).toContain('href="#f-earnings"')
  expect(html).toContain('2019 forty')
  expect(peopleNow()).toEqual(before)
  expect((await app.get('/runway/plan/earnings/nobody')).status).toBe(404)
})

test('where the estimate of the statement is told, the page says that the benefit goes by it', async () => {
  const { household, ...plan } = latestRevision(app.books, 'ours')!.document as Plan
  const [ida, ole] = household.people
  const people = [
    { ...ida!, earnings: [], statementBenefit: 1900 },
    { ...ole!, statementBenefit: 1150, statementAt: '62' },
  ]
  const fresh = testApp({ today: '2026-11-20' })
  fresh.savePlan({ ...plan, household: { ...household, people } })
  const told = async (id: string) => (await fresh.get(`/runway/plan/earnings/${id}`)).text()
  const idas = await told('ida')
  expect(idas).toContain('$1,900 a month for a claim at full retirement age')
  expect(idas).not.toContain('counts only what is earned')
  // The record of Ole is kept, and not what the benefit is worked out from.
  expect(await told('ole')).toMatch(
    /\$1,150 a month for a claim at 62,[^<]*The record of 2 years here counts once/,
  )
  fresh.close()
})
