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
} from '#rules/contribution-check.ts'
import type { Indexing } from '#rules/dated.ts'
import type { HouseholdYear } from '#rules/household-year.ts'
import type { LawYear } from '#rules/law-year.ts'
import type { OwnPlanKind } from '#rules/own-plan-limits.ts'
import { keptUntilChange } from '#today/kept.ts'

/** Dollars. */
export interface SavedFor {
  traditionalIra: number
  rothIra: number
  own: Record<OwnPlanKind, number>
  hsa: number
  /** Ids of the plan's people who put money into a plan of their own business, or are in one at work. */
  covered: readonly string[]
  /** Put in where two years fit, and counted for this one. */
  undecided: number
}

export const nothingSaved: SavedFor = {
  traditionalIra: 0,
  rothIra: 0,
  own: { sep: 0, simple: 0, solo401k: 0 },
  hsa: 0,
  covered: [],
  undecided: 0,
}

export const movesOfSavings = (books: Books): readonly SavingMove[] =>
  keptUntilChange(books, 'contributions', () => savingMoves(books))

export const savedFor = (books: Books, plan: Plan | null, year: number): SavedFor => {
  const saved: SavedFor = { ...nothingSaved, own: { ...nothingSaved.own } }
  const covered = new Set<string>()
  for (const { kind, owner, dollars, isUndecided } of putInFor(books, plan, year)) {
    if (isUndecided) saved.undecided += dollars
    if (kind === 'workPlan' || isOwnPlan(kind)) covered.add(owner)
    // What an employer's plan took before pay is booked is not in the wages of the year's form.
    if (kind === 'workPlan') continue
    if (kind === 'hsa') saved.hsa += dollars
    else if (kind === 'roth') saved.rothIra += dollars
    else if (kind === 'ira') saved.traditionalIra += dollars
    else saved.own[kind] += dollars
  }
  return { ...saved, covered: [...covered] }
}

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
  const named = plan?.savings.accounts.find(
    ({ name, kind }) => kind === move.savingsKind && plainName(name) === plainName(move.account),
  )
  if (named) return named.heldAs
  if (/\bsep\b/i.test(move.account)) return 'sep'
  if (/\bsimple\b/i.test(move.account)) return 'simple'
  if (/\bsolo\b|\bindividual 4/i.test(move.account)) return 'solo401k'
  if (move.isKeptFromPay || /\b40[13]\s?\(?[bk]\b|\b457\b/i.test(move.account)) return 'workPlan'
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

const ownerOf = ({ personId }: SavingMove, plan: Plan | null): string =>
  personId ?? plan?.household.people[0]?.id ?? ''

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
): string[] => {
  const own = { ...saved.own }
  household.traditionalIra = saved.traditionalIra
  household.rothIra = saved.rothIra
  household.hsa = saved.hsa
  const setOwn = () => {
    household.sep = own.sep + own.simple + own.solo401k
  }
  setOwn()
  const says: string[] = []
  const limit = ({ field, most }: ContributionFault) => {
    const made = field === 'sep' || field === 'simple' || field === 'solo401k' ? own[field] : household[field]
    if (field === 'sep' || field === 'simple' || field === 'solo401k') own[field] = most
    else household[field] = most
    setOwn()
    says.push(
      `${savingWords[field]}: ${formatDollarsAndCents(made)} is booked and ${formatDollarsAndCents(most)} is the most for ${law.year}; only that is counted. What is too much is taxed each year until it is taken out (26 USC 4973, 4972).`,
    )
  }
  for (let round = 0; round < 6; round += 1) {
    const [fault] = contributionFaults(law, household, own, indexing)
    if (!fault) break
    limit(fault)
  }
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
  return says
}

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
