import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify.ts'
import { balancesOn } from '#db/balances.ts'
import { listAccounts } from '#db/account-store.ts'
import { sortingDesk } from '#db/sorting-desk.ts'
import { buildSample } from './build-sample.ts'
const t0=performance.now()
const books = openBooksOrThrow('/tmp/sample-try.sqlite', { now: new Date() })
const t1=performance.now()
buildSample(books)
console.log('open', t1-t0, 'build', performance.now()-t1)
console.log(verifyBooks(books.sqlite).findings)
const b=balancesOn(books)
for (const a of listAccounts(books)) if (b.get(a.id)) console.log(a.sideId.padEnd(14), String(a.number), a.name.padEnd(34), (b.get(a.id)!/100).toFixed(2).padStart(12))
const d=sortingDesk(books); console.log(d.waiting, d.doubtful, d.lines.map(l=>[l.line.day,l.line.payee,l.line.amount,l.proposal?.kind].join(' ')))
console.table(books.sqlite.prepare("select kind, count(*), sum(amount_cents)/100 from crossings group by 1").all())
console.table(books.sqlite.prepare("select a.name, s.file_name, s.line_count, s.new_line_count from statements s join accounts a on a.id=s.account_id").all())
