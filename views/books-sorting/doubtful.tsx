// Doubtful lines on the desk: those of one reason are ticked and decided together, nothing is in the books before that.
import { Button, ButtonRow } from '../parts/button.tsx'
import { FormId, fieldId } from '../parts/field.tsx'
import { type DeskRow, LineFacts } from './line-facts.tsx'

interface DoubtfulProps {
  rows: readonly DeskRow[]
  newFormId: () => string
  address: string
}

export const Doubtful = (props: DoubtfulProps) => {
  const reasons = [...new Set(props.rows.map(reasonOf))]
  return (
    <section aria-labelledby="doubtful-title">
      <h2 id="doubtful-title">Doubtful lines</h2>
      <p>These may be movements that the books have already. They are not in the books until you say so.</p>
      {reasons.map((reason) => (
        <DoubtfulGroup {...props} rows={props.rows.filter((row) => reasonOf(row) === reason)} />
      ))}
    </section>
  )
}

/** What was seen, without the names and figures in it. */
const reasonOf = (row: DeskRow): string => (row.hasEarlier ? '' : row.doubt.replace(/“[^”]*”|\d+/g, ''))

/** Lines of one reason are decided together; one that may replace another line is looked at by itself. */
const DoubtfulGroup = (props: DoubtfulProps) => {
  const [first] = props.rows
  const list = (
    <ul class="sorting-lines">
      {props.rows.map((row) => (
        <li class="sorting-line">
          <LineFacts row={row} />
          <p class="hint">{row.doubt}</p>
          <div class="sorting-choice">
            {row.hasEarlier ? null : <DoubtfulTick row={row} />}
            <a href={`/books/sorting/lines/${row.id}`}>
              {row.hasEarlier ? 'Decide' : 'Decide alone'}
              <span class="hidden-text"> on {row.payee || row.memo}</span>
            </a>
          </div>
        </li>
      ))}
    </ul>
  )
  if (first?.hasEarlier) return list
  return (
    <form method="post" action={props.address} class="sorting-form">
      <FormId value={props.newFormId()} />
      {list}
      <ButtonRow>
        <Button quiet name="how" value="aside">
          Set the ticked aside: the books have them
        </Button>
        <Button quiet name="how" value="genuine">
          Let the ticked wait: they are their own
        </Button>
      </ButtonRow>
    </form>
  )
}

const DoubtfulTick = ({ row }: { row: DeskRow }) => (
  <div class="choice">
    <input
      type="checkbox"
      id={fieldId(`doubtful.${row.id}`)}
      name="doubtful[]"
      value={String(row.id)}
      checked={row.isLikelyTwin}
    />
    <label for={fieldId(`doubtful.${row.id}`)}>
      Tick<span class="hidden-text"> {row.payee || row.memo}</span>
    </label>
  </div>
)
