// A large file of a bank is looked at while other pages are answered, and says the same as line by line.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-11-06', onDisk: true })
  app.openSides()
})
afterEach(() => app.close())

const movements = 20_000
/** An invented bank's movements, eleven a day: every third is of one payee, no two of a day are alike. */
const movement = (at: number) => {
  const day = new Date(Date.UTC(2020, 0, 1) + Math.floor(at / 11) * 86_400_000).toISOString().slice(0, 10)
  return {
    day,
    amount: `-${(10 + (at % 11)).toFixed(2)}`,
    payee: at % 3 === 0 ? 'MILL' : `SHOP ${at % 700}`,
    id: `n${at}`,
  }
}
const all = Array.from({ length: movements }, (_, at) => movement(at))
const files = {
  'big.ofx': `OFXHEADER:100\nDATA:OFXSGML\nVERSION:102\n\n<OFX><BANKMSGSRSV1><STMTTRNRS><STMTRS><CURDEF>USD<BANKACCTFROM><BANKID>1<ACCTID>1<ACCTTYPE>CHECKING</BANKACCTFROM><BANKTRANLIST>${all
    .map(
      ({ day, amount, payee, id }) =>
        `<STMTTRN><TRNTYPE>OTHER<DTPOSTED>${day.replaceAll('-', '')}<TRNAMT>${amount}<FITID>${id}<NAME>${payee}</STMTTRN>`,
    )
    .join('')}</BANKTRANLIST></STMTRS></STMTTRNRS></BANKMSGSRSV1></OFX>`,
  'big.csv': `Date,Description,Amount\n${all.map(({ day, amount, payee }) => `${day},${payee},${amount}`).join('\n')}\n`,
}

test.for(Object.entries(files))('%s', { timeout: 120_000 }, async ([name, text]) => {
  const account = listAccounts(app.books).find((one) => one.name === 'Household checking')!.id
  const choose = async () => {
    const form = new FormData()
    form.append('file', new File([text], name))
    return (await app.upload('/books/statements/read', form)).headers.get('location')!
  }
  const look = await choose()
  const answered: string[] = []
  const counts = async (address: string) => {
    const figures = (await (await app.get(`${address}.json?account=${account}`)).json()) as {
      counts: Record<string, number>
    }
    answered.push('look')
    return figures.counts
  }
  const looking = counts(look)
  // Asked for later, answered sooner.
  await new Promise((resolve) => setImmediate(resolve))
  const small = Promise.resolve(app.get('/books/statements')).then(() => answered.push('page'))
  expect(await looking).toEqual({ new: movements, seen: 0, doubtful: 0, replaces: 0 })
  await small
  expect(answered).toEqual(['page', 'look'])
  const page = await (await app.get(`${look}?account=${account}`)).text()
  const form = /<form method="post"[\s\S]*?<\/form>/.exec(page)![0]
  const fields = Object.fromEntries(
    [...form.matchAll(/name="([^"]+)" value="([^"]*)"/g)].map(([, key, value]) => [key!, value!]),
  )
  for (const [, key] of form.matchAll(/name="(sure\.[^"]+)"/g)) fields[key!] = 'yes'
  // Reading in, too, lets other pages by, and they see nothing of it before it is through.
  const readIn = { isThrough: false }
  const reading = Promise.resolve(app.post(look, fields)).then((reply) => {
    readIn.isThrough = true
    return reply.status
  })
  const seen: number[] = []
  while (!readIn.isThrough) {
    const { waiting } = (await (await app.get('/books/statements.json')).json()) as { waiting: number }
    seen.push(waiting)
    await new Promise((resolve) => setImmediate(resolve))
  }
  expect(await reading).toBe(303)
  expect(seen.length).toBeGreaterThan(5)
  expect(new Set(seen.slice(0, -1))).toEqual(new Set([0]))
  expect(await counts(await choose())).toEqual({ new: 0, seen: movements, doubtful: 0, replaces: 0 })
})
