// One form for a worker's pay: what was earned, what is kept back, and the employer's part beside it.
import { formatDollars } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { DayField, Field, FormId, fieldOf, MoneyField, type Option, Select } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import type { InputForm } from './inputs-shape.ts'

interface PayPageProps {
  form: InputForm
  wages: readonly Option[]
  money: readonly Option[]
  workers: readonly string[]
  /** Some books from which wages are paid have an account for state tax kept back. */
  hasState: boolean
  year: number
  /** Dollars in a year from which farm work is under the tax. */
  wageTests: { oneWorker: number; allWorkers: number }
}

export const PayPage = ({ form, wages, money, workers, hasState, year, wageTests }: PayPageProps) => {
  const field = (name: string) => fieldOf(form, name)
  const net = form.typed.value('net')
  return (
    <>
      <PageTitle purpose="Wages, what is kept back and the employer’s part are booked as one entry.">
        Pay a worker
      </PageTitle>
      <ErrorSummary errors={form.errors} />
      <p>
        <a href={`/year-pack/people?year=${year}#payroll`}>Back to people and payees</a>
      </p>
      <Caution askWhom="a payroll service or a licensed tax preparer">
        The rates are federal. One’s own children under 18, a husband or wife, pay in kind and workers from
        abroad have rules of their own: enter 0 where nothing is due. States ask for withholding, unemployment
        insurance and workers’ compensation beside it.
      </Caution>
      <form method="post" class="pack-form" action="/year-pack/pay">
        <FormId value={form.typed.value('formId')} />
        <div class="field-row">
          <Field {...field('worker')} label="Who was paid" list="workers" />
          <datalist id="workers">
            {workers.map((name) => (
              <option value={name} />
            ))}
          </datalist>
          <DayField {...field('day')} label="Paid on" />
        </div>
        <div class="field-row">
          <Select {...field('wages')} label="Wages go to" options={wages} />
          <Select {...field('money')} label="Paid from" options={money} />
        </div>
        <Amounts form={form} hasState={hasState} wageTests={wageTests} />
        {net === '' ? null : <p>To be paid out: {net}.</p>}
        <OverClosed typed={form.typed} errors={form.errors} />
        <ButtonRow>
          <Button>Book the pay</Button>
          <Button quiet name="fill" value="yes">
            Fill in by the rates
          </Button>
          <LinkButton quiet href={`/year-pack/people?year=${year}`}>
            Cancel
          </LinkButton>
        </ButtonRow>
      </form>
    </>
  )
}

const Amounts = ({ form, hasState, wageTests }: Pick<PayPageProps, 'form' | 'hasState' | 'wageTests'>) => {
  const field = (name: string) => fieldOf(form, name)
  return (
    <>
      <div class="field-row">
        <MoneyField {...field('gross')} label="Earned, before anything is kept back" />
        <MoneyField
          {...field('federal')}
          label="Federal income tax kept back"
          hint="By the worker’s Form W-4; of farm workers only where both agree or the tests of wages are met"
        />
        {hasState || form.errors.state || form.typed.value('state') !== '' ? (
          <MoneyField {...field('state')} label="State or local tax kept back" />
        ) : null}
      </div>
      <div class="field-row">
        <MoneyField
          {...field('kept')}
          label="Social Security and Medicare kept back"
          hint="Empty: by the rates, on the year’s wages so far, less what was kept back before"
        />
        <MoneyField
          {...field('employer')}
          label="Employer’s part"
          hint={`Empty: by the rates. None is due below ${formatDollars(wageTests.oneWorker)} to one farm worker and ${formatDollars(wageTests.allWorkers)} to all in the year`}
        />
      </div>
    </>
  )
}
