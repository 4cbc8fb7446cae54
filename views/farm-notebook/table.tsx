// What waits for the table at home, each with what the books would make of it.
import { type Day, dayName } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  DayField,
  type FieldErrors,
  FormId,
  fieldId,
  Hidden,
  MoneyField,
  type Option,
  Select,
} from '../parts/field.tsx'
import { Caution, EmptyState } from '../parts/message.tsx'
import { AskedBox } from '../parts/sure-box.tsx'
import { BatchSelect } from './batch-select.tsx'

interface Typed {
  /** The first open day, where its own lies in a closed month. */
  opensOn: Day | null
  typed: { value(name: string): string }
  errors: FieldErrors
}

export interface TableFigures {
  goods: (Typed & {
    id: string
    day: Day
    says: string
    isKitchen: boolean
    fromOptions: readonly Option[]
    toOptions: readonly Option[]
  })[]
  marketDays: (Typed & {
    id: string
    day: Day
    market: string
    cashCents: Cents
    /** What it cost to stand there; 0 where nothing is to be said of it. */
    feeCents: Cents
    cashOptions: readonly Option[]
    feeOptions: readonly Option[]
    costOptions: readonly Option[]
    salesOptions: readonly Option[]
    /** What brought it, each with the names of its fields. `name` is empty for what was not told apart. */
    products: readonly {
      name: string
      amountCents: Cents
      sales: string
      batch: string
      batches: readonly Option[]
    }[]
  })[]
}

interface TableProps {
  figures: TableFigures
  newFormId(): string
}

export const TablePage = ({ figures, newFormId }: TableProps) => (
  <>
    <PageTitle purpose="What was noted in the field becomes entries here, each by one press.">
      At the table
    </PageTitle>
    {figures.goods.length + figures.marketDays.length === 0 ? (
      <EmptyState href="/farm/notebook" action="Open the notebook">
        Nothing waits. Goods that left without money, and cash and fees of market days, are here until they
        are booked.
      </EmptyState>
    ) : null}
    {figures.goods.length > 0 ? <Goods figures={figures} newFormId={newFormId} /> : null}
    {figures.marketDays.length > 0 ? <MarketDays figures={figures} newFormId={newFormId} /> : null}
    <p class="no-print">
      <a href="/farm/notebook">The notebook</a>
    </p>
  </>
)

const formId = (newFormId: () => string, { typed }: Typed): string => typed.value('formId') || newFormId()

const BookedOn = ({ one }: { one: Typed & { id: string; day: Day } }) =>
  one.opensOn === null ? null : (
    <DayField
      name="day"
      label="Booked on"
      at={one.id}
      hint={`${dayName(one.day)} lies in a closed month: ${dayName(one.opensOn)} is the first open day`}
      value={one.typed.value('day')}
      error={one.errors.day}
    />
  )

const Goods = ({ figures, newFormId }: TableProps) => (
  <section aria-labelledby="goods-title">
    <h2 id="goods-title">Goods that left without money</h2>
    <ul class="at-the-table">
      {figures.goods.map((one, place) => (
        <li>
          <strong>{one.says}</strong>, {dayName(one.day)}
          <ErrorSummary errors={one.errors} at={one.id} />
          <form method="post" action={`/farm/notebook/table/goods/${one.id}`} aria-label={one.says}>
            <FormId value={formId(newFormId, one)} />
            <BookedOn one={one} />
            <MoneyField
              name="price"
              label="What one sells for"
              at={one.id}
              value={one.typed.value('price')}
              error={one.errors.price}
            />
            <Select
              name="fromAccount"
              label="Income of the farm"
              at={one.id}
              options={one.fromOptions}
              {...(one.isKitchen ? {} : { empty: 'Choose the account' })}
              value={one.typed.value('fromAccount')}
              error={one.errors.fromAccount}
            />
            <Select
              name="toAccount"
              label={one.isKitchen ? 'Cost of the house' : 'What it paid for'}
              at={one.id}
              options={one.toOptions}
              {...(one.isKitchen ? {} : { empty: 'Choose a cost of farm or house' })}
              value={one.typed.value('toAccount')}
              error={one.errors.toAccount}
            />
            <Button quiet={place > 0}>{one.isKitchen ? 'Book it on both sides' : 'Book it'}</Button>
            <Button quiet formaction={`/farm/notebook/table/goods/${one.id}/aside`}>
              Book nothing
            </Button>
          </form>
        </li>
      ))}
    </ul>
    <Caution askWhom="a licensed tax preparer">
      Bartered goods are income at what they sell for, which the instructions of Schedule F list on line 8
      (from memory): an account of that line is chosen first, if there is one. What the household eats of its
      own is reported to the preparer separately.
    </Caution>
  </section>
)

const MarketDays = ({ figures, newFormId }: TableProps) => (
  <section aria-labelledby="market-title">
    <h2 id="market-title">Cash and fees of market days</h2>
    <p>
      Cards come by the bank’s statement. Say where the cash and the checks went and how the fee was paid, so
      that nothing counts twice.
    </p>
    <ul class="at-the-table">
      {figures.marketDays.map((one, place) => (
        <li>
          <strong>
            {one.market}, {dayName(one.day)}
            {one.cashCents > 0 ? `: ${formatCents(one.cashCents)}` : ''}
            {one.feeCents > 0 ? `${one.cashCents > 0 ? ', ' : ': '}fee ${formatCents(one.feeCents)}` : ''}
          </strong>
          <ErrorSummary errors={one.errors} at={one.id} />
          <form
            method="post"
            action={`/farm/notebook/table/market/${one.id}`}
            aria-label={`${one.market}, ${dayName(one.day)}`}
          >
            <FormId value={formId(newFormId, one)} />
            <BookedOn one={one} />
            {one.cashCents > 0 ? <DaysCash one={one} /> : null}
            {one.feeCents > 0 ? <DaysFee one={one} /> : null}
            <Button quiet={place > 0 || figures.goods.length > 0}>
              Settle
              <span class="hidden-text">
                : {one.market}, {dayName(one.day)}
              </span>
            </Button>
          </form>
        </li>
      ))}
    </ul>
    <AllByBank figures={figures} newFormId={newFormId} />
  </section>
)

/** So many wait together that a press each is too much. */
const many = 3

const AllByBank = ({ figures: { marketDays }, newFormId }: TableProps) =>
  marketDays.length < many ? null : (
    <form method="post" action="/farm/notebook/table/markets">
      <FormId value={newFormId()} />
      {marketDays.map(({ id }) => (
        <Hidden name="days[]" value={id} />
      ))}
      <Button quiet>All {String(marketDays.length)}: the bank’s statements show cash and fees</Button>
    </form>
  )

type MarketDay = TableFigures['marketDays'][number]

const DaysCash = ({ one }: { one: MarketDay }) => (
  <>
    <Select
      name="cash"
      label="The cash is in"
      at={one.id}
      options={one.cashOptions}
      empty="At the bank: its statement shows it"
      value={one.typed.value('cash')}
      error={one.errors.cash}
    />
    <ProductSales one={one} />
  </>
)

const DaysFee = ({ one }: { one: MarketDay }) => (
  <>
    <Select
      name="fee"
      label={`The fee of ${formatCents(one.feeCents)} was paid`}
      at={one.id}
      options={one.feeOptions}
      empty="Choose how"
      value={one.typed.value('fee')}
      error={one.errors.fee}
    />
    <AskedBox id={fieldId('fee', one.id)} error={one.errors.fee} yes="Yes, it is another payment" />
    <Select
      name="feeCost"
      label="The fee is a cost of"
      at={one.id}
      options={one.costOptions}
      empty="Choose the cost"
      value={one.typed.value('feeCost')}
      error={one.errors.feeCost}
    />
  </>
)

/** Of each product the account of its sales and, where some are under way, its batch. */
const ProductSales = ({ one }: { one: MarketDay }) => (
  <>
    {one.products.map(({ name, amountCents, sales, batch, batches }) => (
      <>
        <Select
          name={sales}
          label={name === '' ? 'Sales' : `Sales of ${name}, ${formatCents(amountCents)}`}
          at={one.id}
          options={one.salesOptions}
          empty="Choose the account"
          value={one.typed.value(sales)}
          error={one.errors[sales]}
        />
        <BatchSelect
          name={batch}
          label={`Batch of ${name}`}
          at={one.id}
          batches={batches}
          value={one.typed.value(batch)}
          error={one.errors[batch]}
        />
      </>
    ))}
  </>
)
