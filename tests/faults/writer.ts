// A small process for the kill tests: does one kind of work in a loop and says on standard output what has been acknowledged.

import { day } from '#calendar/day.ts'
import { backUpTo } from '#db/backup/backup.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'

const [path, run] = process.argv.slice(2) as [string, string]
const books = openBooksOrThrow(path, { now: new Date() })
const accounts = listAccounts(books)
const account = (side: string, name: string) =>
  accounts.find((one) => one.sideId === side && one.name === name)!.id
const say = (line: string) => process.stdout.write(`${line}\n`)

say('ready')
for (let count = 0; ; count += 1) {
  const act = { formId: `${run}-${count}`, at: new Date().toISOString(), actor: 'writer' }
  if (count % 20 === 19) {
    const result = backUpTo(books, `${path}.${run}.${count}.copy`)
    if (result.ok) say(`copy ${result.path}`)
    continue
  }
  const outcome =
    count % 3 === 2
      ? postCrossing(books, act, {
          kind: 'draw',
          day: day('2026-02-01'),
          amountCents: cents(100 + count),
          fromAccountId: account('farm', 'Farm checking'),
          toAccountId: account('household', 'Savings'),
          memo: 'while the power lasts',
        })
      : postEntry(
          books,
          act,
          moneyOut(
            { id: '', sideId: 'farm', day: day('2026-02-01'), payee: 'Seed house', memo: '' },
            account('farm', 'Farm checking'),
            [{ accountId: account('farm', 'Seeds and plants'), amountCents: cents(100 + count) }],
          ),
        )
  if (!outcome.ok) throw new Error(JSON.stringify(outcome))
  say(`done ${act.formId}`)
}
