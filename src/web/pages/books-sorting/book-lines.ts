// What a sent desk asks for: to go on with the choices kept, to book the ticked lines, or to decide doubtful ones together.
import type { Sorted } from '#db/statements/sorted.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { loanBook } from '#today/loan-terms.ts'
import { actOf } from '#web/forms/act.ts'
import { moveOn, type PageContext } from '#web/forms/answer.tsx'
import { formIdField } from '#web/forms/fields.ts'
import { readForm, type TypedForm } from '#web/forms/form.ts'
import {
  type Choices,
  type DeskPlace,
  deskAddress,
  mostKept,
  placeOf,
  postedDesk,
  wholeOrNull,
} from './desk-choices.ts'
import { readTarget } from './sorting-targets.ts'

/** A desk to be shown again: by line id what is wrong, and `null` for what concerns no line. */
export interface DeskAgain {
  choices: Choices
  formId: string
  wrong: ReadonlyMap<number | null, string>
}

type ShowAgain = (c: PageContext, again: DeskAgain) => Response | Promise<Response>

export async function sendDesk(c: PageContext, showAgain: ShowAgain) {
  const typed = await readForm(c)
  const { all, changed } = postedDesk(typed)
  const formId = formIdField().safeParse(typed.value('formId'))
  const again = (wrong: DeskAgain['wrong']) =>
    showAgain(c, { choices: all, formId: formId.success ? formId.data : '', wrong })
  const goesTo = placeAsked(typed.value('go'), placeOf(c))
  if (goesTo !== null)
    return changed.size > mostKept
      ? again(new Map([[null, `Book what you chose first: more than ${mostKept} choices cannot be kept`]]))
      : c.redirect(deskAddress(goesTo.place, changed, goesTo.path), 303)
  if (!formId.success)
    return again(new Map([[null, 'This form has lost its number. Look at the transactions again']]))
  const { books } = c.var.web
  const decided = doubtfulDecided(typed)
  if (decided !== null) {
    if (decided.length === 0) return again(new Map([[null, 'Tick the doubtful transactions to decide']]))
    const outcome = sortLines(books, actOf(c, formId.data), decided)
    return outcome.ok
      ? moveOn(c, deskAddress(placeOf(c), changed), decidedSaid(outcome.result))
      : again(new Map([[null, outcome.problems[0]!.message]]))
  }
  const { sortings, wrong } = sortingsOf(all)
  if (wrong.size > 0) return again(wrong)
  const outcome = sortLines(books, actOf(c, formId.data), sortings, { loans: loanBook(books) })
  if (!outcome.ok) {
    for (const { path, message } of outcome.problems)
      wrong.set(wholeOrNull(/^lines\.(\d{1,9})$/.exec(path)?.[1]), message)
    return again(wrong)
  }
  // What was chosen and not ticked stays as it is.
  const left = new Map([...changed].filter(([, choice]) => !choice.take && choice.to !== ''))
  return moveOn(c, deskAddress({ ...placeOf(c), page: 1 }, left), sortedSaid(outcome.result, left.size))
}

const sortingsOf = (all: Choices): { sortings: Sorting[]; wrong: Map<number | null, string> } => {
  const sortings: Sorting[] = []
  const wrong = new Map<number | null, string>()
  for (const [id, { take, to }] of all) {
    if (!take) continue
    const sorting = readSorting(id, to)
    if (sorting) sortings.push(sorting)
    else wrong.set(id, 'Choose what this transaction was for, or take its tick away')
  }
  if (sortings.length === 0 && wrong.size === 0)
    wrong.set(null, 'Tick the transactions to book, and choose what each was for')
  return { sortings, wrong }
}

/** `e:5` an entry of the books, `t:9` the other half of a transfer, or a target. */
export const readSorting = (lineId: number, value: string): Sorting | null => {
  const entry = /^e:(\d{1,15})$/.exec(value)
  if (entry) return { lineId, kind: 'entry', postingId: Number.parseInt(entry[1]!, 10) }
  const transfer = /^t:(\d{1,15})$/.exec(value)
  if (transfer) return { lineId, kind: 'transfer', otherLineId: Number.parseInt(transfer[1]!, 10) }
  const target = readTarget(value)
  return target ? { lineId, kind: 'target', target } : null
}

/** `page:2`, `account:5`, `account:` for all, `line:77`. */
const placeAsked = (go: string, now: DeskPlace): { place: DeskPlace; path?: string } | null => {
  const [, kind, number] = /^(page|account|line):(\d{0,15})$/.exec(go) ?? []
  if (kind === 'page') return { place: { ...now, page: wholeOrNull(number) ?? 1 } }
  if (kind === 'account') return { place: { account: wholeOrNull(number), page: 1 } }
  return kind === 'line' && number ? { place: now, path: `/books/sorting/lines/${number}` } : null
}

export const sortedSaid = (
  { posted, matched, setAside, loanInterestCents }: Sorted,
  left: number,
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
      : ` ${left} ${left === 1 ? 'transaction is' : 'transactions are'} not ticked and stay as you chose.`
  return `Transactions sorted: ${says.join(', ')}.${rest}`
}

/** `aside.0`, `genuine.0`: doubtful lines of one reason, ticked and decided at once. */
const doubtfulDecided = (typed: TypedForm): Sorting[] | null => {
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
  setAside > 0 ? `Skipped as already in the books: ${setAside}.` : `Now waiting to be sorted: ${madeGenuine}.`
