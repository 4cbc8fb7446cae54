// What payments of tax and contributions have in common on their pages: sums, then each move of money with what it counts as.
import type { Child } from 'hono/jsx'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, FormId, fieldOf, Hidden, Select } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import type { InputForm } from '../year-pack/inputs-shape.ts'

/** What a page of moves is given of the form that says what they count as. */
export interface MovesForm {
  year: number
  form: InputForm
  formId: string
}

interface MovesPageProps extends MovesForm {
  title: string
  purpose: string
  /** The page's own address, without the year. */
  at: string
  /** Shown instead of all else where there is nothing to say; null where there is. */
  empty: Child | null
  sums: Child
  askWhom: string
  caution: string
  /** Shown below all of it, also where there is nothing to say of moves. */
  after?: Child
  children: Child
}

export const MovesPage = (props: MovesPageProps) => {
  const { year, form, formId, title, purpose, at, empty, sums, askWhom, caution, children, after } = props
  return (
    <>
      <PageTitle purpose={purpose}>{title}</PageTitle>
      <ErrorSummary errors={form.errors} />
      <p>
        <a href={`/year-pack?year=${year}`}>Back to the year pack</a>
      </p>
      {empty ?? (
        <>
          {sums}
          <Caution askWhom={askWhom}>{caution}</Caution>
          <form method="post" class="pack-form" action={`${at}?year=${year}`}>
            <FormId value={form.typed.value('formId') || formId} />
            <Hidden name="basedOn" value={form.typed.value('basedOn')} />
            {children}
            <OverClosed typed={form.typed} errors={form.errors} />
            <ButtonRow>
              <Button>Save</Button>
            </ButtonRow>
          </form>
        </>
      )}
      {after}
    </>
  )
}

interface MoveFieldsProps {
  form: InputForm
  /** Name of the row's fields up to the part, like `p.m12`. */
  row: string
  legend: Child
  /** Said where two readings fit; empty where one does. */
  asked: string
  uses: readonly string[]
  words: Readonly<Record<string, string>>
  /** Fields beside what it was and for which year. */
  children?: Child
}

/** One move: what it is in the books, what it counts as, and for which year. */
export const MoveFields = ({ form, row, legend, asked, uses, words, children }: MoveFieldsProps) => (
  <fieldset class="group">
    <legend>{legend}</legend>
    {asked === '' ? null : <p class="notice">{asked}</p>}
    <div class="field-row">
      <Select
        {...fieldOf(form, `${row}.use`)}
        label="Counts as"
        options={uses.map((value) => ({ value, label: words[value] ?? value }))}
      />
      <Field {...fieldOf(form, `${row}.year`)} label="For the year" inputmode="numeric" maxlength={4} />
      {children}
    </div>
  </fieldset>
)
