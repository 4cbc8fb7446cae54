// One CSV with the rows of several accounts: told apart by the column that names them, never all taken into one. By hand, of our own.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { listStatements } from '#db/statements/statement-store.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-11-06' })
  app.openSides()
})
afterEach(() => app.close())

/** Balances go on from September to October. */
const csv = (month: '09' | '10') => {
  const farm = (cents: number) => ((cents + (month === '10' ? 12_001 : 0)) / 100).toFixed(2)
  const house = (cents: number) => ((cents - (month === '10' ? 8610 : 0)) / 100).toFixed(2)
  return `Account Number,Posted Date,Description,Amount,Balance
40110077,${month}/02/2026,Ridge Feed,-80.00,${farm(92_000)}
40110077,${month}/03/2026,Market day,210.00,${farm(113_000)}
40110085,${month}/03/2026,Corner Grocer,-55.10,${house(44_490)}
40110077,${month}/05/2026,Twine,-9.99,${farm(112_001)}
40110085,${month}/09/2026,Water,-31.00,${house(41_390)}
`
}
const upload = async (text: string) => {
  const form = new FormData()
  form.append('file', new File([text], 'all.csv'))
  return (await app.upload('/books/statements/read', form)).headers.get('location')!
}
const accountNamed = (name: string) => listAccounts(app.books).find((each) => each.name === name)!.id
const looksOf = async (list: string) =>
  [...(await (await app.get(list)).text()).matchAll(/href="(\/books\/statements\/read\/[^"]*)"/g)].map(
    ([, href]) => href!.replaceAll('&amp;', '&'),
  )
const fieldsOf = (html: string) => {
  const form = /<form method="post"[\s\S]*?<\/form>/.exec(html)![0]
  return Object.fromEntries(
    [...form.matchAll(/name="([^"]+)" value="([^"]*)"/g)].map(([, key, value]) => [key!, value!]),
  )
}
const accept = async (look: string, account: number) => {
  const html = await (await app.get(`${look}&account=${account}`)).text()
  return app.post(look.split('?')[0]!, { ...fieldsOf(html), formId: randomUUID() })
}

test('each account of the file is told once; the next file is read in by one press, each row to its own account', async () => {
  const list = await upload(csv('09'))
  expect(list).toMatch(/^\/books\/statements\/several\//)
  const [farm, house] = await looksOf(list)
  expect((await accept(farm!, accountNamed('Farm checking'))).headers.get('location')).toContain(list)
  // The headings are of the first account now: the second is asked for all the same.
  expect(await looksOf(list)).toEqual([house])
  await accept(house!, accountNamed('Household checking'))
  expect(countWaiting(app.books).waiting).toBe(5)
  const next = await upload(csv('10'))
  expect(await (await app.get(`${next}.json`)).json()).toMatchObject({
    files: [
      { account: 'Farm checking', state: 'clear', counts: { new: 3 }, closing: { balance: 124_002 } },
      { account: 'Household checking', state: 'clear', counts: { new: 2 }, closing: { balance: 32_780 } },
    ],
  })
  await app.post(next, { formId: randomUUID() })
  expect(countWaiting(app.books).waiting).toBe(10)
  expect(listStatements(app.books).map(({ accountName, lines }) => [accountName, lines])).toEqual(
    expect.arrayContaining([
      ['Farm checking', 3],
      ['Household checking', 2],
    ]),
  )
})

test('all rows into one account takes a yes, however the columns were read before', async () => {
  const [first] = await looksOf(await upload(csv('09')))
  const account = accountNamed('Farm checking')
  const page = await (await app.get(`${first}&account=${account}`)).text()
  const fields = { ...fieldsOf(page), accountColumn: '', formId: randomUUID() }
  const asked = await app.post(first!.split('?')[0]!, fields)
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain('names 2 accounts: 40110077, 40110085')
  expect(countWaiting(app.books).waiting).toBe(0)
  const sure = { ...fields, 'sure.accounts': 'yes', 'sure.gap': 'yes', formId: randomUUID() }
  expect((await app.post(first!.split('?')[0]!, sure)).status).toBe(303)
  expect(countWaiting(app.books).waiting).toBe(5)
  expect(await looksOf(await upload(csv('10')))).toHaveLength(2)
})

test('a name that another bank may use too is asked for again', async () => {
  const inNames = (text: string) => text.replaceAll('40110077', 'Checking').replaceAll('40110085', 'Savings')
  const named = inNames(csv('09'))
  const [first, second] = await looksOf(await upload(named))
  await accept(first!, accountNamed('Farm checking'))
  await accept(second!, accountNamed('Savings'))
  expect(await looksOf(await upload(inNames(csv('10'))))).toEqual([])
  const otherBank = inNames(csv('10')).replace('Posted Date', 'Date')
  expect(await looksOf(await upload(otherBank))).toHaveLength(2)
})

test('rows of one account, or of a column that names too many, are one account’s as before', async () => {
  expect(await upload(csv('09').replaceAll('40110085', '40110077'))).toMatch(/\/statements\/read\//)
  const rows = Array.from(
    { length: 60 },
    (_, at) => `Kind ${at},09/0${(at % 9) + 1}/2026,Payee ${at},-${at + 1}.00`,
  )
  expect(await upload(`Account,Date,Description,Amount\n${rows.join('\n')}\n`)).toMatch(
    /\/statements\/read\//,
  )
})
