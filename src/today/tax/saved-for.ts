// What was put into retirement and health savings for a year by the books, and what of it the year's return takes off.
import type { Day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { savingMoves } from '#db/tax/saving-moves.ts'
import { type SavingMove, savingReadingsOf } from '#ledger/tax/saving-move.ts'
import { centsToDollars } from '#money/cents.ts'
import { formatDollarsAndCents } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { type Account, isOwnPlan } from '#plan/savings-plan.ts'
import {
  type ContributionFault,
  contributionFaults,
  deductibleTraditionalIra,
  roomsByPerson,
} from '#rules/contribution-check.ts'
import type { Indexing } from '#rules/dated.ts'
import type { HouseholdYear } from '#rules/household-year.ts'
import type { LawYear } from '#rules/law-year.ts'
import { type OwnPlanKind, ownPlanKinds } from '#rules/own-plan-limits.ts'
import { keptUntilChange } from '#today/kept.ts'
import { limitDeferrals } from './earners.ts'

/** What one person put in, dollars. */
type PutByOne = Record<'ira' | 'roth' | OwnPlanKind, number>

/** Dollars. */
export interface SavedFor {
  /** By the id of the plan's person. */
  by: ReadonlyMap<string, PutByOne>
  hsa: number
  /** Taken off pay for a plan at work, of both kinds: on no line. */
  atWork: number
  /** Ids of the plan's people who put money into a plan of their own business, or are in one at work. */
  covered: readonly string[]
  /** Put in where two years fit, and counted for this one. */
  undecided: number
}

/** The same of all together, by where it goes on the return. */
export interface SavedSums extends Omit<SavedFor, 'by'> {
  traditionalIra: number
  rothIra: number
  own: Record<OwnPlanKind, number>
}

export const savedSums = ({ by, ...saved }: SavedFor): SavedSums => {
  const all = (kind: keyof PutByOne) => [...by.values()].reduce((sum, put) => sum + put[kind], 0)
  return {
    ...saved,
    traditionalIra: all('ira'),
    rothIra: all('roth'),
    own: { sep: all('sep'), simple: all('simple'), solo401k: all('solo401k') },
  }
}

export const nothingSaved: SavedFor = {
  by: new Map(),
  hsa: 0,
  atWork: 0,
  covered: [],
  undecided: 0,
}

export const movesOfSavings = (books: Books): readonly SavingMove[] =>
  keptUntilChange(books, 'contributions', () => savingMoves(books))

export const savedFor = (books: Books, plan: Plan | null, year: number): SavedFor => {
  const saved: SavedFor = { ...nothingSaved }
  const by = new Map<string, PutByOne>()
  const covered = new Set<string>()
  for (const { kind, owner, dollars, isUndecided } of putInFor(books, plan, year)) {
    if (isUndecided) saved.undecided += dollars
    if (kind === 'workPlan' || isOwnPlan(kind)) covered.add(owner)
    // What was put off into a plan at work is in no wages (`pay-before-tax.ts`).
    if (kind === 'workPlan') {
      saved.atWork += dollars
      continue
    }
    if (kind === 'hsa') saved.hsa += dollars
    else by.set(owner, added(by.get(owner), kind, dollars))
  }
  return { ...saved, by, covered: [...covered] }
}

const nothingByOne: PutByOne = { ira: 0, roth: 0, sep: 0, simple: 0, solo401k: 0 }

const added = (before: PutByOne = nothingByOne, kind: keyof PutByOne, dollars: number): PutByOne => ({
  ...before,
  [kind]: before[kind] + dollars,
})

interface PutIn {
  day: Day
  kind: SavedKind
  owner: string
  dollars: number
  /** Two years fit, and nobody has said which. */
  isUndecided: boolean
}

/** Contributions that count for a year, each with whose and what kind. */
const putInFor = (books: Books, plan: Plan | null, year: number): PutIn[] =>
  movesOfSavings(books).flatMap((move) => {
    const [reading, ...more] = savingReadingsOf(move)
    if (reading.use !== 'contribution' || reading.taxYear !== year) return []
    return [
      {
        day: move.day,
        kind: kindOf(move, plan),
        owner: ownerOf(move, plan),
        dollars: centsToDollars(move.amountCents),
        isUndecided: more.length > 0,
      },
    ]
  })

type PutInSoFar = Plan['household']['people'][number]['putInSoFar']

export const nothingPutIn: PutInSoFar = { traditional: 0, roth: 0, ownPlan: 0, health: 0 }

/** What was put in for `year` from one day to the eve of another, by person of the plan; deferrals at work stand in no wages. */
export const putInBetween = (
  books: Books,
  plan: Plan,
  year: number,
  from: Day,
  until: Day,
): Map<string, PutInSoFar> => {
  const byPerson = new Map<string, PutInSoFar>()
  for (const { day, kind, owner, dollars } of putInFor(books, plan, year)) {
    if (day < from || day >= until || kind === 'workPlan') continue
    const name =
      kind === 'hsa' ? 'health' : kind === 'roth' ? 'roth' : kind === 'ira' ? 'traditional' : 'ownPlan'
    const sum = byPerson.get(owner) ?? nothingPutIn
    byPerson.set(owner, { ...sum, [name]: sum[name] + dollars })
  }
  return byPerson
}

type SavedKind = Exclude<Account['heldAs'], 'ira'> | 'ira' | 'roth' | 'hsa'

/** By the plan's account of the same name, or of that person's one such kind, else by words in the name, else an IRA. */
const kindOf = (move: SavingMove, plan: Plan | null): SavedKind => {
  if (move.savingsKind === 'health') return 'hsa'
  const heldAs = heldAsOf(move, plan)
  if (move.savingsKind === 'roth') return heldAs === 'workPlan' ? 'workPlan' : 'roth'
  return heldAs
}

const heldAsOf = (move: SavingMove, plan: Plan | null): Account['heldAs'] => {
  if (move.isKeptFromPay) return 'workPlan'
  const named = namedIn(plan, move)
  if (named) return named.heldAs
  if (/\bsep\b/i.test(move.account)) return 'sep'
  if (/\bsimple\b/i.test(move.account)) return 'simple'
  if (/\bsolo\b|\bindividual 4/i.test(move.account)) return 'solo401k'
  if (/\b40[13]\s?\(?[bk]\b|\b457\b/i.test(move.account)) return 'workPlan'
  const theirs = new Set(
    plan?.savings.accounts
      .filter(
        ({ kind, owner, inherited }) =>
          kind === move.savingsKind && inherited === undefined && owner === ownerOf(move, plan),
      )
      .map(({ heldAs }) => heldAs),
  )
  return theirs.size === 1 ? [...theirs][0]! : 'ira'
}

const plainName = (name: string): string => name.trim().toLowerCase()

const namedIn = (plan: Plan | null, move: SavingMove): Account | undefined =>
  plan?.savings.accounts.find(
    ({ name, kind }) => kind === move.savingsKind && plainName(name) === plainName(move.account),
  )

/** By the account of the books, else by the plan's of its name, else the first who signs. */
const ownerOf = (move: SavingMove, plan: Plan | null): string => {
  const people = plan?.household.people ?? []
  const said = move.personId ?? namedIn(plan, move)?.owner
  return people.find(({ id }) => id === said)?.id ?? people[0]?.id ?? ''
}

/**
 * Fills the year's contributions into a household with its income and cover, each as far as the year allows. Tells what is more than
 * that, and what of a traditional IRA is not deducted beside a plan at work (26 USC 219(g)).
 */
export const putSavings = (
  law: LawYear,
  household: HouseholdYear,
  saved: SavedFor,
  plan: Plan,
  indexing: Indexing,
): { assumed: string[]; tooMuch: string[] } => {
  const tooMuch: string[] = []
  limitDeferrals(law, household, plan, indexing, tooMuch)
  fillByOwner(law, household, saved, plan, indexing, tooMuch)
  household.hsa = saved.hsa
  for (let round = 0; round < 6; round += 1) {
    const [fault] = contributionFaults(law, household, nothingByOne, indexing)
    if (!fault) break
    const field = fault.field as 'traditionalIra' | 'rothIra' | 'hsa'
    tooMuch.push(overSays(savingWords[field], household[field], fault.most, law.year))
    household[field] = fault.most
  }
  const says = household.hsa > 0 ? [...tooMuch, healthMonthsSay] : [...tooMuch]
  const covered = plan.household.people.map(
    ({ id }, place) =>
      saved.covered.includes(id) || isInPlanAtWork(plan, id, household.wages[place] ?? 0, law.year),
  )
  const deductible = deductibleTraditionalIra(law, household, covered, indexing)
  const rest = household.traditionalIra - deductible
  if (rest > 0) {
    household.traditionalIra = deductible
    // What is not deducted counts for the saver's credit alone, as a Roth contribution does.
    household.rothIra += rest
    says.push(
      `Of what went into traditional IRAs ${formatDollarsAndCents(rest)} is not deducted at this income beside a plan at work (26 USC 219(g)): it goes on Form 8606.`,
    )
  }
  if (saved.undecided > 0)
    says.push(
      `${formatDollarsAndCents(saved.undecided)} of contributions was paid before the day of the return of the year before and may be for that; it counts here until you choose that year.`,
    )
  return { assumed: says, tooMuch }
}

/** A plan of the own business goes by its owner's profit, an IRA by its owner's limit: what the other leaves is nobody else's. */
const fillByOwner = (
  law: LawYear,
  household: HouseholdYear,
  saved: SavedFor,
  plan: Plan,
  indexing: Indexing,
  tooMuch: string[],
): void => {
  const rooms = roomsByPerson(law, household, indexing)
  const counted = rooms.map(({ ira, own }, place) => {
    const person = plan.household.people[place]
    const put = { ...(saved.by.get(person?.id ?? '') ?? nothingByOne) }
    const of = rooms.length > 1 && person ? ` of ${person.name}` : ''
    const limit = (kind: keyof PutByOne, words: string, most: number) => {
      if (put[kind] <= most + 0.005) return
      tooMuch.push(overSays(`${words}${of}`, put[kind], most, law.year))
      put[kind] = most
    }
    for (const kind of ownPlanKinds) limit(kind, savingWords[kind], own[kind])
    limit('ira', savingWords.traditionalIra, ira)
    limit('roth', savingWords.rothIra, Math.max(0, ira - put.ira))
    return put
  })
  const sumOf = (...kinds: (keyof PutByOne)[]) =>
    counted.reduce((sum, put) => sum + kinds.reduce((own, kind) => own + put[kind], 0), 0)
  household.traditionalIra = sumOf('ira')
  household.rothIra = sumOf('roth')
  household.iraByPerson = counted.map(({ ira, roth }) => ira + roth)
  household.sep = sumOf(...ownPlanKinds)
}

/** The books do not know the months of such cover. */
const healthMonthsSay =
  'Health savings are taken off up to the limit of a whole year. With the cover that goes with them in a part of it, Form 8889 allows a twelfth a month; or all of it by cover on December 1, if that lasts to the end of the next December: where it ends before, other than by death or disability, the rest is income then, with 10% added (26 USC 223(b)(8)).'

/** 26 USC 4973 and 4972, from memory. */
const overSays = (what: string, made: number, most: number, year: number): string =>
  `${what}: ${formatDollarsAndCents(made)} is booked and ${formatDollarsAndCents(most)} is the most for ${year}; only that is counted. What is too much is taxed each year until it is taken out (26 USC 4973, 4972).`

const isInPlanAtWork = (plan: Plan, person: string, wages: number, year: number): boolean =>
  wages > 0 &&
  plan.savings.accounts.some(
    ({ heldAs, owner, inherited, leftWork }) =>
      heldAs === 'workPlan' &&
      inherited === undefined &&
      (owner ?? plan.household.people[0]?.id) === person &&
      (leftWork === undefined || yearIn(leftWork) >= year),
  )

const savingWords: Record<ContributionFault['field'], string> = {
  traditionalIra: 'Traditional IRAs',
  rothIra: 'Roth IRAs',
  sep: 'SEP',
  simple: 'SIMPLE plan',
  solo401k: 'The plan of one who works alone',
  hsa: 'Health savings accounts',
}
