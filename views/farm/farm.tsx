// The first page of the farm: what an hour earns, what it can buy next, and what does not fit. Each answer leads to its room.
import { type Month, monthName } from '#calendar/month.ts'
import { formatDollars, formatDollarsAndCents, formatPercent } from '#money/format.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { PageTitle } from '../layout.tsx'
import { LinkButton } from '../parts/button.tsx'
import { unbroken } from '../parts/dollars.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { Caution, NoticeSection } from '../parts/message.tsx'
import { Undone } from './enterprises.tsx'
import { HourChart, hasHours, hourInWords } from './hour-chart.tsx'
import { SpendableNow } from './spendable-now.tsx'
import { UnsoldMarkets } from './unsold-markets.tsx'
import { YearChoice } from './year-choice.tsx'

export const FarmPage = ({ figures }: { figures: FarmFigures }) => (
  <>
    <PageTitle
      help="farm"
      purpose="Which enterprises earn their hours, what the farm can buy next from its own cash, and what does not fit."
    >
      Farm
    </PageTitle>
    <NobodyNamed figures={figures} />
    <UnsoldMarkets figures={figures} />
    {hasHours(figures) ? <p class="answer">{unbroken(hourInWords(figures))}</p> : null}
    <div class="farm-first">
      <section aria-label="What an hour brings">
        <HourChart figures={figures} />
        <p class="no-print">
          <LinkButton href={`/farm/enterprises?year=${figures.year}`} small quiet>
            All budgets
          </LinkButton>
        </p>
      </section>
      <div>
        <BuysNext figures={figures} />
        <DoesNotFit figures={figures} />
      </div>
    </div>
    <YearFigures figures={figures} />
    <YearChoice figures={figures} action="/farm" />
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
        {String(figures.year)}. No pay is counted for them, and nothing shows whether they are too many.{' '}
        <a href="/farm/basics">Say who works, and how many hours a week</a>.
      </p>
    </NoticeSection>
  )
}

/** As many as stand beside the picture. */
const shownNext = 4

const BuysNext = ({ figures }: { figures: FarmFigures }) => {
  const coming = figures.purchases.queue
    .filter((one) => one.bought !== null)
    .sort((a, b) => a.bought! - b.bought!)
  const never = figures.purchases.queue.length - coming.length
  return (
    <section aria-labelledby="next-title">
      <h2 id="next-title">What it can buy next</h2>
      <p>
        <SpendableNow purchases={figures.purchases} />
      </p>
      {coming.length === 0 ? null : (
        <ul class="farm-next">
          {coming.slice(0, shownNext).map((one) => (
            <li>
              <span>
                <a href={`/farm/purchases/${one.id}`}>{one.name}</a>, {formatDollars(one.cost)}
              </span>
              <span class="day">{monthName(one.bought as Month)}</span>
            </li>
          ))}
        </ul>
      )}
      {never > 0 ? <p>{never === 1 ? 'One is' : `${never} are`} not within the plan.</p> : null}
      <p class="no-print">
        <LinkButton href="/farm/buying" small quiet={!hasHours(figures)}>
          {figures.purchases.queue.length === 0 ? 'Plan a purchase' : 'What each takes and gives'}
        </LinkButton>
      </p>
    </section>
  )
}

const DoesNotFit = ({ figures }: { figures: FarmFigures }) => {
  const out = figures.inStep.filter((one) => one.isOut)
  const tightest = figures.inStep
    .filter((one) => !one.isOut && one.tightest > 0)
    .sort((a, b) => b.tightest - a.tightest)[0]
  return (
    <section aria-labelledby="fit-title">
      <h2 id="fit-title">What does not fit in {String(figures.year)}</h2>
      <Undone summary={figures.summary} />
      {out.length === 0 ? (
        <p>
          Nothing: stock, markets, land, feed and hours fit together in every season.
          {tightest ? ` Closest is ${tightest.name}, ${formatPercent(tightest.tightest, 0)} used.` : ''}
        </p>
      ) : (
        <ul>
          {out.slice(0, shownNext).map((one) => (
            <li>{one.says}.</li>
          ))}
          {out.length > shownNext ? <li>And {out.length - shownNext} more.</li> : null}
        </ul>
      )}
      <p class="no-print">
        <LinkButton href={`/farm/fit?year=${figures.year}`} small quiet>
          Season by season
        </LinkButton>
      </p>
    </section>
  )
}

const YearFigures = ({ figures }: { figures: FarmFigures }) => {
  const { summary, year } = figures
  const ownHours = Math.max(0, summary.worked - summary.hiredHours)
  const untold = figures.lines.filter(({ hours, units }) => units > 0 && hours === 0).map(({ name }) => name)
  return (
    <Figures>
      <Figure
        label={`Net farm cash in ${year}`}
        value={formatDollars(summary.net)}
        note="Before purchases, loans and draws"
        madeOf={{
          says: 'What all lines sell, less what they cost, the markets and the overheads.',
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
        label="For an hour of your work"
        value={
          ownHours > 0.5 && untold.length === 0
            ? formatDollarsAndCents(summary.net / ownHours)
            : 'Not known yet'
        }
        note={
          untold.length > 0 && untold.length < figures.lines.length
            ? `No hours are entered yet for ${untold.join(', ')}`
            : untold.length === 0 && summary.hours > 0
              ? `${Math.round(ownHours).toLocaleString('en-US')} hours in the year${summary.hiredHours > 0.5 ? `, ${Math.round(summary.hiredHours).toLocaleString('en-US')} hired ones apart` : ''}`
              : 'No enterprise has hours yet'
        }
      />
    </Figures>
  )
}
