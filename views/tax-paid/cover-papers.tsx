// Form 1095-A, entered as it came: three columns by month, a table a form.
import { monthNames } from '#calendar/month.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Checkbox, Field, fieldOf, Hidden, MoneyField } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import type { InputForm } from '../year-pack/inputs-shape.ts'

interface CoverPapersProps {
  year: number
  form: InputForm
  /** Tables shown: those kept and an empty one. */
  count: number
}

export const CoverPapersPage = ({ year, form, count }: CoverPapersProps) => (
  <>
    <PageTitle purpose="What the marketplace says of each month goes before what the plan expects: worksheet, tax set aside and projection take it from here.">
      Form <span class="whole-word">1095-A</span> of {year}
    </PageTitle>
    <ErrorSummary errors={form.errors} />
    <p>
      <a href={`/year-pack?year=${year}`}>Back to the year pack</a>
    </p>
    <Caution askWhom="the marketplace, or a licensed tax preparer">
      A form that is wrong is corrected by the marketplace, not here. Form 8962 works each month by itself
      where amounts change.
    </Caution>
    <form method="post" class="pack-form" action={`/year-pack/cover-papers?year=${year}`}>
      <Hidden name="basedOn" value={form.typed.value('basedOn')} />
      {Array.from({ length: count }, (_, i) => (
        <Paper form={form} place={i} />
      ))}
      <AheadOfPremium form={form} />
      <OverClosed typed={form.typed} errors={form.errors} />
      <ButtonRow>
        <Button>Save</Button>
      </ButtonRow>
    </form>
  </>
)

/** Shown once a credit was more than its premium. */
const AheadOfPremium = ({ form }: { form: InputForm }) =>
  form.typed.value('ahead') === 'yes' ||
  Object.keys(form.errors).some((path) => /\.advance\.m/.test(path)) ? (
    <Checkbox
      name="ahead"
      label="The form says so: more credit in advance than premium"
      checked={form.typed.value('ahead') === 'yes'}
    />
  ) : null

const columns = [
  ['premium', 'premium, A'],
  ['benchmark', 'second-lowest silver, B'],
  ['advance', 'credit in advance, C'],
] as const

const Paper = ({ form, place }: { form: InputForm; place: number }) => {
  const nameOf = (column: string, at: string) => `papers.${place}.${column}.${at}`
  const isOpen = monthNames.some((_, i) =>
    columns.some(([column]) => {
      const name = nameOf(column, `m${i + 1}`)
      return form.typed.value(name) !== '' || form.errors[name] !== undefined
    }),
  )
  const row = (at: string, when: string) => (
    <div class="field-row">
      {columns.map(([column, says]) => (
        <MoneyField {...fieldOf(form, nameOf(column, at))} label={`${when}: ${says}`} />
      ))}
    </div>
  )
  return (
    <fieldset class="group">
      <legend>Form {place + 1}</legend>
      <Field
        {...fieldOf(form, `papers.${place}.who`)}
        label="Whom it covers"
        hint="As Part II names them"
        maxlength={120}
      />
      {row('all', 'Every month')}
      <details open={isOpen}>
        <summary>Months that say otherwise</summary>
        <p>
          What is entered for a month goes before the row above. A month without coverage is 0 in each column.
        </p>
        {monthNames.map((name, i) => row(`m${i + 1}`, name))}
      </details>
    </fieldset>
  )
}
