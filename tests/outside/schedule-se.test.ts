// Schedule SE line by line, worked by hand from the form's own lines (Schedule SE (Form 1040) 2025; wage base 176,100, optional methods up
// to 7,240), and as the pack prints it for each of two who earn: a goat dairy of one, cheese of the other.
import { expect, test } from 'vitest'
import { addSide } from '#db/ledger/account-store.ts'
import { planSchema } from '#plan/plan.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { scheduleSe } from '#rules/forms/schedule-se.ts'
import { lawFor } from '#rules/law.ts'
import { noBusinessLines } from '#rules/return/business-lines.ts'
import { workSelfEmployment } from '#rules/return/self-employment-tax.ts'
import { act, done } from '../db/fresh-books.ts'
import { testApp } from '../web/test-app.ts'
import { yearBooks } from './year-books.ts'

const law = lawFor(2025, steadyIndexing(0))
const person = (
  dollars: Partial<Record<'farmProfit' | 'otherProfit' | 'wages' | 'farmGross', number>>,
  optional = false,
) => {
  const one = noBusinessLines().people[0]
  for (const [key, value] of Object.entries(dollars)) Object.assign(one, { [key]: Math.round(value * 100) })
  one.useFarmOptional = optional
  workSelfEmployment(law, one, one)
  return Object.fromEntries(scheduleSe(law, one).map(({ line, cents }) => [line, cents / 100]))
}

test('profit alone: 92.35 percent, 12.4 and 2.9 of it, and half', () => {
  expect(person({ farmProfit: 7800 })).toEqual({
    '1a': 7800,
    '2': 0,
    '3': 7800,
    '4a': 7203.3,
    '4b': 0,
    '4c': 7203.3,
    '6': 7203.3,
    '7': 176_100,
    '8d': 0,
    '9': 176_100,
    '10': 893.21,
    '11': 208.9,
    '12': 1102.11,
    '13': 551.06,
  })
})

test('wages use up the base first: line 9 bounds line 10 and not line 11', () => {
  // 20,000 × .9235 = 18,470; 6,100 × .124; 18,470 × .029 = 535.63.
  expect(person({ otherProfit: 20_000, wages: 170_000 })).toMatchObject({
    '4a': 18_470,
    '8d': 170_000,
    '9': 6100,
    '10': 756.4,
    '11': 535.63,
    '12': 1292.03,
    '13': 646.02,
  })
})

test('the farm optional method reports two thirds of gross in place of the loss', () => {
  expect(person({ farmProfit: -1000, farmGross: 6000 }, true)).toMatchObject({
    '1a': 0,
    '3': 0,
    '4a': 0,
    '4b': 4000,
    '4c': 4000,
    '6': 4000,
    '10': 496,
    '11': 116,
    '12': 612,
    '13': 306,
    '14': 7240,
    '15': 4000,
    '16': 3240,
    '17': 0,
  })
})

test('under 400 dollars on line 4c there is no tax, and nobody without a business has the form', () => {
  // 433.13 × .9235 = 399.996, which is 400.00 on the form; a dollar less is not.
  expect(person({ farmProfit: 433.13 })['12']).toBeCloseTo(61.2, 2)
  expect(person({ farmProfit: 432 })).toEqual({
    '1a': 432,
    '2': 0,
    '3': 432,
    '4a': 398.95,
    '4b': 0,
    '4c': 398.95,
    '12': 0,
  })
  expect(person({})).toEqual({})
})

test('the pack prints a form a person, and says what went into the tax in words', async () => {
  const app = testApp({ today: '2026-02-10' })
  app.openSides()
  const { sideId: id } = done(addSide(app.books, act(), { kind: 'venture', name: 'Cheese room' }))
  app.savePlan(
    planSchema.parse({
      startMonth: '2025-01',
      household: {
        people: [
          { id: 'una', name: 'Una', born: '1979-05-02' },
          { id: 'teo', name: 'Teo', born: '1981-08-14' },
        ],
        living: [{ id: 'living', name: 'Living', perMonth: 2500 }],
      },
    }),
  )
  yearBooks(app.books).book({ 'Vegetables and fruit sold': '12,000' }, { Feed: '4,200' })
  const sold = yearBooks(app.books, id, 'Venture checking')
  sold.book({ 'Sales and fees earned': '5,000' }, { Supplies: '1,000' })
  const form = await app.post(`/year-pack/schedule-c/${id}?year=2025`, { basedOn: '0', person: 'teo' })
  expect(form.status).toBe(303)
  const farm = await app.post('/year-pack/schedule-f?year=2025', {
    basedOn: '0',
    ownership: 'one',
    owner: 'una',
    'weather.0.what': '',
  })
  expect(farm.status).toBe(303)
  const table = async (place: number) =>
    (await (await app.get(`/year-pack.csv?year=2025&table=schedule-se-${place}`)).text()).split('\r\n')
  expect(await table(1)).toContain('12,"Self-employment tax, to Schedule 2 line 4",1102.11')
  // 4,000 × .9235 = 3,694: 458.06 + 107.13.
  expect(await table(2)).toContain('12,"Self-employment tax, to Schedule 2 line 4",565.19')
  const paper = await (await app.get('/year-pack/print?year=2025')).text()
  expect(paper).toContain('Schedule SE, Una')
  expect(paper).toContain('Schedule SE, Teo')
  expect(paper).toMatch(/net earnings person 1<\/span> <span>7,203\.3/)
  expect(paper).toMatch(/factor<\/span> <span>0\.9235</)
  app.close()
})
