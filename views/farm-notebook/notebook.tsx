// The notebook's page: five names in a list, one of them open, large choices with the last one chosen, one button that writes.
import type { Child } from 'hono/jsx'
import { headsSay } from '#farm/herd/heads-say.ts'
import { hoursText, notesWait } from '#farm/notebook/words.ts'
import { sumCents } from '#money/cents.ts'
import { formatCents, formatCount } from '#money/format.ts'
import type { NotebookFigures } from '#today/farm/notebook-figures.ts'
import { NewMarket } from '../farm/new-market.tsx'
import { PageTitle } from '../layout.tsx'
import { Button, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId } from '../parts/field.tsx'
import { NoticeSection } from '../parts/message.tsx'
import { MarketFields } from './market-fields.tsx'
import { GoodsFields, HeadFields, HourFields, TripFields } from './sections.tsx'
import type { TypedValues } from './tiles.tsx'

export type Section = 'hours' | 'heads' | 'market' | 'goods' | 'trip'

interface NotebookProps {
  figures: NotebookFigures
  open: Section
  errors: FieldErrors
  typedOf(section: Section): TypedValues
  formIdOf(section: Section): string
  newFormId(): string
}

export const NotebookPage = (props: NotebookProps) => (
  <>
    <PageTitle
      help="notebook"
      purpose="Hours, head counts, market days, goods to the kitchen and miles, as they happen."
    >
      Notebook
    </PageTitle>
    <ErrorSummary errors={props.errors} />
    <Clocks {...props} />
    <Waiting figures={props.figures} />
    <div class="notebook">
      <Page
        {...props}
        section="hours"
        name="Hours"
        sum={`${hoursText(props.figures.weekMinutes)} h this week`}
      >
        <HourFields {...sectionProps(props, 'hours')} />
        <div class="button-row">
          <Button>Write hours</Button>
          <Button quiet name="clock" value="start">
            Start the clock
          </Button>
        </div>
      </Page>
      <Heads {...props} />
      <MarketDay {...props} />
      <Page
        {...props}
        section="goods"
        name="To the kitchen, or bartered"
        sum={`${props.figures.kitchenThisYear} this year`}
      >
        <GoodsFields {...sectionProps(props, 'goods')} />
        <Button>Write goods</Button>
      </Page>
      <Page
        {...props}
        section="trip"
        name="Miles"
        sum={`${formatCount(Math.round(props.figures.milesThisYear))} this year`}
      >
        <TripFields {...sectionProps(props, 'trip')} />
        <Button>Write miles</Button>
      </Page>
    </div>
    <Today {...props} />
    <p class="no-print">
      <a href="/farm/hours">Hours by week and season</a> · <a href="/farm/batches">Batches</a> ·{' '}
      <a href="/farm/seen">What the notebook says about the plan</a> ·{' '}
      <a href="/farm/preparer">For the preparer</a> · <a href="/farm/notebook/phone">Use it on a phone</a>
    </p>
  </>
)

const Heads = (props: NotebookProps) => (
  <Page {...props} section="heads" name="Head count" sum={headsSum(props.figures)}>
    {props.figures.herds.length > 0 ? (
      <>
        <HeadFields {...sectionProps(props, 'heads')} />
        <Button>Write the head count</Button>
      </>
    ) : (
      <p>
        The plan has no herd or flock. <a href="/farm/herds/new">Add one</a>, then its head count is kept
        here.
      </p>
    )}
  </Page>
)

const MarketDay = (props: NotebookProps) => (
  <Page
    {...props}
    section="market"
    name="Market day"
    sum={marketSum(props.figures)}
    below={<FirstMarket {...props} />}
  >
    {props.figures.markets.length > 0 ? (
      <>
        <MarketFields {...sectionProps(props, 'market')} />
        <Button>Write market day</Button>
      </>
    ) : props.figures.plan === null ? (
      <p>There is no plan yet to keep a market in.</p>
    ) : null}
  </Page>
)

/** Where the plan has no market yet, one is named here; nothing else of it has to be known. */
const FirstMarket = ({ figures: { markets, plan }, newFormId }: NotebookProps) =>
  markets.length > 0 || plan === null ? null : (
    <NewMarket ids={{ formId: newFormId(), planId: plan.planId, basedOn: plan.revisionNo }} from="notebook" />
  )

const sectionProps = (props: NotebookProps, section: Section) => ({
  figures: props.figures,
  typed: props.typedOf(section),
  errors: props.errors,
})

/** `name` lets a browser keep one open; without it each opens by itself. */
const Page = ({
  section,
  name,
  sum,
  open,
  formIdOf,
  below,
  children,
}: NotebookProps & { section: Section; name: string; sum: string; below?: Child; children: Child }) => (
  <details name="notebook" open={open === section} id={section}>
    <summary class="notebook-head">
      <span class="notebook-name">{name}</span>
      <span class="notebook-sum">{sum}</span>
    </summary>
    <form method="post" action={`/farm/notebook/${section}`}>
      <FormId value={formIdOf(section)} />
      {children}
    </form>
    {below}
  </details>
)

const headsSum = ({ herds }: NotebookFigures): string =>
  herds
    .filter(({ heads }) => heads !== null)
    .map(({ name, kind, heads }) => `${name} ${headsSay(kind, heads!)}`)
    .join(' · ') || 'none counted yet'

const marketSum = ({ lastMarketDay, markets }: NotebookFigures): string => {
  if (!lastMarketDay) return 'none written yet'
  const name = markets.find(({ id }) => id === lastMarketDay.marketId)?.name ?? lastMarketDay.marketId
  return `${name}: ${formatCents(sumCents(lastMarketDay.takings.map(({ amountCents }) => amountCents)))}`
}

const Clocks = ({ figures, newFormId }: NotebookProps) =>
  figures.clocks.length > 0 ? (
    <NoticeSection label="Clocks that run">
      {figures.clocks.map((clock) => (
        <div class="clock">
          <p>
            {clock.personName}: {clock.subjectName}, for {hoursText(clock.minutes)} h.
          </p>
          <form method="post" action={`/farm/notebook/clock/${clock.id}/stop`}>
            <FormId value={newFormId()} />
            <Button>
              Stop and write<span class="hidden-text">: {clock.personName}</span>
            </Button>
          </form>
          <form method="post" action={`/farm/notebook/hours/${clock.id}/remove`}>
            <FormId value={newFormId()} />
            <Button quiet>
              Throw away<span class="hidden-text">: {clock.personName}</span>
            </Button>
          </form>
        </div>
      ))}
    </NoticeSection>
  ) : null

const Waiting = ({ figures: { waiting } }: { figures: NotebookFigures }) => {
  const count = waiting.goods + waiting.marketDays
  return count > 0 ? (
    <p class="no-print">
      <LinkButton quiet href="/farm/notebook/table">
        {notesWait(count)}
      </LinkButton>
    </p>
  ) : null
}

const Today = ({ figures, newFormId }: NotebookProps) =>
  figures.writtenToday.length > 0 ? (
    <section>
      <h2>Today so far</h2>
      <ul class="written">
        {figures.writtenToday.map((one) => (
          <li>
            <span>{one.says}</span>
            <form method="post" action={`/farm/notebook/${one.kind}/${one.id}/remove`}>
              <FormId value={newFormId()} />
              <Button quiet small label={`Remove: ${one.says}`}>
                Remove
              </Button>
            </form>
          </li>
        ))}
      </ul>
    </section>
  ) : null
