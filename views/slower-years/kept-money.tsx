// Money kept back: the four kinds in one sentence, one picture and a table that says whose each is and when it may be used.
import { nameOfMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { KeptMoney } from '#today/slower-years/figures.ts'
import { PageTitle } from '../layout.tsx'
import { Caution } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { KeptPicture } from './kept-picture.tsx'

export const KeptMoneyPage = ({ kept }: { kept: KeptMoney }) => (
  <>
    <PageTitle help="keptMoney" purpose="What is not to be spent yet, and what for.">
      Money kept back
    </PageTitle>
    <p class="answer">
      Four kinds of money are kept back. <strong>{answerOf(kept)}</strong>
    </p>
    <KeptPicture kept={kept} summary={summaryOf(kept)} table={<KindsTable kept={kept} />} />
    <KindsTable kept={kept} />
    <Caution askWhom="a licensed tax preparer or a financial counselor">
      How much to keep is your choice; the plan shows what it does to months left.
    </Caution>
  </>
)

interface Kind {
  name: string
  whose: 'House' | 'Farm'
  use: string
  how: string
  needed: number | null
  has: number | null
}

const kindsOf = (kept: KeptMoney): Kind[] => [
  {
    name: 'Floor',
    whose: 'House',
    use: 'never; months left count down to it',
    how: 'as the plan’s household says',
    needed: kept.floor,
    has: kept.savings,
  },
  {
    name: 'Emergency fund',
    whose: 'House',
    use: 'in a bad month; side income fills it again',
    how: `${kept.emergencyMonths} months of household costs, the floor in it`,
    needed: kept.emergency,
    has: kept.savings,
  },
  {
    name: 'Reserve',
    whose: 'Farm',
    use: 'for the farm only; draws and purchases stop at it',
    how: 'your own figure',
    needed: kept.reserve,
    has: kept.farmCash,
  },
  {
    name: 'Cushion',
    whose: 'House',
    use: kept.cushion ? `from ${nameOfMonth(kept.cushion.month)}, as you slow down` : 'as you slow down',
    how: kept.cushion ? 'the least with which the plan lasts from then on' : 'no slower year in the plan yet',
    needed: kept.cushion?.needed ?? null,
    has: kept.cushion?.savings ?? null,
  },
]

const isFull = ({ needed, has }: Kind): boolean => needed !== null && has !== null && has >= needed - 0.5

const answerOf = (kept: KeptMoney): string => {
  // Nothing that is kept back is neither full nor short.
  const kinds = kindsOf(kept).filter((one) => one.needed !== null && one.needed > 0)
  if (kinds.length === 0) return 'Nothing is kept back yet.'
  const full = kinds.filter(isFull).map((one) => `the ${one.name.toLowerCase()}`)
  const short = kinds
    .filter((one) => !isFull(one))
    .map((one) => `the ${one.name.toLowerCase()} lacks ${formatDollars(one.needed! - one.has!)}`)
  const fullWords = full.length === 0 ? [] : [`${allOf(full)} ${full.length === 1 ? 'is' : 'are'} full`]
  const says = [...fullWords, ...short].join('; ')
  return `${says.charAt(0).toUpperCase()}${says.slice(1)}.`
}

const summaryOf = (kept: KeptMoney): string => {
  const cushion = kept.cushion
    ? ` In ${nameOfMonth(kept.cushion.month)} ${formatDollars(kept.cushion.needed)} must be ready, and the plan has ${formatDollars(kept.cushion.savings)}, retirement accounts counted.`
    : ''
  return `At the end of ${nameOfMonth(kept.month)} the house has ${formatDollars(kept.savings)} in spendable savings: the floor takes ${formatDollars(kept.floor)} of it, and the emergency fund is full at ${formatDollars(kept.emergency)}. The farm has ${formatDollars(kept.farmCash)} and keeps ${formatDollars(kept.reserve)}.${cushion} Each building has a scale of its own.`
}

const KindsTable = ({ kept }: { kept: KeptMoney }) => (
  <DataTable
    caption="What is kept back, and what for"
    ofPlan
    stack
    rows={kindsOf(kept)}
    columns={[
      { title: 'Kept back', isHeader: true, cell: (one) => one.name },
      { title: 'Whose', cell: (one) => one.whose },
      { title: 'When it may be used', cell: (one) => one.use },
      { title: 'How much', cell: (one) => one.how },
      {
        title: 'Full at',
        isNumber: true,
        cell: (one) => (one.needed === null ? '' : formatDollars(one.needed)),
      },
      { title: 'There', isNumber: true, cell: (one) => (one.has === null ? '' : formatDollars(one.has)) },
    ]}
  />
)
