// A small process for the kill test: reads in overlapping statements and sorts their lines, and says what has been acknowledged.
import { addDays, day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import type { StatementLine } from '#ledger/statements/statement.ts'
import { cents } from '#money/cents.ts'

const [path, run] = process.argv.slice(2) as [string, string]
const books = openBooksOrThrow(path, { now: new Date() })
const accounts = listAccounts(books)
const account = (side: string, name: string) =>
  accounts.find((one) => one.sideId === side && one.name === name)!.id
const checking = account('farm', 'Farm checking')
const feed = account('farm', 'Feed')
const home = account('household', 'Household checking')
const say = (line: string) => process.stdout.write(`${line}\n`)

/** Line n of the account's endless statement: the same whichever file it comes in. */
const lineOf = (n: number): StatementLine => ({
  fileLine: n + 1,
  bankNumber: `N${n}`,
  day: addDays(day('2025-01-01'), Math.floor(n / 9)),
  amount: cents(-100 - (n % 700)),
  payee: n % 5 === 0 ? 'Draw for the house' : 'Hollow Feed',
  memo: '',
  checkNumber: '',
})

let done = (books.sqlite.prepare('SELECT count(*) FROM statements').pluck().get() as number) * 20

say('ready')
for (let count = 0; ; count += 1) {
  const act = { formId: `${run}-${count}`, at: new Date().toISOString(), actor: 'writer' }
  if (count % 2 === 0) {
    const lines = Array.from({ length: 40 }, (_, index) => lineOf(done + index))
    const outcome = importStatement(
      books,
      act,
      checking,
      {
        format: 'ofx',
        fileName: 'a.ofx',
        contentHash: act.formId,
        statement: { bankAccount: '', kind: 'bank', currency: 'USD', closing: null, lines, remarks: [] },
        mappingId: null,
      },
      day('2200-01-01'),
    )
    if (!outcome.ok) throw new Error(JSON.stringify(outcome))
    done += 20
    say(`read ${act.formId}`)
    continue
  }
  const choices = sortingDesk(books)
    .lines.slice(0, 15)
    .map(
      ({ line }): Sorting => ({
        lineId: line.id,
        kind: 'target',
        target: line.payee.startsWith('Draw')
          ? { kind: 'crossing', crossingKind: 'draw', otherAccountId: home }
          : { kind: 'account', accountId: feed, enterpriseId: null },
      }),
    )
  const outcome = sortLines(books, act, choices)
  if (!outcome.ok) throw new Error(JSON.stringify(outcome))
  say(`sorted ${act.formId} ${choices.length}`)
}
