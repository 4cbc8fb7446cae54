// What is owned besides money on the first day: cost into the books, what was written off beside it, and what it is worth as a market value.
import { z } from 'zod'
import { type Day, dayName, lastDayOfYear } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { findAccount, listAccounts, listSides, systemAccount } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { saveHolding, saveMarketValues } from '#db/year-store.ts'
import { type Account, householdSide, isLasting, isMoney, type SideId } from '#ledger/account.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { holdingKinds } from '#ledger/reports/stock-inventory.ts'
import { openingEntry } from '#ledger/simple-entry.ts'
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import { dayOrNull, moneyOrNull, optionalText } from '#web/forms/fields.ts'

export const thingRow = z.object({
  name: optionalText(60),
  account: optionalText(20),
  cost: moneyOrNull(),
  bought: dayOrNull(),
  deducted: moneyOrNull(),
  worth: moneyOrNull(),
  kind: z
    .union([z.literal(''), z.enum(holdingKinds)], { error: 'Choose from the list' })
    .default('')
    .transform((kind) => (kind === '' ? null : kind)),
  loan: optionalText(20),
})
export type ThingRow = z.output<typeof thingRow>

/** What is owned for years and is no money. */
export const lastingAccounts = (books: Books): Account[] =>
  listAccounts(books).filter((account) => isLasting(account) && !isMoney(account))

/** Of each side the account that gathers depreciation. */
export const writtenOffAccounts = (books: Books): Account[] =>
  listAccounts(books).filter(({ contraKind }) => contraKind === 'depreciation')

/** Keeps all rows or says what is wrong, each at its field. Call it inside a write. */
export const keepThings = (
  books: Books,
  act: Act,
  things: readonly ThingRow[],
  first: Day,
): FieldProblem[] => {
  const faults = thingProblems(books, things, first)
  if (faults.length > 0) return faults
  const heldBefore = balancesOn(books, first)
  return [
    ...postThings(books, act, things, first),
    ...listThings(books, act, things, first),
    ...valueAccounts(books, act, things, { first, heldBefore }),
  ]
}

const isBlank = ({ name, account, cost, bought, deducted, worth, kind, loan }: ThingRow): boolean =>
  [name, account, loan].every((text) => text === '') &&
  [cost, bought, deducted, worth, kind].every((one) => one === null)

const sideOf = (books: Books, { account }: ThingRow): SideId | undefined =>
  findAccount(books, Number.parseInt(account, 10))?.sideId

/** Where nobody knows what a thing cost, the books hold what it is worth, and say so. */
const bookedAt = ({ cost, worth }: ThingRow): Cents => cost ?? worth ?? zeroCents

/** `null` for a row in which something could not be read: it is said elsewhere. */
export const thingProblems = (
  books: Books,
  things: readonly (ThingRow | null)[],
  first: Day,
): FieldProblem[] => {
  const known = new Set(lastingAccounts(books).map((account) => String(account.id)))
  return things.flatMap((row, index) =>
    row === null || isBlank(row)
      ? []
      : [
          ...(row.name === '' ? [{ path: 'name', message: 'Say what it is, like tractor' }] : []),
          ...(known.has(row.account)
            ? []
            : [{ path: 'account', message: 'Choose what kind of thing it is' }]),
          ...costProblems(row),
          ...sideProblems(books, row),
          ...returnProblems(row, first),
          ...(row.bought !== null && row.bought > first
            ? [
                {
                  path: 'bought',
                  message: `The books begin on ${dayName(first)}: enter what was bought after it on its day, under Books`,
                },
              ]
            : []),
        ].map(({ path, message }) => ({ path: `things.${index}.${path}`, message })),
  )
}

const costProblems = (row: ThingRow): FieldProblem[] => {
  const { cost, worth, deducted, kind } = row
  if (kind !== null && cost === null)
    return [
      {
        path: 'cost',
        message: 'Enter what it cost: that is written off, not what it is worth. 0 for what was raised here',
      },
    ]
  const below = (['cost', 'worth'] as const).filter((path) => (row[path] ?? 0) < 0)
  if (below.length > 0) return below.map((path) => ({ path, message: 'Enter 0 or more' }))
  if (bookedAt(row) <= 0 && (worth ?? 0) <= 0)
    return [{ path: 'cost', message: 'Enter what it cost, or what it is worth, above zero' }]
  return deducted !== null && (deducted < 0 || deducted > (cost ?? 0))
    ? [{ path: 'deducted', message: 'Enter no more than it cost' }]
    : []
}

/** The last return filed before the books begin: that of their first year where they begin on its last day. */
const lastReturnBefore = (first: Day): number =>
  yearIn(first) - (first === lastDayOfYear(yearIn(first)) ? 0 : 1)

/** What is listed goes on from what returns deducted, so its years must be known. */
const returnProblems = ({ kind, deducted, bought }: ThingRow, first: Day): FieldProblem[] => {
  if (kind === null || !deducted) return []
  if (bought === null)
    return [
      { path: 'bought', message: 'Enter the day, or a near one: what returns wrote off goes on from it' },
    ]
  return yearIn(bought) > lastReturnBefore(first)
    ? [
        {
          path: 'deducted',
          message: `Leave this empty: no return was filed yet for what was bought in ${yearIn(bought)}`,
        },
      ]
    : []
}

const sideProblems = (books: Books, row: ThingRow): FieldProblem[] => {
  const sideId = sideOf(books, row)
  const isHome = sideId === householdSide
  const gathers = writtenOffAccounts(books).some((account) => account.sideId === sideId)
  return [
    ...(row.kind !== null && isHome
      ? [{ path: 'kind', message: 'The household’s things are not written off: leave this empty' }]
      : []),
    ...(row.deducted && isHome
      ? [{ path: 'deducted', message: 'The household’s things are not written off: leave this empty' }]
      : []),
    ...(row.deducted && !isHome && !gathers
      ? [
          {
            path: 'deducted',
            message: 'No account of these books gathers depreciation: add one under Settings, Accounts',
          },
        ]
      : []),
  ]
}

/** One opening entry a side; day, and the loan that paid for it, stand with each line. */
function postThings(books: Books, act: Act, things: readonly ThingRow[], first: Day): FieldProblem[] {
  for (const side of listSides(books)) {
    const contra = writtenOffAccounts(books).find(({ sideId }) => sideId === side.id)
    const balances = things.flatMap((row) => {
      const account = isBlank(row) ? undefined : findAccount(books, Number.parseInt(row.account, 10))
      if (account?.sideId !== side.id) return []
      const taken = { balanceCents: cents(-(row.deducted ?? 0)), memo: `Depreciation taken on ${row.name}` }
      return [
        { account, balanceCents: bookedAt(row), memo: memoOf(books, row) },
        ...(contra && row.deducted ? [{ account: contra, ...taken }] : []),
      ]
    })
    const head = {
      id: `${act.formId}.${side.id}`,
      sideId: side.id,
      day: first,
      payee: '',
      memo: 'Opening balances: what is owned',
    }
    const draft = openingEntry(head, systemAccount(books, side.id, 'opening_balances').id, balances)
    if (!draft) continue
    const posted = postEntry(books, { ...act, formId: head.id }, draft)
    if (!posted.ok) return posted.problems.map(({ message }) => ({ path: '', message }))
  }
  return []
}

const memoOf = (books: Books, row: ThingRow): string => {
  const loan = /^\d+$/.test(row.loan) ? findAccount(books, Number.parseInt(row.loan, 10)) : undefined
  return [
    row.name,
    row.bought ? `bought ${row.bought}` : '',
    row.cost === null ? 'at what it is worth, its cost not known' : '',
    loan ? `paid for by ${loan.name}` : '',
  ]
    .filter(Boolean)
    .join(', ')
}

/** Things of farm and ventures stand on the inventory too; how each is written off, the year's papers ask for. */
function listThings(books: Books, act: Act, things: readonly ThingRow[], first: Day): FieldProblem[] {
  return things.flatMap((row, index) => {
    const sideId = sideOf(books, row)
    if (isBlank(row) || row.kind === null || sideId === undefined) return []
    const formId = `${act.formId}.thing.${index}`
    const saved = saveHolding(books, { ...act, formId }, sideId, {
      name: row.name,
      kind: row.kind,
      quantity: 1,
      unit: '',
      raised: row.cost === 0,
      costCents: row.cost ?? zeroCents,
      acquiredDay: row.bought ?? first,
      inServiceDay: null,
      accountId: Number.parseInt(row.account, 10),
      depreciation: null,
      ...(row.deducted
        ? { writtenOffBefore: { amountCents: row.deducted, through: lastReturnBefore(first) } }
        : {}),
      marketValueCents: row.worth,
      ...(row.worth === null ? {} : { valuedDay: first }),
    })
    return saved.ok ? [] : saved.problems.map(({ message }) => ({ path: `things.${index}.name`, message }))
  })
}

/** What is on no inventory is valued by its account, with all else that the account holds at what it stands there for. */
function valueAccounts(
  books: Books,
  act: Act,
  things: readonly ThingRow[],
  { first, heldBefore }: { first: Day; heldBefore: ReadonlyMap<number, Cents> },
): FieldProblem[] {
  const told = things.filter((row) => !isBlank(row) && row.kind === null)
  const valued = told.filter(({ cost, worth }) => cost !== null && worth !== null && cost !== worth)
  const ids = [...new Set(valued.map(({ account }) => Number.parseInt(account, 10)))]
  if (ids.length === 0) return []
  const values = ids.map((accountId) => {
    const own = things.filter((row) => !isBlank(row) && row.account === String(accountId))
    const worths = own.map((row) => row.worth ?? bookedAt(row))
    return { accountId, amountCents: sumCents([heldBefore.get(accountId) ?? zeroCents, ...worths]) }
  })
  const saved = saveMarketValues(books, { ...act, formId: `${act.formId}.worth` }, first, values)
  return saved.ok ? [] : saved.problems.map(({ message }) => ({ path: '', message }))
}
