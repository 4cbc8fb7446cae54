// Now: months left in large, the carry month, what the farm pays, house money in it, what is due, and savings past and to come.
import { monthName, monthNameShort, nameOfMonth } from '#calendar/month.ts'
import { countedFrom } from '#calendar/spell.ts'
import { formatDollars } from '#money/format.ts'
import type { CopiesFigures } from '#today/now/copies.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { SetAside } from '../cover/tax-so-far.tsx'
import { PageTitle } from '../layout.tsx'
import { LinkButton } from '../parts/button.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { Caution, EmptyState, Notice, Part } from '../parts/message.tsx'
import { DueButtons, dueRemark } from '../parts/occurrence-form.tsx'
import { Ahead } from './ahead.tsx'
import { Answers } from './answers.tsx'
import { CardCredits } from './card-credits.tsx'
import { Copies } from './copies.tsx'
import type { ChanceNow } from './figures.ts'
import { FirstSteps } from './first-steps.tsx'
import { CoverFigure, LeakFigure, Spendable, SpendingFigure } from './money-figures.tsx'
import { Paces } from './paces.tsx'
import { CoverChart, SavingsPicture } from './savings.tsx'
import { SinceLastMonth } from './since-last-month.tsx'

export interface NowProps {
  figures: NowFigures
  chance: ChanceNow
  /** Null in the sample, which nobody needs to keep. */
  copies: CopiesFigures | null
  formId: string
  /** All months of savings are drawn, not those near today. */
  isWhole: boolean
}

export const NowPage = ({ figures, chance, copies, formId, isWhole }: NowProps) => (
  <>
    <PageTitle help="now" purpose="How long savings last, and when the farm carries the house.">
      Now
    </PageTitle>
    <Part of={() => <Reach figures={figures} />} />
    <div class="now-top">
      <MonthsLeft figures={figures} chance={chance} />
      <SavingsPicture figures={figures} isWhole={isWhole} />
    </div>
    <Figures>
      <FromPlan figures={figures} />
      <WithoutDraws figures={figures} />
      <Carry figures={figures} />
      <Spendable figures={figures} />
      <Part of={() => <SpendingFigure spending={figures.spending} />} />
      <LeakFigure figures={figures} />
      <CoverFigure figures={figures} />
      <Part of={() => (figures.tax ? <SetAside tax={figures.tax} /> : null)} />
    </Figures>
    <Part of={() => <Ahead ahead={figures.ahead} />} />
    <Part of={() => <CardCredits cards={figures.spendable.cards} formId={formId} />} />
    <Part of={() => <SinceLastMonth figures={figures} />} />
    <Part
      of={() => <FirstSteps steps={figures.firstSteps} formId={formId} isNext={nothingToRecord(figures)} />}
    />
    <Due figures={figures} formId={formId} />
    <div class="columns">
      <CoverChart figures={figures} />
      <Paces figures={figures} />
    </div>
    {copies ? <Copies copies={copies} /> : null}
    <Caution>
      Months left come from your plan, published law and what the books say of the past; the future will
      differ.
    </Caution>
  </>
)

/** What the page rests on; what is missing in it is said before any answer, with where it is put right. */
const Reach = ({ figures }: { figures: NowFigures }) => {
  const says = figures.reachSays.join(' ')
  const doors = doorsOf(figures)
  if (says === '') return null
  if (doors.length === 0) return <p class="purpose">{says}</p>
  return (
    <Notice>
      {says}{' '}
      {doors.map(({ href, text }, place) => (
        <>
          {place > 0 ? ' · ' : ''}
          <a href={href}>{text}</a>
        </>
      ))}
    </Notice>
  )
}

/** Months missing at the end of the books, of an account alone, or in their middle; loans that the plan does not pay. */
const doorsOf = ({ reach, farmGaps, behind, loansUntold, spendable }: NowFigures) => {
  const lacks =
    reach !== null && (reach.missingMonths > 0 || reach.gaps.length + farmGaps.length + behind.length > 0)
  const [loan] = loansUntold
  return [
    ...(lacks && spendable.waiting.lines > 0
      ? [{ href: '/books/sorting', text: 'Sort what is read in' }]
      : []),
    ...(lacks ? [{ href: '/books/statements', text: 'Read in the bank’s files' }] : []),
    ...(loan
      ? [{ href: `/books/accounts/${loan.id}/loan`, text: `Say rate and payment of “${loan.name}”` }]
      : []),
  ]
}

export const MonthsLeft = ({ figures, chance }: { figures: NowFigures; chance: ChanceNow }) => {
  const { plan } = figures
  if (plan.status === 'none') {
    return (
      <EmptyState href="/start/costs" action="Enter monthly costs">
        To say how many months are left, Dooryard needs a plan: what a month costs and what the farm gives.
      </EmptyState>
    )
  }
  if (plan.status === 'begun') {
    return (
      <EmptyState
        href={plan.next}
        action={plan.next === '/start/costs' ? 'Enter monthly costs' : 'Enter accounts and balances'}
      >
        Setting up is not finished. Enter account balances and monthly costs to see months left.
      </EmptyState>
    )
  }
  if (plan.status === 'unreadable') {
    return (
      <EmptyState href="/runway" action="Look at the plan">
        The plan cannot be read, so months left cannot be worked out. {plan.says}
      </EmptyState>
    )
  }
  return <Answers plan={plan} month={figures.month} chance={chance} stormsWait={figures.stormsWait} />
}

/** What months left are counted from. */
const FromPlan = ({ figures }: { figures: NowFigures }) => {
  const { plan } = figures
  if (plan.status !== 'read') return null
  const rows = [
    { label: 'Floor this month', value: formatDollars(plan.floorDollars) },
    {
      label: plan.runsShort === null ? 'Lowest savings as planned' : 'Out of money as planned',
      value:
        plan.runsShort === null
          ? `${formatDollars(plan.lowestDollars)}${plan.lowestMonth === null ? '' : `, ${monthNameShort(plan.lowestMonth)}`}`
          : monthName(plan.runsShort),
    },
    ...(plan.runsShort === null && plan.lowestDollars < 0
      ? [{ label: 'Of it, tax owed by then and not yet paid', value: formatDollars(-plan.lowestTaxOwed) }]
      : []),
  ]
  if (plan.correction) {
    rows.push(
      {
        label: `Expected at the end of ${monthNameShort(plan.correction.month)} when the plan was saved`,
        value: formatDollars(plan.correction.expectedDollars),
      },
      { label: 'Adjusted to the actual balance by', value: formatDollars(plan.correction.differenceDollars) },
    )
  }
  return (
    <Figure
      label="Floor"
      word="floor"
      value={formatDollars(plan.floorDollars)}
      note="Savings not to be spent; months left end there."
      madeOf={{
        says: `Months left are ${countedFrom(figures.month)}, on its last day too, to the first month in which spendable savings end below the floor, in the projection of “${plan.name}”, revision ${plan.revisionNo}, ${plan.savingsFrom.books.length > 0 ? 'continued from what the books hold' : 'which goes on as planned'}.`,
        rows,
        more: { text: 'Every month of it on Runway', href: '/runway/years' },
      }}
    />
  )
}

const WithoutDraws = ({ figures }: { figures: NowFigures }) => {
  const { plan } = figures
  if (plan.status !== 'read') return null
  const { monthsLeftWithoutDraws: left, floorMonthWithoutDraws: floor } = plan
  return (
    <Figure
      label="Months left without draws"
      word="months left"
      value={left === null ? 'To the end' : String(left)}
      note={
        floor === null
          ? 'With nothing from the farm savings and other income would last.'
          : `With nothing from the farm, not even to hold the floor, savings and other income reach it in ${monthName(floor)}.`
      }
      madeOf={{
        says: 'The same plan, with nothing drawn from the farm, neither as planned nor called on to hold the floor: what savings and all other income would carry, with refunds and credits of each spring. The farm goes on, with its tax. Dollars of each month.',
        rows: withoutDrawsRows(plan),
        more: { text: 'The plan on Runway', href: '/runway' },
      }}
    />
  )
}

const withoutDrawsRows = ({
  partsWithoutDraws: told,
  floorMonthWithoutDraws: floor,
}: Extract<NowFigures['plan'], { status: 'read' }>) => {
  if (told === null || floor === null) return []
  const besides =
    Math.abs(told.besides) < 0.5
      ? []
      : [{ label: 'Retirement accounts that count, less tax owed', value: formatDollars(told.besides) }]
  return [
    { label: `Savings as ${nameOfMonth(told.from)} begins`, value: formatDollars(told.begins) },
    ...told.parts.map(({ name, dollars }) => ({ label: name, value: formatDollars(dollars) })),
    ...besides,
    {
      label: `Savings at the end of ${monthName(floor)}; the floor is ${formatDollars(told.floor)}`,
      value: formatDollars(told.ends),
      isTotal: true,
    },
  ]
}

const carryNote = (plan: Extract<NowFigures['plan'], { status: 'read' }>): string => {
  if (plan.carryMonth === null) return 'The farm’s draws never cover all household costs for good.'
  if (plan.carryJudgedTo === null || plan.carriesToTheEnd)
    return 'From then to the end of the plan the farm’s draws cover all household costs.'
  return `From then to the first slower year, ${monthName(plan.carryJudgedTo)}, the farm’s draws cover all household costs; after it, by the plan, they no longer do.`
}

const Carry = ({ figures }: { figures: NowFigures }) => {
  const { plan } = figures
  if (plan.status !== 'read') return null
  return (
    <Figure
      label="Carry month"
      word="carry month"
      value={plan.carryMonth === null ? 'Not in this plan' : monthName(plan.carryMonth)}
      note={carryNote(plan)}
      madeOf={{
        says: 'The first month from which the plan’s draws, less what goes back into the farm, cover living, loan payments, premiums, care and taxes over any twelve months running, up to the first slower year, where draws fall by the plan, or to the end of the plan when it has none.',
        more: { text: 'The draws, month by month, on Runway', href: '/runway' },
      }}
    />
  )
}

/** Then the first step, or what is due first, is the page's one filled button. */
const nothingToRecord = ({ due }: NowFigures): boolean => due.every((one) => one.standing === null)

const Due = ({ figures, formId }: { figures: NowFigures; formId: string }) => (
  <section aria-labelledby="due-title">
    <h2 id="due-title">Due</h2>
    {figures.due.length === 0 ? (
      <p class="hint">Nothing waits for you today.</p>
    ) : (
      <ul class="due">
        {figures.due.map((item, place) => (
          <li>
            <span>
              <a href={item.href}>{item.says}</a>
              {item.standing ? dueRemark(item.standing) : ''}
            </span>
            {item.standing ? (
              <DueButtons due={item.standing} formId={formId} back="now">
                Record it
              </DueButtons>
            ) : place === 0 && figures.firstSteps.length === 0 && nothingToRecord(figures) ? (
              <LinkButton small href={item.href}>
                Do it<span class="hidden-text">: {item.says}</span>
              </LinkButton>
            ) : null}
          </li>
        ))}
      </ul>
    )}
  </section>
)
