// The first run of houses unlike the sample: books that begin long ago or within the year, loans and what they bought, the hours of each.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import { farmCourse } from '#farm/course.ts'
import { livingSuggestions } from '#farm/usual/usual-living.ts'
import { cents } from '#money/cents.ts'
import { consumerPriceIndex } from '#rules/data/consumer-prices.ts'
import { project } from '#runway/project.ts'
import { currentPlan } from '#today/current-plan.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { browserForms, fieldsOf, filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const who = {
  formId: formId(1),
  farmName: 'Fernlea',
  region: 'contiguous',
  'people.0.name': 'Oda',
  'people.0.born': '1988-03-09',
}

/** The balances of the step by the name of their account. */
const balances = async (amounts: Record<string, string>) => {
  const form = await (await app.get('/start/accounts')).text()
  const rows = form.matchAll(
    /name="balances\.(\d+)\.account" value="(\d+)"[\s\S]*?<label for="f-balances\.\d+\.amount">([^<]+)</g,
  )
  return Object.fromEntries(
    [...rows].flatMap(([, index, id, label]) => [
      [`balances.${index}.account`, id!],
      [`balances.${index}.amount`, amounts[label!.replace(', owed', '')] ?? ''],
    ]),
  )
}
const costs = {
  formId: formId(9),
  living: '2,500',
  premium: '310',
  floorMonths: '6',
  farmSales: '41000',
  farmCosts: '26000',
  farmReserve: '',
  drawNow: '',
  drawLater: '',
  drawLaterFrom: '',
}
const revisionNow = () => {
  const current = currentPlan(app.books)
  return current.status === 'read' ? current.revisionNo : 0
}
const planNow = () => {
  const current = currentPlan(app.books)
  if (current.status !== 'read') throw new Error(current.status)
  return current.plan
}
const stepsOnNow = async () =>
  ((await (await app.get('/now.json')).json()) as { firstSteps: { id: string }[] }).firstSteps.map(
    (step) => step.id,
  )

test('the first step has one button, however many rows it has', async () => {
  app = testApp({ today: '2026-08-20' })
  const page = await (await app.get('/start/who')).text()
  const form = page.slice(page.indexOf('action="/start/who"')).split('</form>')[0]!
  expect(form.match(/<button/g)).toHaveLength(1)
})

test('all that is wrong with people and place is said at once, first and under Settings', async () => {
  app = testApp()
  const wrong = {
    ...who,
    'people.0.born': '2082-03-09',
    'people.0.hours': 'forty',
    'people.1.name': 'Per',
    'people.1.born': '',
    'people.1.hours': '-5',
    state: 'GA',
    county: 'Oglethorp',
  }
  const said = [
    /Oda: enter hours a week|Oda: [^<]*number/,
    'Oda is an adult of the plan and cannot be born in 2082',
    'Per: enter the date of birth',
    'Per: enter hours a week from 0 to 168',
    'Georgia has no county called Oglethorp',
  ]
  const first = await app.post('/start/who', wrong)
  expect(first.status).toBe(422)
  const page = await first.text()
  for (const one of said) expect(page).toMatch(one)
  // Of nobody who can be read the place is looked at all the same.
  const alone = await app.post('/start/who', {
    ...who,
    'people.0.born': '',
    state: 'GA',
    county: 'Oglethorp',
  })
  const place = await alone.text()
  expect(place).toContain('Georgia has no county called Oglethorp')
  expect(place).toContain('Oda: enter the date of birth')
  expect(place).not.toContain('Somebody')
  expect(currentPlan(app.books).status).toBe('none')
  expect(
    (await app.post('/start/who', { ...who, formId: formId(2), state: 'GA', county: 'Oglethorpe' })).status,
  ).toBe(303)
  const later = await (await app.post('/settings/people', { ...wrong, formId: formId(3) })).text()
  for (const one of said) expect(later).toMatch(one)
})

test('a first plan draws premiums as its county’s own years; without the county its pages say what is drawn instead', async () => {
  app = testApp({ today: '2026-08-20' })
  await app.post('/start/who', { ...who, state: 'OR', county: 'Lane' })
  expect(planNow().chance.premiums).toBe('county')
  const pages = async () =>
    Promise.all(['/runway/plan/chance', '/runway/chance'].map(async (at) => (await app.get(at)).text()))
  for (const page of await pages())
    expect(page).toContain('From 2018 to 2026 the benchmark premium of Lane County, Oregon changed 8 times')
  await app.post('/settings/people', { ...who, formId: formId(2), state: '', county: '' })
  expect(planNow().chance.premiums).toBe('county')
  for (const page of await pages())
    expect(page).toContain('but it names no county. The typed spread of 3% is used instead.')
})

test('a first plan without a county draws premiums by the spread', async () => {
  app = testApp({ today: '2026-08-20' })
  await app.post('/start/who', { ...who, state: 'OR', county: '' })
  expect(planNow().chance.premiums).toBe('stated')
})

test('books that begin on May 1, 2003 are taken, and the plan begins this month', async () => {
  app = testApp({ today: '2026-08-20' })
  await app.post('/start/who', who)
  const sent = { formId: formId(2), day: '2003-05-01', ...(await balances({ Savings: '31,000' })) }
  expect((await app.post('/start/accounts', sent)).headers.get('location')).toBe('/start/owned')
  expect(planNow()).toMatchObject({ startMonth: '2026-08', savings: { accounts: [{ balance: 31_000 }] } })
  await app.post('/start/costs', costs)
  expect((await app.get('/now')).status).toBe(200)
})

test('a first day before 2000 or after today is refused at its field, and nothing is stored', async () => {
  app = testApp({ today: '2026-08-20' })
  await app.post('/start/who', who)
  const filled = await balances({ Savings: '31,000' })
  for (const [n, day] of ['1999-12-31', '2026-08-21'].entries()) {
    const reply = await app.post('/start/accounts', { formId: formId(20 + n), day, ...filled })
    expect(reply.status).toBe(422)
    expect(await reply.text()).toContain('href="#f-day"')
  }
  expect(app.books.sqlite.prepare('SELECT count(*) FROM entries').pluck().get()).toBe(0)
})

/** A farm with a term loan of 18,500 for a tractor and a home with a mortgage of 140,000, from July 1, 2026. */
const indebted = async () => {
  app = testApp({ today: '2026-08-20' })
  await app.post('/start/who', { ...who, 'people.0.hours': '46' })
  const amounts = { Savings: '40,000', 'Farm checking': '9000', 'Term loan': '18,500', Mortgage: '140000' }
  await app.post('/start/accounts', { formId: formId(2), day: '2026-07-01', ...(await balances(amounts)) })
}
test('a loan whose payments are not told is said before months left, with the way to tell them, until it is done', async () => {
  await indebted()
  await app.post('/start/costs', costs)
  const now = async () => (await (await app.get('/now')).text()).replace(/\s+/g, ' ')
  const says =
    /“(Term loan|Mortgage)” and “(Term loan|Mortgage)” are owed in the books, and the plan pays nothing on them/
  const page = await now()
  expect(page).toMatch(says)
  expect(page.search(says)).toBeLessThan(page.indexOf('id="answers"'))
  const links = [...page.matchAll(/href="(\/books\/accounts\/\d+\/loan)">Say rate and payment/g)]
  expect(links).toHaveLength(1)
  for (let left = 2; left > 0; left -= 1) {
    const link = /href="(\/books\/accounts\/\d+\/loan)">Say rate and payment/.exec(await now())![1]!
    const sent = await filledForm(app, link, { rate: '6', payment: '1,000', escrow: '' })
    // Living costs may hold the payments of the house: each answer is a form of its own, and either tells the plan of the loan.
    const asked = await app.post(link, sent)
    if (asked.status === 303) continue
    expect(asked.status).toBe(409)
    const answer = browserForms(await asked.text(), link).find(({ fields }) =>
      fields.some(([name]) => name === 'document'),
    )!
    expect((await app.post(answer.action, fieldsOf(answer))).status).toBe(303)
  }
  expect(await now()).not.toContain('the plan pays nothing on')
})
const ownedStep = async () => {
  const page = await (await app.get('/start/owned')).text()
  const loans = [...page.matchAll(/name="loans\.(\d)\.account" value="(\d+)"/g)].map((found) => found[2]!)
  const kind = (name: string) => new RegExp(`<option value="(\\d+)"[^>]*>${name},`).exec(page)![1]!
  const names = [...page.matchAll(/<legend>([^,<]+), [^:<]+: \$[\d,.]+ owed/g)].map((found) => found[1]!)
  return { loans, names, kind }
}

test('loans of the first run reach the plan, and their payments its costs, by their own terms', async () => {
  await indebted()
  const { loans, names } = await ownedStep()
  expect(names.toSorted()).toEqual(['Mortgage', 'Term loan'])
  const terms: Record<string, [string, string]> = { Mortgage: ['6', '1,000'], 'Term loan': ['7.2', '411'] }
  const filled = Object.fromEntries(
    loans.flatMap((id, k) => [
      [`loans.${k}.account`, id],
      [`loans.${k}.rate`, terms[names[k]!]![0]],
      [`loans.${k}.payment`, terms[names[k]!]![1]],
    ]),
  )
  const next = await app.post('/start/owned', { formId: formId(3), ...filled })
  expect(next.headers.get('location')).toBe('/start/year')
  const plan = planNow()
  expect(plan.household.loans).toMatchObject([{ principal: 140_000, yearlyRate: 0.06, bookAccount: 2100 }])
  expect(plan.farm.loans).toMatchObject([{ principal: 18_500, yearlyRate: 0.072, bookAccount: 2200 }])
  await app.post('/start/costs', costs)
  const [july] = project(planNow()).months
  expect(july!.householdCosts).toBeCloseTo(2500 + 310 + 1000, 6)
  // July's interest on the mortgage is 700, so 300 is paid off; on the term loan 111, so 300 too.
  expect(july!.loanBalance).toBeCloseTo(139_700, 6)
  expect(july!.farmLoans).toBe(-411)
  expect(await stepsOnNow()).not.toContain('loans')
  // Opened again, the step shows what was said, and saying it again changes it in place.
  expect(await (await app.get('/start/owned')).text()).toContain('value="1000.00"')
  await app.post('/start/owned', { formId: formId(4), ...filled })
  expect(planNow().household.loans).toHaveLength(1)
})

test('every wrong row of loans and of things is named at its field, and nothing is kept', async () => {
  await indebted()
  const { loans, kind } = await ownedStep()
  const reply = await app.post('/start/owned', {
    formId: formId(3),
    // Less than the interest of either: 700 and 111 a month.
    ...Object.fromEntries(
      loans.flatMap((id, k) => [
        [`loans.${k}.account`, id],
        [`loans.${k}.rate`, '9'],
        [`loans.${k}.payment`, '20'],
      ]),
    ),
    'things.0.name': 'Tractor',
    'things.0.account': kind('Machinery and equipment'),
    'things.1.name': 'Baler',
    'things.1.account': kind('Machinery and equipment'),
    'things.1.cost': '5000',
    'things.1.deducted': '6000',
  })
  expect(reply.status).toBe(422)
  const page = await reply.text()
  const fields = ['loans.0.payment', 'loans.1.payment', 'things.0.cost', 'things.1.deducted']
  for (const field of fields) expect(page).toContain(`href="#f-${field}"`)
  expect(planNow().household.loans).toEqual([])
  expect(page).toContain('value="Baler"')
})

test('once living costs are told, a mortgage is asked about on its own page, whether they hold its payments', async () => {
  await indebted()
  await app.post('/start/costs', costs)
  const page = await (await app.get('/start/owned')).text()
  const mortgage = listAccounts(app.books).find((one) => one.name === 'Mortgage')!
  expect(page).toContain(`href="/books/accounts/${mortgage.id}/loan"`)
  expect(page).not.toContain(`name="loans.1.account"`)
  const form = { formId: formId(12), planId: 'our-plan', basedOn: '3', rate: '6', payment: '1,000' }
  const asked = await app.post(`/books/accounts/${mortgage.id}/loan`, form)
  expect(asked.status).toBe(409)
  expect(await asked.text()).toContain('In “Living”: remove it there')
  expect(planNow().household.loans).toEqual([])
})

test('what the loans bought stands beside them: equity is what is owned less what is owed', async () => {
  await indebted()
  const { loans, names, kind } = await ownedStep()
  const reply = await app.post('/start/owned', {
    formId: formId(3),
    'things.0.name': 'Tractor',
    'things.0.account': kind('Machinery and equipment'),
    'things.0.cost': '26,000',
    'things.0.deducted': '11,400',
    'things.0.worth': '21,000',
    'things.0.bought': '2024-03-15',
    'things.0.loan': loans[names.indexOf('Term loan')]!,
    'things.0.kind': 'equipment',
    'things.1.name': 'House and yard',
    'things.1.account': kind('Home'),
    'things.1.cost': '188000',
    'things.1.worth': '230000',
  })
  expect(reply.status).toBe(303)
  const balance = (side: string, kinds: string) =>
    app.books.sqlite
      .prepare(
        `SELECT sum(amount_cents) FROM postings JOIN accounts ON accounts.id = account_id
         WHERE side_id = ? AND kind IN (${kinds})`,
      )
      .pluck()
      .get(side) as number
  // By hand: 9,000 + 26,000 − 11,400 − 18,500, and 40,000 + 188,000 − 140,000: what things cost, not what they are worth.
  expect(balance('farm', "'asset', 'liability'")).toBe(510_000)
  expect(balance('household', "'asset', 'liability'")).toBe(8_800_000)
  // On the first day the farm is worth 9,000 + 21,000 − 18,500, the household 40,000 + 230,000 − 140,000.
  const { sides } = yearPackFigures(app.books, 2026, 'cash', day('2026-12-31'))
  expect(sides.map(({ name, end }) => [name, end.equity.costCents, end.equity.marketCents])).toEqual([
    ['Fernlea', 510_000, 1_150_000],
    ['Household', 8_800_000, 13_000_000],
  ])
  const memo = app.books.sqlite.prepare("SELECT memo FROM postings WHERE memo LIKE 'Tractor%'").pluck().get()
  expect(memo).toBe('Tractor, bought 2024-03-15, paid for by Term loan')
  const page = await (await app.get('/start/owned')).text()
  expect(page).toContain('In the books already')
  expect(listHoldings(app.books, 'farm')).toMatchObject([
    {
      name: 'Tractor',
      kind: 'equipment',
      costCents: 2_600_000,
      acquiredDay: '2024-03-15',
      depreciation: null,
    },
  ])
  // What was written off is told as that, and offered nowhere as something owned.
  expect(page).toMatch(/Depreciation taken, Fernlea: −\$11,400\.00/)
  expect(page).not.toMatch(/<option[^>]*>Depreciation taken/)
  const papers = await (await app.get('/year-pack/holdings/new')).text()
  expect(papers).toMatch(/<option[^>]*>Machinery and equipment<\/option>/)
  expect(papers).not.toMatch(/<option[^>]*>Depreciation taken/)
})

test('a thing of the inventory needs its cost: what it is worth is no cost, and more than it is never written off', async () => {
  await indebted()
  const { kind } = await ownedStep()
  const row = {
    'things.0.name': 'Baler',
    'things.0.account': kind('Machinery and equipment'),
    'things.0.kind': 'equipment',
    'things.0.worth': '4000',
  }
  const refused = await app.post('/start/owned', { formId: formId(3), ...row })
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('that is written off, not what it is worth')
  const over = { ...row, 'things.0.cost': '5000', 'things.0.deducted': '5000.01' }
  const tooMuch = await app.post('/start/owned', { formId: formId(4), ...over })
  expect(await tooMuch.text()).toContain('Enter no more than it cost')
  const below = { ...row, 'things.0.cost': '5000', 'things.0.worth': '-1' }
  const page = await (await app.post('/start/owned', { formId: formId(5), ...below })).text()
  expect(page).toMatch(/href="#[^"]*worth[^"]*"[^>]*>[^<]*Enter 0 or more/)
  expect(listHoldings(app.books, 'farm')).toEqual([])
})

test('what the household owns is on no inventory', async () => {
  await indebted()
  const { kind } = await ownedStep()
  const reply = await app.post('/start/owned', {
    formId: formId(3),
    'things.0.name': 'House and yard',
    'things.0.account': kind('Home'),
    'things.0.worth': '230000',
    'things.0.kind': 'building',
  })
  expect(reply.status).toBe(422)
  expect(await reply.text()).toContain('The household’s things are not written off')
})

test('a half-filled row is asked about at its fields, and what was typed is kept', async () => {
  await indebted()
  const { loans, kind } = await ownedStep()
  const reply = await app.post('/start/owned', {
    formId: formId(3),
    'loans.0.account': loans[0]!,
    'loans.0.rate': '6',
    'things.0.name': 'Tractor',
    'things.0.account': kind('Machinery and equipment'),
  })
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page).toContain('Enter the payment too')
  const dated = await app.post('/start/owned', {
    formId: formId(4),
    'things.0.name': 'Tractor',
    'things.0.account': kind('Machinery and equipment'),
    'things.0.worth': '',
    'things.0.bought': '2026-08-01',
  })
  const second = await dated.text()
  expect(second).toContain('Enter what it cost, or what it is worth')
  expect(second).toContain('The books begin on Jul 1, 2026')
  expect(second).toContain('value="Tractor"')
})

test('wages of January to June count in the year’s tax of the plan; without them the year would look like half of one', async () => {
  await indebted()
  expect(await (await app.get('/start/year')).text()).toContain('the first of January to')
  const earlier = {
    wages: '38,000',
    withheld: '3,400',
    paidAhead: '500',
    farmSales: '6000',
    farmCosts: '4,500',
    lastTax: '5200',
  }
  const next = await app.post('/start/year', { formId: formId(5), ...earlier })
  expect(next.headers.get('location')).toBe('/start/costs')
  await app.post('/start/costs', costs)
  const plan = planNow()
  expect(plan.tax).toMatchObject({
    soFar: { wages: 38_000, paid: 3900, withheld: 3400, farmGross: 6000, farmProfit: 1500 },
    lastYear: { tax: 5200, farmShare: 0 },
  })
  const year = (of: typeof plan) => project(of).years[0]!
  const none = { ...plan, tax: { ...plan.tax, soFar: { ...plan.tax.soFar, wages: 0, farmProfit: 0 } } }
  // 7,500 of the farm's half year alone, or 39,500 more with what came before; half of self-employment tax off both.
  expect(year(plan).adjustedGrossIncome - year(none).adjustedGrossIncome).toBeGreaterThan(39_000)
  expect(await stepsOnNow()).not.toContain('year')
})

test('months of a marketplace plan before the books are asked whole, and what the step does not ask stays', async () => {
  await indebted()
  const months = { marketplaceMonths: '6', marketplacePremiums: '4,800', advanceCredit: '3,000' }
  const half = await app.post('/start/year', { formId: formId(5), wages: '20,000', ...months })
  expect(half.status).toBe(422)
  const page = await half.text()
  expect(page).toContain('second lowest cost silver plan')
  expect(page).toContain('value="4,800"')
  const alone = await app.post('/start/year', { formId: formId(6), marketplacePremiums: '4,800' })
  expect(await alone.text()).toContain('Enter the months of these premiums, 1 to 11')
  const all = { wages: '20,000', ...months, marketplaceBenchmark: '5,100' }
  expect((await app.post('/start/year', { formId: formId(7), ...all })).status).toBe(303)
  await app.post('/start/costs', costs)
  const before = {
    marketplaceMonths: 6,
    marketplacePremiums: 4800,
    marketplaceBenchmark: 5100,
    advanceCredit: 3000,
  }
  expect(planNow().tax.soFar).toMatchObject(before)
  // Nobody is on the marketplace from July on: the return settles what the half year took in advance.
  expect(project(planNow()).years[0]!.advanceCredit).toBe(3000)
  const plan = planNow()
  app.savePlan(
    { ...plan, tax: { ...plan.tax, soFar: { ...plan.tax.soFar, propertyGain: 900 } } },
    { planId: 'our-plan', basedOn: revisionNow() },
  )
  const again = await filledForm(app, '/start/year', { wages: '21,000' })
  expect((await app.post('/start/year', again)).status).toBe(303)
  expect(planNow().tax.soFar).toMatchObject({ ...before, wages: 21_000, propertyGain: 900 })
})

test('wages before books that begin within the year count in the set-aside and the worksheet, with what was withheld from them', async () => {
  await indebted()
  const earlier = {
    wages: '38,000',
    withheld: '3,400',
    paidAhead: '500',
    farmSales: '6000',
    farmCosts: '4,500',
  }
  await app.post('/start/year', { formId: formId(5), ...earlier })
  await app.post('/start/costs', costs)
  const market = listAccounts(app.books).find((one) => one.sideId === 'farm' && one.scheduleLine === '2')!
  const checking = listAccounts(app.books).find((one) => one.name === 'Farm checking')!
  const lines = [
    { accountId: checking.id, amountCents: cents(250_000) },
    { accountId: market.id, amountCents: cents(-250_000) },
  ]
  const head = { sideId: 'farm' as const, payee: '', memo: '', source: 'form' as const }
  done(postEntry(app.books, act(), { ...head, day: day('2026-07-18'), lines }))
  const { tax } = (await (await app.get('/now.json')).json()) as {
    tax: { wages: number; farmProfit: number; paid: number; withEarlier: boolean }
  }
  expect(tax).toMatchObject({
    wages: 38_000,
    farmGross: 8500,
    farmProfit: 4000,
    paid: 3900,
    withEarlier: true,
  })
  const { tax: pack } = (await (await app.get('/year-pack.json?year=2026')).json()) as {
    tax: { worksheet: { payments: object; inputs: { label: string; dollars: number }[] } }
  }
  // Line 25 and line 26 of the return, once where they go in and once where they were paid.
  expect(pack.worksheet.payments).toMatchObject({ withheld: 3400, estimates: 500 })
  const onLine = (line: string) => pack.worksheet.inputs.find(({ label }) => label.includes(line))!.dollars
  expect([onLine('line 25'), onLine('line 26')]).toEqual([3400, 500])
})

test('Health reckons with the wages before the books began: more than twice the poverty line, not a sixth of it', async () => {
  await indebted()
  await app.post('/start/year', { formId: formId(5), wages: '38,000', withheld: '3,900' })
  await app.post('/start/costs', { ...costs, premium: '' })
  const form = { formId: formId(7), 'members[]': ['oda'], plan: '420', benchmark: '450', care: '' }
  expect((await app.post('/cover/marketplace', { ...form, basedOn: '4' })).status).toBe(303)
  const { inSight } = (await (await app.get('/cover.json')).json()) as {
    inSight: { plannedIncome: number; povertyLine: number }
  }
  // One person, 2026: a line of 15,650 in the contiguous states (HHS guidelines of 2025); 38,000 alone is 242 % of it.
  expect(inSight.plannedIncome / inSight.povertyLine).toBeGreaterThan(2.3)
})

test('hours of each reach the plan; a house that names none is asked, and nobody is hired in silence', async () => {
  await indebted()
  expect(planNow().farm.crew).toEqual([{ who: 'oda', weeklyHours: 46 }])
  await app.post('/start/who', { ...who, formId: formId(6) })
  expect(planNow().farm.crew).toEqual([])
  await app.post('/start/costs', costs)
  expect(await stepsOnNow()).toContain('hours')
  const { farm } = planNow()
  const worked = { ...farm, enterprises: farm.enterprises.map((one) => ({ ...one, hoursPerUnit: 1999 })) }
  const course = farmCourse(worked, month(2027, 1), 12)
  expect(course.hiredCosts.reduce((a, b) => a + b, 0)).toBe(0)
  expect(Math.round(course.hoursNeeded.reduce((a, b) => a + b, 0))).toBe(1999)
  app.savePlan({ ...planNow(), farm: worked }, { planId: 'our-plan', basedOn: 4 })
  expect(await (await app.get('/farm?year=2027')).text()).toContain('Nobody is named for the 1,999 hours')
})

test('first steps stay however long ago the books begin, until each is done or said not to be for this house', async () => {
  app = testApp({ today: '2026-08-20' })
  await app.post('/start/who', who)
  await app.post('/start/accounts', {
    formId: formId(2),
    day: '2026-01-01',
    ...(await balances({ Savings: '31,000' })),
  })
  await app.post('/start/costs', costs)
  expect(await stepsOnNow()).toEqual([
    'statement',
    'crossing',
    'earns',
    'owned',
    'hours',
    'record',
    'cover',
    'lines',
  ])
  const said = { formId: formId(7), step: 'cover' }
  expect((await app.post('/now/first-step', said)).status).toBe(303)
  expect((await app.post('/now/first-step', said)).status).toBe(303)
  expect(await stepsOnNow()).toEqual(['statement', 'crossing', 'earns', 'owned', 'hours', 'record', 'lines'])
  await app.post('/start/who', { ...who, formId: formId(8), 'people.0.hours': '30' })
  expect(await stepsOnNow()).toEqual(['statement', 'crossing', 'earns', 'owned', 'record', 'lines'])
})

test('the premium of the first run and the marketplace form: what would count twice is asked, and one answer makes it one', async () => {
  app = testApp({ today: '2026-08-20' })
  await app.post('/start/who', who)
  await app.post('/start/accounts', {
    formId: formId(2),
    day: '2026-08-01',
    ...(await balances({ Savings: '9' })),
  })
  await app.post('/start/costs', costs)
  const form = {
    formId: formId(7),
    basedOn: '3',
    'members[]': ['oda'],
    plan: '420',
    benchmark: '450',
    care: '',
  }
  const asked = await app.post('/cover/marketplace', form)
  expect(asked.status).toBe(409)
  const page = await asked.text()
  expect(page).toContain('Is that the same cover?')
  expect(planNow().health.marketplace.members).toEqual([])
  const [once] = page.split('<form').slice(1)
  const field = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(once!)![1]!
  const document = field('document')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
  const fields = ['formId', 'planId', 'basedOn', 'next', 'note'].map((name) => [name, field(name)])
  const saved = await app.post('/runway/revisions/mine', { ...Object.fromEntries(fields), document })
  expect(saved.status).toBe(303)
  expect(planNow().health.premiums).toEqual([])
  expect(planNow().health.marketplace.members).toHaveLength(1)
  // The last step of the first run would count it a second time too.
  const again = await app.post('/start/costs', { ...costs, formId: formId(10) })
  expect(again.status).toBe(422)
  expect(await again.text()).toContain('href="#f-premium"')
})

test('more rows are given without losing what was typed, and nothing is stored by asking for them', async () => {
  await indebted()
  const reply = await app.post('/start/owned', {
    formId: formId(3),
    more: 'yes',
    'things.1.name': 'Greenhouse',
  })
  const page = await reply.text()
  expect(reply.status).toBe(200)
  expect(page).toContain('name="things.3.name"')
  expect(page).toContain('value="Greenhouse"')
  expect(
    app.books.sqlite.prepare("SELECT count(*) FROM entries WHERE memo LIKE '%owned%'").pluck().get(),
  ).toBe(0)
})

test('a pension is asked for as well, stays what it was said to be, and pays no payroll tax', async () => {
  app = testApp({ today: '2026-08-20' })
  await app.post('/start/who', who)
  await app.post('/start/accounts', {
    formId: formId(2),
    day: '2026-08-01',
    ...(await balances({ Savings: '28,000' })),
  })
  const page = await (await app.get('/start/costs')).text()
  expect(page).toContain('Pension that stays the same')
  const given = {
    ...costs,
    'pay.0.person': 'oda',
    'pay.0.kind': 'fixedPension',
    'pay.0.perMonth': '640',
    'pay.0.until': '',
    'pay.0.withheld': '',
  }
  expect((await app.post('/start/costs', given)).status).toBe(303)
  expect(planNow().household.pay).toMatchObject([
    { id: 'oda-pay', kind: 'fixedPension', name: 'Pension', person: 'oda', perMonth: 640 },
  ])
  const { months } = project(planNow())
  // The same 640 in the first month and after two years of prices, nothing withheld.
  expect([months[0]!.pay, months[24]!.pay]).toEqual([640, 640])
  const again = await (await app.get('/start/costs')).text()
  expect(again).toMatch(/<option value="fixedPension" selected/)
})

test('pay that goes on for one of them is asked, reaches the plan until its last month, and lengthens months left', async () => {
  app = testApp({ today: '2026-08-20' })
  await app.post('/start/who', who)
  await app.post('/start/accounts', {
    formId: formId(2),
    day: '2026-08-01',
    ...(await balances({ Savings: '28,000' })),
  })
  expect(await (await app.get('/start/costs')).text()).toContain('Oda: gross, a month')
  const without = { ...costs, premium: '', floorMonths: '0', farmSales: '', farmCosts: '' }
  await app.post('/start/costs', without)
  // 28,000 pay for eleven months of 2,500.
  expect(project(planNow()).milestones.monthsLeft).toBe(11)
  const pay = {
    'pay.0.person': 'oda',
    'pay.0.perMonth': '1000',
    'pay.0.until': '2027-01',
    'pay.0.withheld': '10',
  }
  await app.post('/start/costs', { ...without, ...pay, formId: formId(10) })
  expect(planNow().household.pay).toEqual([
    {
      id: 'oda-pay',
      kind: 'wages',
      name: 'Off-farm pay',
      person: 'oda',
      perMonth: 1000,
      months: [],
      to: '2027-01',
      extraGrowth: 0,
      withheldShare: 0.1,
      hoursPerWeek: 0,
    },
  ])
  const { months } = project(planNow())
  // 1,000 less 7.65 % of payroll tax and 10 % withheld, from August to January, when prices have gone up.
  expect(months[4]!.pay).toBeCloseTo(823.5, 2)
  expect(months[5]!.pay).toBeGreaterThan(823.5)
  expect(months[6]!.pay).toBe(0)
  const again = await (await app.get('/start/costs')).text()
  expect(again).toContain('value="2027-01"')
  const slip = await app.post('/start/costs', {
    ...without,
    ...pay,
    'pay.0.perMonth': '',
    formId: formId(11),
  })
  expect(slip.status).toBe(422)
  expect(await slip.text()).toContain('href="#f-pay.0.perMonth"')
})

test('nothing is booked before the opening balances, which hold it already, by hand or as a crossing', async () => {
  app = testApp({ today: '2026-11-20' })
  await app.post('/start/who', who)
  const filled = await balances({ Savings: '31,000', 'Farm checking': '4,000' })
  await app.post('/start/accounts', { formId: formId(2), day: '2026-11-01', ...filled })
  await app.post('/start/costs', { ...costs, farmSales: '', farmCosts: '' })
  const leftNow = async () =>
    ((await (await app.get('/now.json')).json()) as { plan: { monthsLeft: number } }).plan.monthsLeft
  const before = await leftNow()
  expect(before).toBeGreaterThan(3)
  const farmChecking = listAccounts(app.books).find((one) => one.name === 'Farm checking')!.id
  const savings = listAccounts(app.books).find((one) => one.name === 'Savings')!.id
  const form = {
    formId: formId(30),
    kind: 'draw',
    day: '2026-10-15',
    amount: '5',
    fromAccount: String(farmChecking),
    toAccount: String(savings),
  }
  const refused = await app.post('/crossings/new', form)
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('These books begin on')
  expect(await leftNow()).toBe(before)
})

test('a card that owes more than there is in cash is in the plan: its rest is paid in the first month', async () => {
  app = testApp({ today: '2026-11-20' })
  await app.post('/start/who', who)
  const filled = await balances({ 'Household checking': '1,000', 'Household card': '3,850' })
  await app.post('/start/accounts', { formId: formId(2), day: '2026-11-01', ...filled })
  expect(planNow().household.oneOffs).toMatchObject([{ month: '2026-11', cost: 2850 }])
  await app.post('/start/costs', { ...costs, premium: '', floorMonths: '0', farmSales: '', farmCosts: '' })
  // 2,850 of the card and 2,500 of living, and nothing to pay them with.
  expect(project(planNow()).months[0]!.unmetNeed).toBeCloseTo(5350, 6)
})

test('opening balances that were reversed are entered anew; those that stand are not entered twice', async () => {
  app = testApp({ today: '2026-11-20' })
  await app.post('/start/who', who)
  const enter = async (n: number, amount: string) =>
    app.post('/start/accounts', {
      formId: formId(n),
      day: '2026-11-01',
      ...(await balances({ Savings: amount })),
    })
  const first = { formId: formId(2), day: '2026-11-01', ...(await balances({ Savings: '-31,000' })) }
  expect((await app.post('/start/accounts', first)).status).toBe(303)
  expect((await app.post('/start/accounts', first)).status).toBe(303)
  const again = await app.post('/start/accounts', { ...first, formId: formId(3) })
  expect(again.status).toBe(422)
  expect(await (await app.get('/start/accounts')).text()).toContain('are in the books.')
  const opening = app.books.sqlite
    .prepare("SELECT id FROM entries WHERE source = 'opening'")
    .pluck()
    .get() as string
  done(voidEntry(app.books, act(), opening, day('2026-11-01')))
  expect((await enter(4, '31,000')).status).toBe(303)
  expect(planNow().savings.accounts[0]!.balance).toBe(31_000)
})

test('the premium of the first run ends when the younger of them has Medicare', async () => {
  app = testApp({ today: '2026-08-20' })
  await app.post('/start/who', { ...who, 'people.1.name': 'Per', 'people.1.born': '1968-02-14' })
  await app.post('/start/costs', costs)
  // Oda, born 9 March 1988, has Medicare from March 2053.
  expect(planNow().health.premiums).toMatchObject([{ perMonth: 310, to: '2053-02' }])
})

test('the year pack says from which day its books run, what was told of the months before, and what is open', async () => {
  app = testApp({ today: '2026-11-20' })
  await app.post('/start/who', who)
  const filled = await balances({ Savings: '31,000', 'Farm checking': '4,000' })
  await app.post('/start/accounts', { formId: formId(2), day: '2026-11-01', ...filled })
  const year = {
    lastTax: '',
    lastIncome: '',
    wages: '',
    withheld: '',
    farmSales: '31,000',
    farmCosts: '39,000',
  }
  expect((await app.post('/start/year', { formId: formId(3), ...year })).status).toBe(303)
  const { gaps } = (await (await app.get('/year-pack.json?year=2026')).json()) as { gaps: { says: string }[] }
  const said = gaps.map(({ says }) => says)
  expect(said[0]).toBe(
    'The books begin on Nov 1, 2026: statements and forms here hold 2026 from that day on. Farm sales of $31,000 and costs of $39,000 before that, as entered in the first steps, are in the tax worksheet only.',
  )
  expect(said).toContain('Household: November 2026 is not closed, so what is printed can still change.')
})

test.each([
  ['2032-01', '15'],
  ['2033-01', '20'],
])(
  'after the first run alone a slower phase from %s says what is missing for its mix, and that its hours are not known',
  async (from, hours) => {
    app = testApp({ today: '2026-08-20' })
    await app.post('/start/who', { ...who, 'people.0.hours': '46' })
    await app.post('/start/accounts', {
      formId: formId(2),
      day: '2026-08-01',
      ...(await balances({ Savings: '61,000', 'Farm checking': '9000' })),
    })
    await app.post('/start/costs', costs)
    const phase = await filledForm(app, '/slower-years/phases/new', { from, 'weeklyHours.0.hours': hours })
    expect((await app.post('/slower-years/phases/new', phase)).status).toBe(303)
    expect(planNow().farm.phases).toMatchObject([{ from, weeklyHours: [{ hours: Number(hours) }] }])
    // 41,000 less 26,000, however many hours that takes: the phase changes hours alone, and the first run asks for none of the farm.
    const whole = await app.get('/slower-years/answers')
    expect(whole.status).toBe(200)
    const page = await whole.text()
    expect(page).toContain('Nothing in the plan limits The farm as it is')
    expect(page).not.toMatch(/0% of the hours|\b0 of \d+/)
    const beside = await (await app.get('/slower-years')).text()
    expect(beside).toContain('of the net; its hours are not known: the plan gives none for The farm as it is')
    expect(beside).not.toMatch(/0% of the hours|\b0 of \d+/)
    expect(beside).toContain('not known, of ')
    const part = await app.get('/slower-years/answers', {
      'HX-Request': 'true',
      'HX-Target': 'div#answers',
    })
    expect(await part.text()).toContain('Nothing in the plan limits The farm as it is')
    for (const table of ['years', 'phases', 'mixes'])
      expect((await app.get(`/slower-years.csv?table=${table}`)).status).toBe(200)
    const { phases } = (await (await app.get('/slower-years.json')).json()) as { phases: object[] }
    expect(phases).toMatchObject([{ hours: null, hoursBefore: null, withoutHours: ['The farm as it is'] }])
  },
)

test('published living costs fill the field only when one is pressed, as printed or brought to the household, and keep what was typed', async () => {
  app = testApp({ today: '2026-11-20' })
  await app.post('/start/who', { ...who, 'people.1.name': 'Per', 'people.1.born': '1990-01-01' })
  const html = await (await app.get('/start/costs')).text()
  // 67,092 / 12 = 5,591, of families of 3.1 people.
  expect(html).toContain('$5,591 a month, Minnesota, in dollars of 2015, families of 3.1 people')
  expect(html).toContain('Second hand')
  expect(html).toMatch(/<input id="f-living"[^>]*value=""/)
  const typed = { ...costs, living: '', farmSales: '52000' }
  const printed = await (await app.post('/start/costs', { ...typed, take: 'mn-2015.printed' })).text()
  expect(printed).toMatch(/<input id="f-living"[^>]*value="5591"/)
  expect(printed).toContain('value="52000"')
  // Two people: 67,092 × the index of 2025 over 2015 × √(2 / 3.1) / 12; the index is the one in the rules.
  const brought = livingSuggestions(2).find(({ taken }) => taken === 'mn-2015.brought')!
  const index = consumerPriceIndex.values
  expect(brought.perMonth).toBe(
    Math.round((67_092 * (index[brought.year]! / index[2015]!) * Math.sqrt(2 / 3.1)) / 12),
  )
  expect(await (await app.post('/start/costs', { ...typed, take: 'mn-2015.brought' })).text()).toMatch(
    new RegExp(`<input id="f-living"[^>]*value="${brought.perMonth}"`),
  )
  expect(planNow().household.living).toEqual([])
})

test('the first run can begin with one thing that is sold, hay or grain too, by published figures that nothing takes for given', async () => {
  app = testApp({ today: '2026-11-20' })
  await app.post('/start/who', who)
  const html = await (await app.get('/start/costs')).text()
  for (const name of ['Grass hay', 'Grain corn', 'Pastured broilers', 'Ewes and lambs'])
    expect(html).toContain(`>${name}</option>`)
  const chosen = { ...costs, farmSales: '', farmCosts: '', sells: 'enterprises:corn' }
  const reply = await app.post('/start/costs', chosen)
  expect(reply.headers.get('location')).toMatch(/^\/farm\/enterprises\/new\?usual=corn/)
  const form = await (await app.get('/farm/enterprises/new?usual=corn')).text()
  // 150 bushels at 6.50.
  expect(form).toContain('Usual: $975 an acre')
  expect(planNow().farm.enterprises).toEqual([])
})

// The poverty line, the credit for other dependents and the marketplace count a student whom they support (26 USC 152(c)(3)(A)(ii)).
test('a child of 19 is asked about; as a full-time student it counts until 24, and no longer when it is none', async () => {
  app = testApp({ today: '2026-08-20' })
  const asked = await app.post('/start/who', {
    ...who,
    'children.0.name': 'Eli',
    'children.0.born': '2005-05-22',
  })
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain(
    'A full-time student whom you support counts until 24: say so instead.',
  )
  const student = { 'children.0.name': 'Eli', 'children.0.born': '2005-05-22', 'children.0.student': 'yes' }
  expect((await app.post('/start/who', { ...who, formId: formId(2), ...student })).status).toBe(303)
  expect(planNow().household.dependents).toMatchObject([{ name: 'Eli', untilAge: 24, student: true }])
  expect(await (await app.get('/start/who')).text()).toMatch(/name="children.0.student"[^>]* checked/)
  const none = { 'children.0.name': 'Eli', 'children.0.born': '2005-05-22', sure: 'yes' }
  expect((await app.post('/start/who', { ...who, formId: formId(3), ...none })).status).toBe(303)
  expect(planNow().household.dependents).toMatchObject([{ untilAge: 19, student: false }])
})

test('a mother of 82 is no child: she has her own place, with what she brings, and is told as who she is', async () => {
  app = testApp({ today: '2026-08-20' })
  const ulla = { 'children.0.name': 'Ulla', 'children.0.born': '1944-09-05', sure: 'yes' }
  const refused = await app.post('/start/who', { ...who, ...ulla })
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('Ulla, born in 1944, is no child and would count nowhere.')
  const relative = { 'relatives.0.name': 'Ulla', 'relatives.0.born': '1944-09-05' }
  const old = { ...who, ...relative, 'relatives.0.planToAge': '80' }
  const short = await (await app.post('/start/who', old)).text()
  expect(short).toContain('Ulla is 81 when the plan begins. Plan to a higher age than 80')
  const money = { 'relatives.0.planToAge': '', 'relatives.0.ownMoney': '907.50' }
  expect((await app.post('/start/who', { ...who, ...relative, ...money, formId: formId(2) })).status).toBe(
    303,
  )
  expect(planNow().household.dependents).toMatchObject([
    { name: 'Ulla', relation: 'relative', ownMoney: 907.5, student: false },
  ])
  expect(planNow().household.dependents[0]).not.toHaveProperty('planToAge')
  const page = await (await app.get('/settings/people')).text()
  expect(page).toMatch(/name="relatives.0.name"[^>]* value="Ulla"/)
  expect(page).toMatch(/name="relatives.0.ownMoney"[^>]* value="907.50"/)
  expect(page).not.toMatch(/name="children.0.name"[^>]* value="Ulla"/)
  expect(await (await app.get('/settings')).text()).toContain('<span class="hint"> adult relative</span>')
})
