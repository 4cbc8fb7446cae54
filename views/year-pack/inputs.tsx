// What the books do not know: said once a year, market values, items of the year's end, and stock and equipment.
import { dayName } from '#calendar/day.ts'
import { quantityLeft } from '#ledger/reports/sold-parts.ts'
import { type Holding, holdingKindNames } from '#ledger/reports/stock-inventory.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { FormId, fieldOf, Hidden, MoneyField, PercentField } from '../parts/field.tsx'
import { Caution, EmptyState } from '../parts/message.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import { DataTable } from '../parts/table.tsx'
import { AccrualForm, ThingValues } from './inputs-of-end.tsx'
import type { InputForm, PackInputs } from './inputs-shape.ts'

interface InputsProps {
  inputs: PackInputs
  said: InputForm
  market: InputForm
  things: InputForm
  accrual: InputForm
  formIds: { market: string; things: string; accrual: string; removal: (id: string) => string }
}

export const PackInputsPage = ({ inputs, said, market, things, accrual, formIds }: InputsProps) => (
  <>
    <PageTitle
      help="yearEnd"
      purpose="What the year’s papers need beside the entries. Leave empty what you do not know: the pack then says what it leaves out."
    >
      For the year pack {inputs.year}
    </PageTitle>
    <ErrorSummary errors={{ ...said.errors, ...market.errors, ...things.errors, ...accrual.errors }} />
    <p>
      <a href={`/year-pack?year=${inputs.year}`}>Back to the year pack</a>
    </p>
    <SaidForm inputs={inputs} form={said} />
    <MarketForm inputs={inputs} form={market} formId={formIds.market} />
    <ThingValues year={inputs.year} things={inputs.things} form={things} formId={formIds.things} />
    <AccrualForm inputs={inputs} form={accrual} formId={formIds.accrual} removal={formIds.removal} />
    <HoldingsList inputs={inputs} />
  </>
)

const SaidForm = ({ inputs, form }: { inputs: PackInputs; form: InputForm }) => (
  <section id="said" aria-labelledby="said-title">
    <h2 id="said-title">Once a year</h2>
    <form method="post" class="pack-form" action={`/year-pack/inputs/said?year=${inputs.year}`}>
      <Hidden name="basedOn" value={form.typed.value('basedOn') || String(inputs.revision)} />
      <div class="value-fields">
        <PercentField
          {...fieldOf(form, 'deferredTaxRate')}
          label="Tax rate on unrealized gains, percent"
          hint="Your own guess at income and self-employment tax together, if everything were sold. Empty leaves it out."
        />
        <MoneyField
          {...fieldOf(form, 'unpaidLabor')}
          label="What your own unpaid farm work is worth in the year"
          hint="Hours times what you would pay someone. Needed for rates of return and profit margin."
        />
        <MoneyField {...fieldOf(form, 'replacement')} label="Cash needed a year to replace what wears out" />
        {inputs.loans.map((loan) => (
          <MoneyField
            name={`due.a${loan.id}`}
            label={`${loan.name}, ${loan.side}: falls due within twelve months`}
            hint={`Owed at the year’s end: ${formatCents(loan.owedCents)}${loan.byTermsCents === null ? '' : `; by its terms ${formatCents(loan.byTermsCents)} of it falls due`}`}
            value={form.typed.value(`due.a${loan.id}`)}
            error={form.errors[`due.a${loan.id}`]}
          />
        ))}
      </div>
      <OverClosed typed={form.typed} errors={form.errors} />
      <ButtonRow>
        <Button>Save</Button>
      </ButtonRow>
    </form>
  </section>
)

const MarketForm = ({ inputs, form, formId }: { inputs: PackInputs; form: InputForm; formId: string }) => (
  <section id="market" aria-labelledby="market-title">
    <h2 id="market-title">Market values on December 31, {inputs.year}</h2>
    {inputs.lasting.length === 0 ? (
      <p>No account holds land, buildings, equipment or stock yet.</p>
    ) : (
      <form method="post" class="pack-form" action={`/year-pack/inputs/market?year=${inputs.year}`}>
        <FormId value={form.typed.value('formId') || formId} />
        <p class="hint">A value here is of all that the account holds; single things are valued below.</p>
        <div class="value-fields">
          {inputs.lasting.map((account) => (
            <MoneyField
              {...fieldOf(form, `market.a${account.id}`)}
              label={`${account.name}, ${account.side}`}
              hint={
                account.booksCents < 0
                  ? `In the books: ${formatCents(account.booksCents)}. Empty: what the inventory has deducted of things that are valued no longer counts, the rest does.`
                  : `In the books: ${formatCents(account.booksCents)}`
              }
            />
          ))}
        </div>
        <OverClosed typed={form.typed} errors={form.errors} />
        <ButtonRow>
          <Button quiet>Save these values</Button>
        </ButtonRow>
      </form>
    )}
  </section>
)

const goneWords = ({ disposedDay, quantity, parts = [] }: Holding): string =>
  disposedDay
    ? dayName(disposedDay)
    : parts.length > 0
      ? `${quantityLeft({ quantity, parts })} of ${quantity} left`
      : ''

const HoldingsList = ({ inputs }: { inputs: PackInputs }) => (
  <section id="holdings" aria-labelledby="holdings-title">
    <h2 id="holdings-title">Stock and equipment</h2>
    <Caution askWhom="a licensed tax preparer">
      What may be deducted at once, and what each thing’s class is, decides the year’s tax.
    </Caution>
    {inputs.holdings.length === 0 ? (
      <EmptyState href={`/year-pack/holdings/new?year=${inputs.year}`} action="Add the first">
        The inventory and the depreciation schedule are made from what you list here.
      </EmptyState>
    ) : (
      <>
        <DataTable
          caption="What there is"
          rows={inputs.holdings}
          stack
          columns={[
            {
              title: 'What',
              isHeader: true,
              cell: (one) => <a href={`/year-pack/holdings/${one.id}?year=${inputs.year}`}>{one.name}</a>,
            },
            { title: 'Kind', cell: (one) => holdingKindNames[one.kind] },
            { title: 'Since', cell: (one) => dayName(one.acquiredDay) },
            { title: 'Cost', isNumber: true, cell: (one) => formatCents(one.costCents) },
            { title: 'Gone', cell: goneWords },
          ]}
        />
        <LinkButton href={`/year-pack/holdings/new?year=${inputs.year}`} quiet>
          Add stock or equipment
        </LinkButton>
      </>
    )}
  </section>
)
