// A small process for the disk tests: posts until the disk says no, then says which problem a person would be shown.
import { day } from '#calendar/day.ts'
import { backUpTo } from '#db/backup/backup.ts'
import { fileProblem } from '#db/file-problem.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { openBooks } from '#db/open.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'

const [path, most] = process.argv.slice(2) as [string, string]
const say = (line: string) => process.stdout.write(`${line}\n`)
const opened = openBooks(path, { now: new Date() })
if (opened.ok) post(opened.books)
else say(`refused ${opened.problem.kind} ${opened.problem.message}`)

function post(books: Extract<typeof opened, { ok: true }>['books']): void {
  const account = (name: string) =>
    listAccounts(books).find((one) => one.sideId === 'farm' && one.name === name)!.id
  try {
    for (let count = 0; count < Number.parseInt(most, 10); count += 1) {
      const head = {
        id: '',
        sideId: 'farm',
        day: day('2026-02-01'),
        payee: 'Seed house',
        memo: 'x'.repeat(400),
      }
      const done = postEntry(
        books,
        { formId: `full-${count}`, at: new Date().toISOString(), actor: 'writer' },
        moneyOut(head, account('Farm checking'), [
          { accountId: account('Supplies'), amountCents: cents(1 + count) },
        ]),
      )
      if (!done.ok) throw new Error(JSON.stringify(done.problems))
      say(`done full-${count}`)
    }
    say('never failed')
  } catch (error) {
    const problem = fileProblem(error, path)
    if (!problem) throw error
    say(`failed ${problem.kind} ${problem.message}`)
    const backup = backUpTo(books, `${path}.copy`)
    say(`backup ${backup.ok ? 'made' : backup.problem.kind}`)
  }
  books.close()
}
