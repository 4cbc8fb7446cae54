// Two people save the same thing: the second sees both versions, loses nothing, and may keep either.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { findAccount, listAccounts, listSides } from '#db/ledger/account-store.ts'
import { countRuleUses, listRules, saveRule } from '#db/statements/sorting-rule-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import { currentPlan } from '#today/current-plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { type FormFields, type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-03-15' })
  app.openSides()
})
afterEach(() => {
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
  app.close()
})

/** The fields of the form that posts to an address, as the page at another one shows it. */
const formAt = async (page: string, action = page): Promise<Record<string, string>> =>
  formIn(await (await app.get(page)).text(), action)

const formIn = (html: string, action: string): Record<string, string> => {
  const form = [...html.matchAll(/<form[^>]*action="([^"]*)"[^>]*>([\s\S]*?)<\/form>/g)].find(
    ([, to]) => to!.replaceAll('&amp;', '&') === action,
  )
  if (!form) throw new Error(`No form to ${action}`)
  const fields: Record<string, string> = {}
  for (const [, tag] of form[2]!.matchAll(/<input([^>]*)>/g)) {
    const of = (name: string) => new RegExp(`\\b${name}="([^"]*)"`).exec(tag!)?.[1]
    const isChoice = /type="(checkbox|radio)"/.test(tag!)
    if (of('name') && (!isChoice || /\bchecked\b/.test(tag!))) fields[of('name')!] = of('value') ?? ''
  }
  for (const [, name, options] of form[2]!.matchAll(/<select[^>]*name="([^"]*)"[^>]*>([\s\S]*?)<\/select>/g))
    fields[name!] = /<option value="([^"]*)"[^>]*selected/.exec(options!)?.[1] ?? ''
  return Object.fromEntries(
    Object.entries(fields).map(([name, value]) => [
      name,
      value.replaceAll('&amp;', '&').replaceAll('&quot;', '"'),
    ]),
  )
}

/** Both screens open the form; each saves its own; the second sees both and saves after the first. */
const saveTwice = async (page: string, action: string, first: FormFields, second: FormFields) => {
  const [one, other] = [await formAt(page, action), await formAt(page, action)]
  expect(one.basedOn).toBeTruthy()
  const saved = await app.post(action, { ...one, ...first })
  expect(saved.status).toBe(303)
  // Pressed twice it is the same success.
  expect((await app.post(action, { ...one, ...first })).status).toBe(303)
  const reply = await app.post(action, { ...other, ...second })
  expect(reply.status).toBe(409)
  const html = await reply.text()
  expect(html).toContain('Nothing of either is lost')
  return { html, mine: formIn(html, action) }
}

test('an account', async () => {
  const { id } = listAccounts(app.books).find(({ name }) => name === 'Farm checking')!
  const page = `/settings/accounts/${id}`
  const { html, mine } = await saveTwice(
    page,
    page,
    { name: 'Creek bank', note: 'joint' },
    { name: 'Valley bank' },
  )
  expect(html).toContain('Two versions of the account “Creek bank”')
  expect(html).toMatch(/name<\/th>[\s\S]*Creek bank[\s\S]*Valley bank/)
  expect(html).toMatch(/note<\/th>[\s\S]*joint[\s\S]*nothing/)
  expect(findAccount(app.books, id)).toMatchObject({ name: 'Creek bank', note: 'joint' })
  expect((await app.post(page, mine)).status).toBe(303)
  expect(findAccount(app.books, id)).toMatchObject({ name: 'Valley bank', note: '', revision: 3 })
})

test('a form of an account that says nothing of its version never saves over one that was changed', async () => {
  const { id } = listAccounts(app.books).find(({ name }) => name === 'Farm checking')!
  const form = { ...(await formAt(`/settings/accounts/${id}`)), basedOn: '' }
  expect((await app.post(`/settings/accounts/${id}`, { ...form, name: 'Valley bank' })).status).toBe(409)
  expect(findAccount(app.books, id)!.name).toBe('Farm checking')
})

test('a sorting rule, while its use alone is no new version', async () => {
  const feed = listAccounts(app.books).find(({ name }) => name === 'Feed')!
  const { ruleId } = done(
    saveRule(app.books, act(), null, {
      matchKind: 'starts',
      matchText: 'hollow feed',
      onAccountId: null,
      sign: null,
      minimum: null,
      maximum: null,
      target: { kind: 'account', accountId: feed.id, enterpriseId: null },
      priority: 0,
    }),
  )
  const page = `/books/sorting/rules/${ruleId}`
  const { html, mine } = await saveTwice(
    page,
    page,
    { matchText: 'hollow mill' },
    { matchText: 'hollow barn', sign: 'out' },
  )
  expect(html).toContain('Two versions of the sorting rule')
  expect(html).toMatch(/hollow mill[\s\S]*hollow barn/)
  expect((await app.post(page, mine)).status).toBe(303)
  expect(listRules(app.books)).toMatchObject([{ matchText: 'hollow barn', sign: 'out', revision: 3 }])
  const open = await formAt(page)
  countRuleUses(app.books, '2026-03-15T12:00:00Z', new Map([[ruleId, 4]]))
  done(saveRule(app.books, act(), null, { ...listRules(app.books)[0]!, matchText: 'creek feed' }))
  expect((await app.post(page, { ...open, minimum: '5' })).status).toBe(303)
})

test('people and place, while another change of the plan is no new version of them', async () => {
  const who = {
    farmName: 'Wrenfold',
    region: 'contiguous',
    'people.0.name': 'Ada',
    'people.0.born': '1985-04-02',
  }
  const page = '/settings/people'
  expect((await app.post(page, { ...(await formAt(page)), ...who })).status).toBe(303)
  const { html, mine } = await saveTwice(
    page,
    page,
    { 'people.0.hours': '30' },
    { 'people.0.born': '1985-04-03', 'people.1.name': 'Bo', 'people.1.born': '1980-01-01' },
  )
  expect(html).toContain('Two versions of people and place')
  expect(html).toMatch(/people, 1, born<\/th>[\s\S]*1985-04-02[\s\S]*1985-04-03/)
  expect((await app.post(page, mine)).status).toBe(303)
  const plan = () => {
    const current = currentPlan(app.books)
    if (current.status !== 'read') throw new Error('no plan')
    return current
  }
  expect(plan().plan.household.people.map(({ name, born }) => [name, born])).toEqual([
    ['Ada', '1985-04-03'],
    ['Bo', '1980-01-01'],
  ])
  const open = await formAt(page)
  const { plan: present, planId, revisionNo } = plan()
  app.savePlan(
    { ...present, assumptions: { ...present.assumptions, inflation: 0.031 } },
    { planId, basedOn: revisionNo },
  )
  expect((await app.post(page, { ...open, 'people.1.name': 'Bob' })).status).toBe(303)
})

test('the books of a side', async () => {
  const { html, mine } = await saveTwice(
    '/settings/sides/farm',
    '/settings/sides/farm',
    { name: 'Creekside' },
    { name: 'Valley farm' },
  )
  expect(html).toContain('Two versions of the books of Creekside')
  expect((await app.post('/settings/sides/farm', mine)).status).toBe(303)
  expect(listSides(app.books)[0]!.name).toBe('Valley farm')
})

test('a thing of the inventory', async () => {
  const made = await app.post('/year-pack/holdings/new', {
    formId: crypto.randomUUID(),
    name: 'Walking tractor',
    kind: 'equipment',
    quantity: '1',
    cost: '4200',
    acquiredDay: '2025-04-02',
    assetClass: 'machinery-used',
    account: '',
    section179: '',
    marketValue: '',
  })
  expect(made.status).toBe(303)
  const [holding] = listHoldings(app.books, 'farm')
  const page = `/year-pack/holdings/${holding!.id}?year=2026`
  const { html, mine } = await saveTwice(page, page, { cost: '4300' }, { name: 'Two-wheel tractor' })
  expect(html).toContain('Two versions of “Walking tractor”')
  expect(html).toMatch(/cost<\/th>[\s\S]*4300\.00[\s\S]*4200\.00/)
  expect((await app.post(page, mine)).status).toBe(303)
  expect(listHoldings(app.books, 'farm')).toMatchObject([{ name: 'Two-wheel tractor', costCents: 420_000 }])
})

test('who saved before is told in words: this browser, another one, or the name given there', async () => {
  const { id } = listAccounts(app.books).find(({ name }) => name === 'Farm checking')!
  const page = `/settings/accounts/${id}`
  const [mine, theirs] = ['dooryard-browser=browser-mine0001', 'dooryard-browser=browser-theirs01']
  /** Saved by one browser over a form that is open in mine, and then by mine. */
  const overSavedBy = async (cookie: string, note: string) => {
    const [first, open] = [await formAt(page), await formAt(page)]
    expect((await app.post(page, { ...first, note }, { cookie })).status).toBe(303)
    const reply = await app.post(page, { ...open, note: 'mine' }, { cookie: mine })
    expect(reply.status).toBe(409)
    const html = (await reply.text()).replace(/\s+/g, ' ')
    expect(html).not.toMatch(/browser-(mine|theirs)/)
    return html
  }
  const here = await overSavedBy(mine, 'here')
  expect(here).toContain('This was saved in another window here, or before you went back')
  expect(here).toContain('It was saved by this browser on')
  expect(here).not.toMatch(/another device|[Tt]heirs/)
  const there = await overSavedBy(theirs, 'there')
  expect(there).toContain('This was saved on another device')
  expect(there).toContain('Theirs was saved by another browser on')
  await app.post('/books/acts/name', { name: 'Una' }, { cookie: theirs })
  expect(await overSavedBy(theirs, 'again')).toContain('Theirs was saved by Una on')
})

test('the plan saved twice in one browser is not said to be another device’s', async () => {
  app.savePlan({
    startMonth: '2026-01',
    household: { living: [{ id: 'food', name: 'Food', perMonth: 900 }] },
  })
  const keep = (formId: string, living: string) =>
    app.post(
      '/runway/keep',
      { formId, planId: 'ours', basedOn: '1', living },
      { cookie: 'dooryard-browser=browser-mine0001' },
    )
  expect((await keep('00000000-0000-4000-8000-000000000001', '90')).status).toBe(303)
  const reply = await keep('00000000-0000-4000-8000-000000000002', '95')
  expect(reply.status).toBe(409)
  const html = await reply.text()
  expect(html).toContain('saved in another window here')
  expect(html).not.toMatch(/browser-mine/)
})
