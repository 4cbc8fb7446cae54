// Where the rows of the desk may go: every place for transactions of an account and direction, what is likely of them, enterprises and batches.
import type { Books } from '#db/open.ts'
import { listRules } from '#db/statements/sorting-rule-store.ts'
import type { LoanBook } from '#ledger/loan-payment.ts'
import { loanBook } from '#today/loan-terms.ts'
import type { DeskGroup } from '#views/books-sorting/group.tsx'
import type { DeskRow } from '#views/books-sorting/line-facts.tsx'
import type { PlaceList } from '#views/books-sorting/places.tsx'
import type { Option } from '#views/parts/field.tsx'
import { findBatches } from '#web/forms/batch-options.ts'
import { findEnterprises } from '#web/forms/enterprise-options.ts'
import { asProposed } from './desk-choices.ts'
import {
  baseOf,
  isPaidFor,
  type TargetGround,
  targetOptions,
  targetValue,
  valueName,
} from './sorting-targets.ts'

export interface Offers {
  /** Every place; the same list for all rows of one account and direction. */
  places(row: Pick<DeskRow, 'accountId' | 'amount'>): PlaceList
  /** As it is chosen and proposed, where its payee went before, and what was chosen last on its account. */
  likely(group: DeskGroup): readonly Option[]
  /** Enterprises, and for the farm its batches under way. */
  enterprises(group: DeskGroup): readonly Option[]
  /** Whether a place is an account of the farm. */
  isForFarm(value: string): boolean
}

export const offersOf = (books: Books, ground: TargetGround): Offers => {
  const enterprises = findEnterprises(books)
  const batches = findBatches(books).map(({ value, label }) => ({
    value: `b.${value}`,
    label,
    group: 'Batches',
  }))
  const onFarm =
    batches.length === 0
      ? enterprises
      : [...enterprises.map((option) => ({ ...option, group: 'Enterprises' })), ...batches]
  const farmSides = new Set(ground.sides.flatMap(({ id, kind }) => (kind === 'farm' ? [id] : [])))
  const farmPlaces = new Set(
    ground.accounts.flatMap(({ id, sideId }) => (farmSides.has(sideId) ? [`a:${id}`] : [])),
  )
  const places = placeLists(ground, loanBook(books))
  return {
    places,
    likely: likelyOptions(books, ground, places),
    // Of the household's money only what goes to the farm has one: the row shows it beside such a place.
    enterprises: ({ rows: [row] }) => (row!.side.kind === 'venture' ? enterprises : onFarm),
    isForFarm: (value) => farmPlaces.has(baseOf(value)),
  }
}

const placeLists = (ground: TargetGround, loans: LoanBook): Offers['places'] => {
  const known = new Map<string, PlaceList>()
  return ({ accountId, amount }) => {
    const isOut = amount < 0
    const id = `places-${accountId}-${isOut ? 'out' : 'in'}`
    const own = ground.accounts.find((account) => account.id === accountId)!
    const list = known.get(id) ?? { id, options: named(targetOptions(own, isOut, ground, loans)) }
    known.set(id, list)
    return list
  }
}

/** Each name once, so that it says one place: accounts of two sides that are called the same are told apart by what they stand under. */
const named = (options: readonly Option[]): Option[] => {
  const times = new Map<string, number>()
  for (const { label } of options) times.set(label, (times.get(label) ?? 0) + 1)
  return options.map((option) =>
    times.get(option.label) === 1 ? option : { ...option, label: `${option.label} (${option.group})` },
  )
}

/** The value of the place that words name, capitals aside: as it is called, the only one of its own side that begins so, or another side's by its name in full. */
export const placeCalled = ({ options }: PlaceList, words: string): string | null => {
  const asked = words.trim().toLowerCase()
  const called = options.find(({ label }) => label.toLowerCase() === asked)
  if (called) return called.value
  const begins = (option: Option, by: string) => option.label.toLowerCase().startsWith(by)
  const own = options.filter((option) => !isPaidFor(option) && begins(option, asked))
  const beginning = own.length === 0 ? options.filter((option) => begins(option, `${asked}, `)) : own
  return asked !== '' && beginning.length === 1 ? beginning[0]!.value : null
}

/** So many of the places chosen last on an account stand first. */
const latest = 5

const likelyOptions = (books: Books, ground: TargetGround, places: Offers['places']): Offers['likely'] => {
  const last = latestPlaces(books)
  return ({ rows, to, own }) => {
    const [row] = rows as [DeskRow]
    const proposed = row.proposal
    const isOneByOne = /^[et]:/.test(proposed?.value ?? '')
    const values = new Set([
      to,
      isOneByOne ? asProposed : baseOf(proposed?.value ?? ''),
      ...[...own.values()].map(baseOf),
      ...(proposed?.places ?? []).map(baseOf),
      ...(last.get(`${row.accountId}|${row.amount < 0 ? 'out' : 'in'}`) ?? []).slice(0, latest),
    ])
    values.delete('')
    const side = ground.accounts.find(({ id }) => id === row.accountId)?.sideId
    // A place is called one name in both lists.
    const called = new Map(places(row).options.map(({ value, label }) => [value, label]))
    return [...values].map((value) => ({
      value,
      label:
        value === asProposed || value === proposed?.value
          ? (proposed?.says ?? '')
          : (called.get(value) ?? valueName(value, ground, side)),
    }))
  }
}

/** By account and direction, the last first. */
const latestPlaces = (books: Books): Map<string, string[]> => {
  const last = new Map<string, string[]>()
  for (const { onAccountId, sign, target } of listRules(books)
    .filter(({ lastUsedAt, split }) => lastUsedAt !== null && !split)
    .sort((a, b) => (a.lastUsedAt! < b.lastUsedAt! ? 1 : -1))) {
    const key = `${onAccountId}|${sign}`
    last.set(key, [...(last.get(key) ?? []), baseOf(targetValue(target))])
  }
  return last
}
