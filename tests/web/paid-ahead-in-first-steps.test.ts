// Tax that was paid or withheld before the books is none that is still due, right after the first steps too, when the books hold no result
// yet. An invented couple in Michigan on pay and a young farm.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const planWith = (soFar: { withheld?: number; paid?: number; statePaid?: number }) =>
  planSchema.parse({
    startMonth: '2026-11',
    household: {
      people: [
        { id: 'ruth', name: 'Ruth', born: '1985-02-14' },
        { id: 'sol', name: 'Sol', born: '1987-10-02' },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 2200 }],
      pay: [{ id: 'mill', name: 'Mill', person: 'sol', perMonth: 3000, withheldShare: 0 }],
      place: { state: 'MI' },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 40_000 }] },
    tax: { soFar: { wages: 40_000, ...soFar } },
  })

beforeEach(() => {
  app = testApp({ today: '2026-11-30' })
  app.openSides()
  postByName(app.books, 'household', '2026-11-01', { Savings: 40_000, 'Opening balances': -40_000 })
})
afterEach(() => app.close())

const due = async () =>
  ((await (await app.get('/now.json')).json()) as { due: { says: string }[] }).due.map(({ says }) => says)

// Federal: 46,000 less 32,200 (Rev. Proc. 2025-32) is 13,800, a tenth of it 1,380. Michigan: 46,000 less two exemptions of about 5,900 each
// at 4.25 percent (MCL 206.30, 206.51; amounts from memory) is about 1,450.
test('what was withheld before covers the year: no day of payment is due', async () => {
  app.savePlan(planWith({}))
  const asked = (await due()).join('\n')
  expect(asked).toMatch(/Michigan estimated tax for 2026.*about \$1,4\d\d for the year by the plan/)
  expect(asked).toMatch(/(^|\n)Estimated tax for 2026/)
  app.savePlan(planWith({ paid: 1500, withheld: 1500, statePaid: 1560 }), { basedOn: 1 })
  const after = (await due()).join('\n')
  expect(after).not.toContain('Michigan estimated tax for 2026')
  expect(after).not.toContain('Estimated tax for 2026')
})

test('paid in part, the day says so', async () => {
  app.savePlan(planWith({ statePaid: 600 }))
  expect((await due()).join('\n')).toMatch(
    /Michigan estimated tax for 2026.*about \$1,4\d\d for the year by the plan, \$600 of it paid/,
  )
})
