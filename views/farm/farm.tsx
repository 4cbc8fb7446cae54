// The Farm page: what each line of work earns, where it sells, what is out of step, how the stock grows, and what to buy next.
import { nameOfMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button, LinkButton } from '../parts/button.tsx'
import { Select } from '../parts/field.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { Caution, NoticeSection } from '../parts/message.tsx'
import { OnThisPage } from '../parts/on-this-page.tsx'
import { EnterpriseSection } from './enterprises.tsx'
import { FacilitySection } from './facilities.tsx'
import { HerdSection } from './herds.tsx'
import { MarketSection, StepSection } from './markets.tsx'
import { BasicsSection, PurchaseSection } from './purchases.tsx'

export const FarmPage = ({ figures, formId }: { figures: FarmFigures; formId: string }) => (
  <>
    <PageTitle
      help="farm"
      purpose="Which lines of work earn their hours, and what the farm can afford next from its own cash."
    >
      Farm
    </PageTitle>
    <form method="get" action="/farm" class="year-choice no-print">
      <Select
        name="year"
        label="Year of the plan"
        value={String(figures.year)}
        options={figures.years.map((year) => ({ value: String(year), label: String(year) }))}
      />
      <Button small quiet>
        Show
      </Button>
    </form>
    <OnThisPage
      parts={[
        { id: 'enterprises', name: 'Lines of work' },
        { id: 'markets', name: 'Markets' },
        { id: 'in-step', name: 'In step?' },
        { id: 'herds', name: 'Herds and flocks' },
        { id: 'facilities', name: 'Facilities' },
        { id: 'purchases', name: 'What to buy next' },
        { id: 'basics', name: 'Cash, land, hands' },
      ]}
    />
    <NobodyNamed figures={figures} />
    <Summary figures={figures} />
    <EnterpriseSection figures={figures} />
    <MarketSection figures={figures} />
    <StepSection figures={figures} />
    <HerdSection figures={figures} />
    <FacilitySection facilities={figures.facilities} />
    <PurchaseSection figures={figures} formId={formId} />
    <BasicsSection figures={figures} />
    <p class="no-print">
      <LinkButton href="/slower-years" quiet>
        The mix that keeps the net at fewer hours
      </LinkButton>
    </p>
    <Caution askWhom="your extension office and a licensed tax preparer">
      Budgets are the plan’s own figures; yields, prices and rates marked common practice differ from farm to
      farm.
    </Caution>
  </>
)

/** Hours without a name are nobody's: they are not paid for, and the plan is not whole. */
const NobodyNamed = ({ figures }: { figures: FarmFigures }) => {
  const { basics, summary } = figures
  if (basics.crew.length > 0 || summary.hours <= 0) return null
  return (
    <NoticeSection label="Hours without a name">
      <p>
        Nobody is named for the {Math.round(summary.hours).toLocaleString('en-US')} hours of work in{' '}
        {String(figures.year)}. No pay is counted for them, and it cannot be told whether they are too many.{' '}
        <a href="/farm/basics">Say who works, and how many hours a week</a>.
      </p>
    </NoticeSection>
  )
}

const Summary = ({ figures }: { figures: FarmFigures }) => {
  const { summary, purchases, inStep, year } = figures
  const out = inStep.filter((one) => one.isOut)
  const perHour = summary.hours > 0 ? summary.net / summary.hours : 0
  return (
    <Figures>
      <Figure
        label={`Net farm cash in ${year}`}
        value={formatDollars(summary.net)}
        note="Before purchases, loans and draws"
        madeOf={{
          says: 'What all lines sell, less what they, the markets and the farm as a whole cost.',
          rows: [
            { label: 'Sales', value: formatDollars(summary.sales) },
            { label: 'Culls sold', value: formatDollars(summary.culls) },
            { label: 'Direct costs', value: formatDollars(-summary.directCosts) },
            { label: 'Breeding stock bought', value: formatDollars(-summary.stockBought) },
            { label: 'Market fees and miles', value: formatDollars(-summary.marketCosts) },
            { label: 'Hired help', value: formatDollars(-summary.hiredCosts) },
            { label: 'Overheads', value: formatDollars(-summary.overheads) },
            { label: 'Net farm cash', value: formatDollars(summary.net), isTotal: true },
          ],
          more: { text: 'The same, month by month, on Runway', href: '/runway' },
        }}
      />
      <Figure
        label="For an hour of work"
        value={summary.hours > 0 ? formatDollars(perHour) : 'Not told yet'}
        note={
          summary.hours > 0
            ? `${Math.round(summary.hours).toLocaleString('en-US')} hours in the year`
            : 'No line of work has hours yet'
        }
      />
      <Figure
        label="What the farm buys next"
        value={purchases.next ? purchases.next.name : 'Nothing planned'}
        note={
          purchases.next
            ? `${nameOfMonth(purchases.next.month)}, ${formatDollars(purchases.next.cost)}, reserve intact`
            : 'Add a purchase to see when cash allows it'
        }
      />
      <Figure
        label="Out of step"
        word="in step"
        value={out.length === 0 ? 'Nothing' : out.length === 1 ? '1 measure' : `${out.length} measures`}
        note={out.length === 0 ? `All fits together in ${year}` : out[0]!.says}
      />
    </Figures>
  )
}
