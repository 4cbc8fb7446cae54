// Whose pay it is: where two sign the return each has an account of pay, made when the first pay slip is booked to it.
import { addAccount, listAccounts } from '#db/ledger/account-store.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import type { Sorting } from '#db/statements/sorting-store.ts'
import { type Account, householdSide } from '#ledger/account.ts'
import { type Refusal, refuse } from '#ledger/problem.ts'
import { currentPlan } from '#today/current-plan.ts'
import type { Option } from '#views/parts/field.tsx'

/** Adults of the plan, and which of them it knows to earn wages. */
export type Adults = readonly { id: string; name: string; earns: boolean }[]

export const isPay = ({ kind, purpose }: Account): boolean => kind === 'income' && purpose === 'pay'

/** Empty unless there are two: of one it is clear whose pay it is. */
export const peopleOfPlan = (books: Books): Adults => {
  const current = currentPlan(books)
  if (current.status !== 'read' || current.plan.household.people.length < 2) return []
  const { people, pay } = current.plan.household
  return people.map(({ id, name }) => ({
    id,
    name,
    earns: pay.some((line) => line.person === id && line.kind === 'wages'),
  }))
}

/** Pay that names nobody, of a household of two. */
export const isWhose = (account: Account, people: Adults): boolean =>
  people.length > 1 && isPay(account) && account.personId === null

/** Pay of each goes first, with an account or before there is one. */
export const payPlacesOf = (gross: readonly Account[], people: Adults): Option[] => {
  const firsts = people.map((person) => ({ person, account: gross.find((one) => isPayOf(one, person.id)) }))
  const taken = new Set(firsts.map(({ account }) => account?.id))
  const nameless = (account: Account) =>
    isWhose(account, people) ? `${account.name}, whose is not said` : account.name
  return [
    ...firsts.map(({ person, account }) => ({
      value: account ? String(account.id) : `${ofPerson}${person.id}`,
      label: account ? labelOf(account, person.name) : payName(person.name),
    })),
    ...gross
      .filter(({ id }) => !taken.has(id))
      .map((account) => ({ value: String(account.id), label: nameless(account) })),
  ]
}

const labelOf = ({ name }: Account, person: string): string =>
  name.includes(person) ? name : `${name}, ${person}`

/** Where the plan has wages of one alone, these. */
export const soleEarner = (places: readonly Option[], people: Adults): string => {
  const earners = people.filter(({ earns }) => earns)
  return earners.length === 1 ? places[people.indexOf(earners[0]!)]!.value : ''
}

const ofPerson = 'of:'

/** `of:ada`, for an account that is made with the booking. */
export const personIn = (value: string): string | null =>
  value.startsWith(ofPerson) ? value.slice(ofPerson.length) : null

/** Stands for the account of pay until it is known. */
export const toBeMade = 0

const isPayOf = (account: Account, person: string): boolean => isPay(account) && account.personId === person

const payName = (person: string): string => `Pay of ${person}`

/** The sortings with the account of pay that was chosen, made where it is missing. Call it inside a write. */
export const withPayOf = (
  books: Books,
  act: Act,
  chosen: string,
  sortings: readonly Sorting[],
): { ok: true; result: Sorting[] } | Refusal => {
  const id = personIn(chosen)
  if (id === null) return { ok: true, result: [...sortings] }
  const person = peopleOfPlan(books).find((one) => one.id === id)
  if (!person) return refuse({ path: 'pay', message: 'Choose whose pay it is from the list' })
  const found = listAccounts(books, { sideId: householdSide }).find((one) => isPayOf(one, id))
  if (found) return { ok: true, result: sortings.map((one) => onAccount(one, found.id)) }
  const made = addAccount(
    books,
    { ...act, formId: `${act.formId}.pay` },
    { sideId: householdSide, name: payName(person.name), kind: 'income', purpose: 'pay', personId: id },
  )
  return made.ok
    ? { ok: true, result: sortings.map((one) => onAccount(one, made.result.accountId)) }
    : refuse(...made.problems.map(({ message }) => ({ path: 'pay', message })))
}

const onAccount = (sorting: Sorting, accountId: number): Sorting => {
  if (sorting.kind !== 'split') return sorting
  const put = <Part extends { accountId: number }>(parts: readonly Part[]): Part[] =>
    parts.map((part) => (part.accountId === toBeMade ? { ...part, accountId } : part))
  return {
    ...sorting,
    parts: put(sorting.parts),
    ...(sorting.keep ? { keep: put(sorting.keep) } : {}),
  }
}
