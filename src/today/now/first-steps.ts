// What comes next in new books: shown on Now until they hold two whole months, each step until it is done.
import { listCrossings } from '#db/ledger/crossing-store.ts'
import { listStanding } from '#db/ledger/standing-store.ts'
import type { Books } from '#db/open.ts'
import { listStatements } from '#db/statements/statement-store.ts'
import type { Plan } from '#plan/plan.ts'
import type { FirstStep } from './figures.ts'

export const firstSteps = (books: Books, plan: Plan, wholeMonths: number): FirstStep[] =>
  wholeMonths >= 2 ? [] : steps(books, plan).flatMap(({ isDone, ...step }) => (isDone ? [] : [step]))

const steps = (books: Books, plan: Plan): (FirstStep & { isDone: boolean })[] => [
  {
    says: 'Read in the first bank statement',
    why: 'An OFX or CSV file from your bank; nothing is kept before you have looked at it.',
    href: '/books/statements',
    isDone: listStatements(books, 1).length > 0,
  },
  {
    says: 'Set up the monthly draw or contribution',
    why: 'What crosses between house and farm every month is then asked for here.',
    href: '/crossings/standing/new',
    isDone: listStanding(books).length > 0 || listCrossings(books, { limit: 1 }).length > 0,
  },
  {
    says: 'Say who is covered, and the two premiums of your marketplace',
    why: 'The premium credit then follows from your income. Skip it if no one buys cover there.',
    href: '/cover/marketplace',
    isDone: plan.health.marketplace.members.length > 0,
  },
  {
    says: 'Split the farm into its lines of work, with hours',
    why: 'Which of them earns its hours, and what the farm can afford next, is told from there.',
    href: '/farm',
    isDone: plan.farm.enterprises.length + plan.farm.herds.length > 1,
  },
]
