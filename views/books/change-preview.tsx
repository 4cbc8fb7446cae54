// What a change of several entries would book, what must stay as it is and why, and the button that books it.
import { formatCents } from '#money/format.ts'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { FormId, Hidden } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { type Column, DataTable } from '../parts/table.tsx'
import type { ChangePageProps, ChangePreview } from './change-figures.ts'
import { entryDay } from './entry-day.tsx'
import { registerAddress } from './tick-line.tsx'

type Props = ChangePageProps & { preview: ChangePreview }

export const Preview = (props: Props) => {
  const { booked, staying } = props.preview
  return (
    <section aria-labelledby="preview-title">
      <h2 id="preview-title">What would be booked</h2>
      {booked.length === 0 ? (
        <EmptyState>None of these can be changed this way. The reason is beside each.</EmptyState>
      ) : (
        <BookForm {...props} />
      )}
      {staying.length === 0 ? null : <Staying {...props} />}
      {booked.length === 0 ? null : <Booked {...props} />}
    </section>
  )
}

/** Only what was shown as possible goes out with it: the person has seen what stays. */
const BookForm = ({ figures, preview, typed, formId, back }: Props) => {
  const { booked, staying, effects } = preview
  const count = booked.length
  return (
    <form method="post" action={`/books/accounts/${figures.account.id}/change`}>
      <FormId value={formId} />
      {['account', 'enterprise', 'payee', 'memo', 'lines'].map((name) => (
        <Hidden name={name} value={typed.value(name)} />
      ))}
      <Hidden name="back" value={back} />
      {booked.flatMap((entry) => entry.postingIds.map((id) => <Hidden name="ticked[]" value={String(id)} />))}
      <p>
        {count === 1 ? '1 entry is' : `${count} entries are`} reversed and recorded again.{' '}
        {staying.length === 0
          ? ''
          : `${staying.length === 1 ? '1 entry stays as it is, for the reason below' : `${staying.length} entries stay as they are, for the reasons below`}. `}
        {effects.length === 0
          ? 'No balance changes.'
          : `Balances: ${effects.map((one) => `${one.name} ${signed(one.changeCents)}`).join(', ')}.`}
      </p>
      <ButtonRow>
        <Button>{count === 1 ? 'Book this change' : `Book these ${count} changes`}</Button>
        <LinkButton quiet href={registerAddress(figures.account.id, back)}>
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
  )
}

const Booked = ({ preview, csv }: Props) => (
  <DataTable
    caption="Reversed and recorded again"
    rows={preview.booked}
    stack
    {...csvAt(csv?.('booked'))}
    columns={[...entryColumns, { title: 'What changes', cell: (row) => lines(row.says) }]}
  />
)

const Staying = ({ preview, csv }: Props) => (
  <DataTable
    caption="Staying as they are"
    rows={preview.staying}
    stack
    {...csvAt(csv?.('staying'))}
    columns={[...entryColumns, { title: 'Why', cell: (row) => row.why }]}
  />
)

const csvAt = (address: string | undefined) => (address === undefined ? {} : { csv: address })

type Looked = ChangePreview['staying'][number] | ChangePreview['booked'][number]

const entryColumns: readonly Column<Looked>[] = [
  entryDay,
  { title: 'With whom', cell: (row) => row.payee },
  { title: 'Amount', isNumber: true, cell: (row) => formatCents(row.amountCents) },
]

const lines = (texts: readonly string[]) => (
  <span>
    {texts.map((text, index) => (
      <>
        {index > 0 ? <br /> : null}
        {text}
      </>
    ))}
  </span>
)

const signed = (amount: ChangePreview['effects'][number]['changeCents']): string =>
  amount > 0 ? `+${formatCents(amount)}` : formatCents(amount)
