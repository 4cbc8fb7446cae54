// People and payees of a year: forms to send, workers and their payroll, papers to receive, premiums by month.
import { monthNames } from '#calendar/month.ts'
import { payeeKinds } from '#ledger/tax/payee-kind.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { formatCents, formatCentsPlain, formatDollars } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { PeopleFigures } from '#today/year-pack/people-figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Checkbox, type FieldErrors, FormId, fieldOf, Hidden, MoneyField, Select } from '../parts/field.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import { DataTable } from '../parts/table.tsx'
import type { InputForm } from './inputs-shape.ts'
import { PayrollPart } from './payroll.tsx'

export interface PeopleProps {
  figures: PeopleFigures
  payees: InputForm
  papers: InputForm
  accountErrors: FieldErrors
  formIds: { payees: string; accounts: string }
  csv: (table: string) => string
}

export const PeoplePage = ({ figures, payees, papers, accountErrors, formIds, csv }: PeopleProps) => (
  <>
    <PageTitle purpose="Who was paid for work or rent, what workers got and what was kept back, and the papers that others send you.">
      People and payees of {figures.year}
    </PageTitle>
    <ErrorSummary errors={{ ...payees.errors, ...papers.errors, ...accountErrors }} />
    <p class="answer">{formsInWords(figures)}</p>
    <p>
      <a href={`/year-pack?year=${figures.year}`}>Back to the year pack</a>
    </p>
    <Payees figures={figures} form={payees} formId={formIds.payees} csv={csv('payees')} />
    <PayrollPart figures={figures} formId={formIds.accounts} csv={csv('workers')} />
    <Papers figures={figures} form={papers} csv={csv('papers')} />
    <Premiums figures={figures} csv={csv('premiums')} />
  </>
)

/** Of whom it must still be said who they are; then who gets a form. */
export function formsInWords({
  payees,
  lineCents,
  year,
}: Pick<PeopleFigures, 'payees' | 'lineCents' | 'year'>): string {
  if (lineCents === null) return `Who was paid in ${year}, without the Forms 1099 of that year.`
  const over = payees.filter(({ forms }) => forms.length > 0)
  const named = (of: typeof over) => allOf(of.map(({ name }) => name))
  const unknown = over.filter(({ kind }) => kind === null)
  if (unknown.length > 0)
    return `Say who ${named(unknown)} ${unknown.length === 1 ? 'is' : 'are'}: paid enough in ${year} for a Form 1099.`
  return over.length === 0
    ? `Nobody was paid enough in ${year} for a Form 1099.`
    : `${over.length === 1 ? 'A Form 1099 of' : 'Forms 1099 of'} ${year} ${over.length === 1 ? 'goes' : 'go'} to ${named(over)}.`
}

export const payeeKindWords: Record<(typeof payeeKinds)[number], string> = {
  worker: 'a worker on the payroll',
  contractor: 'paid by the job, or a landlord',
  company: 'a corporation or a seller of goods',
}

interface PayeesProps {
  figures: PeopleFigures
  form: InputForm
  formId: string
  csv: string
}

const Payees = ({ figures, form, formId, csv }: PayeesProps) => {
  const { year, payees, lineCents } = figures
  const names = payees.map(({ name }) => name)
  return (
    <section id="payees" aria-labelledby="payees-title">
      <h2 id="payees-title">Paid for work or rent</h2>
      <p>
        {lineCents === null
          ? `From which amount on a Form 1099 was due in ${year} is not kept here.`
          : `A payee who got ${formatDollars(lineCents / 100)} or more in ${year} and is not a corporation gets Form 1099-NEC for work or 1099-MISC for rent, by January 31. What a card paid is reported by its processor. A lawyer gets one even as a corporation. Their numbers are not kept here: the signed forms belong into a folder.`}
      </p>
      {payees.length === 0 ? (
        <p>
          No entry of {year} names somebody who was paid under a line for work or rent. Enter payees with
          entries, and they show here.
        </p>
      ) : (
        <form method="post" class="pack-form" action={`/year-pack/people?year=${year}`}>
          <FormId value={form.typed.value('formId') || formId} />
          <Hidden name="basedOn" value={form.typed.value('basedOn')} />
          <PayeeRows rows={payees.map((payee, i) => ({ payee, i }))} form={form} names={names} />
          <OverClosed {...form} />
          <ButtonRow>
            <Button>Save who they are</Button>
          </ButtonRow>
          <p class="no-print">
            <a href={csv}>Payees as CSV</a>
          </p>
        </form>
      )}
    </section>
  )
}

/** Those below the line whom nobody named stand folded: they need nothing, but for another spelling of one. */
const PayeeRows = ({ rows, form, names }: PayeeRowsProps) => {
  const isQuiet = ({ payee, i }: PayeeRowsProps['rows'][number]) =>
    payee.forms.length === 0 && payee.kind === null && !form.errors[`payees.${i}.sameAs`]
  const quiet = rows.filter(isQuiet)
  const row = ({ payee, i }: PayeeRowsProps['rows'][number]) => (
    <Payee payee={payee} i={i} form={form} names={names} />
  )
  return (
    <>
      {rows.filter((one) => !isQuiet(one)).map(row)}
      {quiet.length === 0 ? null : (
        <details>
          <summary>
            Below the line: {quiet.length} {quiet.length === 1 ? 'payee' : 'payees'}
          </summary>
          {quiet.map(row)}
        </details>
      )}
    </>
  )
}

interface PayeeRowsProps {
  rows: readonly { payee: PeopleFigures['payees'][number]; i: number }[]
  form: InputForm
  names: readonly string[]
}

interface PayeeProps {
  payee: PeopleFigures['payees'][number]
  i: number
  form: InputForm
  names: readonly string[]
}

const Payee = ({ payee, i, form, names }: PayeeProps) => {
  const name = (part: string) => `payees.${i}.${part}`
  return (
    <fieldset class="group">
      <legend>
        {payee.name}: {paidWords(payee)}
      </legend>
      <Hidden name={name('name')} value={payee.name} />
      {payee.forms.length > 0 ? (
        <p class="notice">
          {payee.kind === null
            ? `Over the line: say who it is. Paid for work or rent, and no corporation or shop, it gets Form ${allOf(payee.forms)}.`
            : `Gets Form ${allOf(payee.forms)}.`}
          {payee.kind !== null && !payee.formOnFile ? ' Their Form W-9 is not in your folder.' : ''}
        </p>
      ) : null}
      <div class="field-row">
        <Select
          {...fieldOf(form, name('kind'))}
          label="Who it is"
          options={payeeKinds.map((value) => ({ value, label: payeeKindWords[value] }))}
          empty="Not entered"
        />
        {names.length > 1 ? (
          <Select
            {...fieldOf(form, name('sameAs'))}
            label="Another spelling of"
            options={names
              .filter((other) => other !== payee.name)
              .map((other) => ({ value: other, label: other }))}
            empty="None: it is its own name"
          />
        ) : null}
      </div>
      <Checkbox
        {...fieldOf(form, name('formOnFile'))}
        label="Their signed Form W-9 or W-4 lies in the folder"
      />
      {payee.spellings.map((spelling) => (
        <Checkbox
          name="apart"
          at={`${i}-${spelling}`}
          checkedValue={spelling}
          checked={false}
          label={`“${spelling}” is somebody else: count it apart again`}
        />
      ))}
    </fieldset>
  )
}

const paidWords = ({ workCents, rentCents, byCardCents }: PayeeProps['payee']): string =>
  [
    workCents === 0 ? '' : `${formatCents(workCents)} for work`,
    rentCents === 0 ? '' : `${formatCents(rentCents)} for rent`,
    byCardCents === 0 ? '' : `${formatCents(byCardCents)} by card`,
  ]
    .filter(Boolean)
    .join(', ')

const Papers = ({ figures, form, csv }: { figures: PeopleFigures; form: InputForm; csv: string }) => (
  <section id="papers" aria-labelledby="papers-title">
    <h2 id="papers-title">Papers that come to you</h2>
    <p>
      By the books these must come by the middle of February. Write down what each says: where it differs, one
      of the two is wrong, and the return takes the paper.
    </p>
    {figures.papers.length === 0 ? (
      <p>The books of {figures.year} hold nothing that a paper is sent about.</p>
    ) : (
      <form method="post" class="pack-form" action={`/year-pack/people/papers?year=${figures.year}`}>
        <Hidden name="basedOn" value={form.typed.value('basedOn')} />
        {figures.papers.map((paper) => (
          <MoneyField
            {...fieldOf(form, `paper.${paper.key}`)}
            label={`${paper.paper}: ${paper.account}${paper.person ? `, ${paper.person}` : ''}`}
            hint={`${paper.side}, in the books: ${formatCents(paper.bookedCents)}${differs(paper.paperCents, paper.bookedCents)}`}
          />
        ))}
        <OverClosed {...form} />
        <ButtonRow>
          <Button quiet>Save what the papers say</Button>
        </ButtonRow>
        <p class="no-print">
          <a href={csv}>Papers as CSV</a>
        </p>
      </form>
    )}
  </section>
)

const differs = (paper: Cents | null, booked: Cents): string => {
  if (paper === null) return ''
  return paper === booked
    ? '; the paper says the same'
    : `; the paper says ${formatCents(cents(Math.abs(paper - booked)))} ${paper > booked ? 'more' : 'less'}`
}

const Premiums = ({ figures, csv }: { figures: PeopleFigures; csv: string }) =>
  figures.premiums.length === 0 ? null : (
    <section id="premiums" aria-labelledby="premiums-title">
      <h2 id="premiums-title">Health premiums by month</h2>
      <p>
        As paid, for Forms 8962 and 7206. Form 1095-A has the full premium and the benchmark of each month.
      </p>
      <DataTable
        caption="Premiums paid"
        rows={figures.premiums}
        stack
        csv={csv}
        columns={[
          { title: 'Account', isHeader: true, cell: (row) => row.name },
          { title: 'Whose', cell: (row) => row.person ?? 'all' },
          ...monthNames.map((title, i) => ({
            title: title.slice(0, 3),
            isNumber: true,
            cell: (row: PeopleFigures['premiums'][number]) =>
              row.monthsCents[i] === 0 ? '' : formatCentsPlain(row.monthsCents[i]!),
          })),
        ]}
        foot={[
          'All',
          '',
          ...monthNames.map((_, i) => {
            const sum = sumCents(figures.premiums.map(({ monthsCents }) => monthsCents[i]!))
            return sum === 0 ? '' : formatCentsPlain(sum)
          }),
        ]}
      />
    </section>
  )
