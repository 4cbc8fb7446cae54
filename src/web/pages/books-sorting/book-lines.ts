// What a sent desk asks for: to look elsewhere with the choices kept, to book the ticked lines, to skip a row, or to decide doubtful ones.
import { listAccounts } from '#db/ledger/account-store.ts'
import { wasCarriedOut } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { keepLineChoices, type LineChoice, listLineChoices } from '#db/statements/line-choices.ts'
import { lineSaid, storedLine } from '#db/statements/replaced-lines.ts'
import type { Sorted } from '#db/statements/sorted.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { householdSide } from '#ledger/account.ts'
import { asksToReopen, reopenFirst } from '#ledger/problem.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { loanBook } from '#today/loan-terms.ts'
import { linesId } from '#views/books-sorting/group.tsx'
import { actOf } from '#web/forms/act.ts'
import { moveOn, type PageContext } from '#web/forms/answer.tsx'
import { formIdField } from '#web/forms/fields.ts'
import { readForm, type TypedForm } from '#web/forms/form.ts'
import { undoable } from '#web/server/undo.ts'
import {
  asProposed,
  type Choices,
  type DeskPlace,
  deskAddress,
  leftOut,
  type PostedDesk,
  placeOf,
  postedDesk,
  shownKinds,
  wholeOrNull,
} from './desk-choices.ts'
import { placeCalled } from './desk-places.ts'
import { readDesk } from './desk-read.ts'
import { withLearned } from './learned.ts'
import { noPayAsked, type PayAsked, payUnsaid } from './net-pay.ts'
import { readTarget } from './sorting-targets.ts'

/** A desk to be shown again: by line id what is wrong, and `null` for what concerns no line. */
export interface DeskAgain {
  chosen: Choices
  formId: string
  wrong: ReadonlyMap<number | null, string>
  /** Words typed for a place that none is called by. */
  unnamed: PostedDesk['unnamed']
}

type ShowAgain = (c: PageContext, again: DeskAgain) => Response | Promise<Response>

export async function sendDesk(c: PageContext, showAgain: ShowAgain) {
  const { books, clock } = c.var.web
  const typed = await readForm(c)
  const sent = sentDesk(books, typed)
  const formId = formIdField().safeParse(typed.value('formId'))
  const again = (wrong: DeskAgain['wrong']) =>
    showAgain(c, {
      chosen: sent.all,
      formId: formId.success ? formId.data : '',
      wrong,
      unnamed: sent.unnamed,
    })
  if (sent.unnamed.length > 0)
    return again(new Map(sent.unnamed.map(({ lineId, words }) => [lineId, noPlace(words)])))
  const keep = () => keepLineChoices(books, clock.now().toISOString(), sent.changed)
  const goesTo = placeAsked(typed, placeOf(c))
  if (goesTo !== null) {
    keep()
    const at = goesTo.at === undefined ? '' : `#${goesTo.at}`
    return c.redirect(`${deskAddress(goesTo.place, goesTo.path)}${at}`, 303)
  }
  if (!formId.success)
    return again(new Map([[null, 'This form has lost its number. Look at the transactions again']]))
  const decided = decidedOn(typed, sent)
  if (decided !== null) {
    if (decided.length === 0) return again(new Map([[null, 'Check the doubtful transactions to decide']]))
    const outcome = sortLines(books, actOf(c, formId.data), decided)
    if (!outcome.ok) return again(new Map([[null, outcome.problems[0]!.message]]))
    keep()
    return moveOn(c, deskAddress(placeOf(c)), undoable(c, decidedSaid(outcome.result)))
  }
  return bookTicked(c, { formId: formId.data, typed, sent, again })
}

/** What was sent, with typed words read as the places they name. */
export const sentDesk = (books: Books, typed: TypedForm): PostedDesk => {
  const sides = new Map(listAccounts(books).map(({ id, sideId }) => [`a:${id}`, sideId]))
  return postedDesk(typed, {
    placeNamed(lineId, words) {
      const { rows, offers } = readDesk(books)
      const row = rows.find(({ id }) => id === lineId)
      return row ? placeCalled(offers.places(row), words) : ''
    },
    takesEnterprise: (place) => (sides.get(place) ?? householdSide) !== householdSide,
  })
}

const noPlace = (words: string): string =>
  `No place is called “${words.trim()}”, and none alone begins so. Choose one that the list shows while you type`

interface SentDesk {
  formId: string
  typed: TypedForm
  sent: PostedDesk
  again: (wrong: DeskAgain['wrong']) => Response | Promise<Response>
}

function bookTicked(c: PageContext, { formId, typed, sent, again }: SentDesk) {
  const { books, clock } = c.var.web
  const chosen = new Map([...listLineChoices(books), ...sent.all])
  const { sortings, wrong } = sortingsOf(chosen, proposedNow(c, chosen))
  if (wrong.size > 0) return again(wrong)
  // Without those asked about the others are booked, and the form sent again is the same booking.
  const isOthers = typed.value('others') === 'yes'
  const asked =
    !isOthers && wasCarriedOut(books, formId) ? noPayAsked : payUnsaid(books, sortings, sent, typed)
  const pay = asked.wrong
  const toBook = isOthers ? sortings.filter(({ lineId }) => !pay.has(lineId)) : sortings
  if (pay.size > 0 && (!isOthers || toBook.length === 0)) return again(pay)
  const outcome = sortLines(books, actOf(c, formId), toBook, { loans: loanBook(books) })
  if (!outcome.ok) {
    for (const { path, message } of outcome.problems)
      wrong.set(wholeOrNull(/^lines\.(\d{1,9})$/.exec(path)?.[1]), message)
    return again(withClosedNamed(books, withGoneNamed(books, wrong)))
  }
  // What was chosen and not ticked stays as it is.
  const left = new Map([...sent.changed].filter(([id]) => pay.has(id) || !chosen.get(id)?.take))
  keepLineChoices(books, clock.now().toISOString(), left)
  const unticked = [...left].filter(
    ([id, choice]) => !pay.has(id) && choice !== null && choice.to !== '' && choice.to !== leftOut,
  ).length
  const address = deskAddress({ ...placeOf(c), page: 1, open: null, from: 0 })
  return moveOn(
    c,
    withLearned(address, outcome.result, formId),
    undoable(c, sortedSaid(outcome.result, unticked, asked)),
  )
}

const mostNamed = 5

/** What is dated in a closed month is named on top, once for all: the same sentence at each row would say no more. */
const withClosedNamed = (books: Books, wrong: DeskAgain['wrong']): DeskAgain['wrong'] => {
  const closed = [...wrong].flatMap(([id, message]) =>
    id !== null && asksToReopen(message) ? [{ id, closed: message.split('. ')[0]! }] : [],
  )
  if (closed.length === 0) return wrong
  const isClosed = new Set(closed.map(({ id }) => id))
  const says = [...new Set(closed.map((one) => one.closed))].map((text) => {
    const ids = closed.filter((one) => one.closed === text).map(({ id }) => id)
    return `${text}: ${namedLines(books, ids)}. Uncheck ${ids.length === 1 ? 'it' : 'them'}, or ${reopenFirst}`
  })
  const top = [...(wrong.has(null) ? [wrong.get(null)!] : []), ...says].join('. ')
  return new Map([[null, top], ...[...wrong].filter(([id]) => id !== null && !isClosed.has(id))])
}

const namedLines = (books: Books, ids: readonly number[]): string => {
  const lines = ids.flatMap((id) => storedLine(books, id) ?? [])
  const more = lines.length > mostNamed ? `; and ${lines.length - mostNamed} more` : ''
  return `${lines.slice(0, mostNamed).map(lineSaid).join('; ')}${more}`
}

/** What waits no more has no row to stand at: it is named on top, and the page shown again goes without it. */
const withGoneNamed = (
  books: Books,
  wrong: ReadonlyMap<number | null, string>,
): ReadonlyMap<number | null, string> => {
  const waits = new Set(readDesk(books).rows.map(({ id }) => id))
  const gone = [...wrong.keys()].flatMap((id) =>
    id !== null && !waits.has(id) && storedLine(books, id) ? [id] : [],
  )
  if (gone.length === 0) return wrong
  const [were, are] = gone.length === 1 ? ['One was', 'It is'] : [`${gone.length} were`, 'They are']
  const says = `${were} sorted meanwhile on another device: ${namedLines(books, gone)}. ${are} left out now; the others stand as you checked them`
  return new Map([[null, says], ...[...wrong].filter(([id]) => id !== null && waits.has(id))])
}

/** What is proposed at this moment, for rows that go as proposed. */
const proposedNow = (c: PageContext, chosen: Choices): ReadonlyMap<number, string> => {
  const isAsked = [...chosen.values()].some(({ to }) => to === asProposed)
  if (!isAsked) return new Map()
  return new Map(
    readDesk(c.var.web.books).rows.flatMap(({ id, proposal }) =>
      proposal ? [[id, proposal.value] as const] : [],
    ),
  )
}

const sortingsOf = (
  all: ReadonlyMap<number, LineChoice>,
  proposed: ReadonlyMap<number, string>,
): { sortings: Sorting[]; wrong: Map<number | null, string> } => {
  const sortings: Sorting[] = []
  const wrong = new Map<number | null, string>()
  for (const [id, { take, to }] of all) {
    if (!take) continue
    const sorting = readSorting(id, to === asProposed ? (proposed.get(id) ?? '') : to)
    if (sorting) sortings.push(sorting)
    else wrong.set(id, 'Choose what this transaction was for, or uncheck it')
  }
  if (sortings.length === 0 && wrong.size === 0)
    wrong.set(null, 'Check the transactions to book, and choose what each was for')
  return { sortings, wrong }
}

/** `e:5` an entry of the books, `t:9` the other half of a transfer, `s:ID` as a rule splits it, `a:5:b.ID` an account and a batch, or a target. */
export const readSorting = (lineId: number, value: string): Sorting | null => {
  const entry = /^e:(\d{1,15})$/.exec(value)
  if (entry) return { lineId, kind: 'entry', postingId: Number.parseInt(entry[1]!, 10) }
  const transfer = /^t:(\d{1,15})$/.exec(value)
  if (transfer) return { lineId, kind: 'transfer', otherLineId: Number.parseInt(transfer[1]!, 10) }
  const split = /^s:([\w.-]{1,100})$/.exec(value)
  if (split) return { lineId, kind: 'rule', ruleId: split[1]! }
  const [, account, batchId] = /^(a:\d{1,15}):b\.([\w.-]{1,100})$/.exec(value) ?? []
  const target = readTarget(account ?? value)
  if (target && batchId !== undefined) return { lineId, kind: 'target', target, batchId }
  return target ? { lineId, kind: 'target', target } : null
}

/** `page:2`, `open:77`, `open:77.20`, `line:77`, `find`: what is looked for goes along. */
const placeAsked = (
  typed: TypedForm,
  now: DeskPlace,
): { place: DeskPlace; path?: string; at?: string } | null => {
  const [, kind, number, from] =
    /^(page|open|line|find)(?::(\d{0,15})(?:\.(\d{1,4}))?)?$/.exec(typed.value('go')) ?? []
  if (kind === 'page') return { place: { ...now, page: wholeOrNull(number) ?? 1 } }
  if (kind === 'open') {
    const open = wholeOrNull(number)
    return { place: { ...now, open, from: wholeOrNull(from) ?? 0 }, at: linesId(open ?? 0) }
  }
  if (kind === 'find')
    return {
      place: {
        account: wholeOrNull(typed.value('account')),
        page: 1,
        find: typed.value('find').trim().slice(0, 60),
        show: shownKinds.find((one) => one === typed.value('show')) ?? 'all',
        open: null,
        from: 0,
      },
    }
  return kind === 'line' && number ? { place: now, path: `/books/sorting/lines/${number}` } : null
}

export const sortedSaid = (
  { posted, matched, setAside, loanInterestCents }: Sorted,
  left: number,
  { wrong, payees }: PayAsked = noPayAsked,
): string => {
  const says = [
    posted > 0 ? `${posted} booked` : '',
    matched > 0 ? `${matched} matched to what the books had` : '',
    setAside > 0 ? `${setAside} skipped` : '',
    loanInterestCents > 0
      ? `${formatCents(cents(loanInterestCents))} of loan payments is interest by the loans’ terms`
      : '',
  ].filter(Boolean)
  const rest =
    left === 0
      ? ''
      : ` ${left} ${left === 1 ? 'transaction is' : 'transactions are'} not checked and ${left === 1 ? 'stays' : 'stay'} as you chose.`
  const ofPay =
    wrong.size === 0
      ? ''
      : ` ${wrong.size} ${wrong.size === 1 ? 'deposit stays' : 'deposits stay'} checked: ${payees.join(', ')}. Say at ${payees.length === 1 ? 'its row' : 'their rows'} whether tax was withheld, and book ${wrong.size === 1 ? 'it' : 'them'} then.`
  return `Transactions sorted: ${says.join(', ')}.${rest}${ofPay}`
}

/** `aside.0`, `genuine.0`: doubtful lines of one reason, ticked and decided at once. `skip` is a row by its first line. */
const decidedOn = (typed: TypedForm, sent: PostedDesk): Sorting[] | null => {
  const skipped = sent.rows.get(wholeOrNull(typed.value('skip')) ?? -1)
  if (skipped) return skipped.kept.map((lineId) => ({ lineId, kind: 'ignore', note: '' }))
  const [, how, group] = /^(aside|genuine)\.(\d{1,3})$/.exec(typed.value('decide')) ?? []
  if (how === undefined) return null
  return typed
    .values(`doubtful.${group}[]`)
    .filter((id) => /^\d{1,15}$/.test(id))
    .map((id) => {
      const lineId = Number.parseInt(id, 10)
      return how === 'genuine' ? { lineId, kind: 'genuine' } : { lineId, kind: 'ignore', note: '' }
    })
}

const decidedSaid = ({ setAside, madeGenuine }: Sorted): string =>
  setAside > 0 ? `Skipped: ${setAside}. They book nothing.` : `Now waiting to be sorted: ${madeGenuine}.`
