// Changing several entries of a register: the chosen lines, what is to change about them, and then what would be booked.
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, fieldId, fieldOf, Hidden, RadioGroup, Select } from '../parts/field.tsx'
import { SideWord } from '../parts/side.tsx'
import { DataTable } from '../parts/table.tsx'
import type { ChangePageProps } from './change-figures.ts'
import { Preview } from './change-preview.tsx'
import { entryDay } from './entry-day.tsx'
import { registerAddress, TickLine } from './tick-line.tsx'

export const ChangePage = (props: ChangePageProps) => {
  const { account, side, preview } = props.figures
  return (
    <>
      <PageTitle purpose="Nothing recorded is altered: each entry is reversed and recorded again on its own date, all at once.">
        Change entries of {account.name}, <SideWord kind={side.kind}>{side.name}</SideWord>
      </PageTitle>
      <ErrorSummary errors={props.errors} title="Nothing is changed. Please fix the following" />
      {preview ? <Preview {...props} preview={preview} /> : null}
      <section aria-labelledby="choose-title">
        <h2 id="choose-title">{preview ? 'Choose otherwise' : 'What is to change'}</h2>
        <ChooseForm {...props} />
      </section>
    </>
  )
}

const ChooseForm = (props: ChangePageProps) => {
  const { figures, typed, errors } = props
  const { account } = figures
  return (
    <form method="get" action={`/books/accounts/${account.id}/change`}>
      <Hidden name="look" value="yes" />
      <Hidden name="back" value={props.back} />
      <div class="field-row">
        <Select
          {...fieldOf({ typed, errors }, 'account')}
          label="Other account"
          options={props.accounts}
          empty="No change"
        />
        {props.enterprises.length === 0 ? null : (
          <Select
            {...fieldOf({ typed, errors }, 'enterprise')}
            label="Enterprise"
            options={props.enterprises}
            empty="No change"
          />
        )}
        <Field {...fieldOf({ typed, errors }, 'payee')} label="With whom" hint="Empty leaves it" />
        <Field {...fieldOf({ typed, errors }, 'memo')} label="Note" hint="Empty leaves it" />
      </div>
      <RadioGroup
        name="lines"
        label="What goes to the other account"
        value={typed.value('lines')}
        error={errors.lines}
        options={[
          { value: 'chosen', label: `The checked lines, out of ${account.name}` },
          {
            value: 'others',
            label: 'The other side of the same entries',
            hint: `What stands in ${account.name} stays`,
          },
        ]}
      />
      <ChosenTable {...props} />
      <ButtonRow>
        <Button>Look at what would be booked</Button>
        <LinkButton quiet href={registerAddress(account.id, props.back)}>
          Back to the register
        </LinkButton>
      </ButtonRow>
    </form>
  )
}

const ChosenTable = ({ figures, errors }: ChangePageProps) => (
  <div id={fieldId('ticked')} tabindex={-1}>
    {errors.ticked ? (
      <p class="field-error">
        <span class="hidden-text">Error: </span>
        {errors.ticked}
      </p>
    ) : null}
    {figures.rows.length === 0 ? null : (
      <DataTable
        caption="Checked lines"
        rows={figures.rows}
        stack
        columns={[
          { title: 'Change', cell: (row) => <TickLine row={row} isTicked /> },
          entryDay,
          { title: 'With whom', cell: (row) => row.payee || row.memo },
          { title: 'Note', cell: (row) => (row.payee ? row.memo : '') },
          { title: 'Other account', cell: (row) => row.others.map((other) => other.name).join(', ') },
          { title: 'Amount', isNumber: true, cell: (row) => formatCents(row.amountCents) },
        ]}
      />
    )}
  </div>
)
