// Doubtful transactions on the desk: those of one reason are ticked and decided together, nothing is in the books before that.
import { Button, ButtonRow } from '../parts/button.tsx'
import { fieldId } from '../parts/field.tsx'
import { type DeskRow, LineFacts } from './line-facts.tsx'

/** Part of the desk's form, so that what is chosen for other lines goes along. */
export const Doubtful = ({ rows }: { rows: readonly DeskRow[] }) => {
  const reasons = [...new Set(rows.map(reasonOf))]
  return (
    <section aria-labelledby="doubtful-title">
      <h2 id="doubtful-title">Doubtful transactions</h2>
      <p>
        These may be transactions that the books have already. They are not in the books until you choose.
      </p>
      {reasons.map((reason, group) => (
        <DoubtfulGroup rows={rows.filter((row) => reasonOf(row) === reason)} group={group} />
      ))}
    </section>
  )
}

/** What was seen, without the names and figures in it. */
const reasonOf = (row: DeskRow): string =>
  row.hasEarlier ? '' : row.doubt.replace(/\u201c[^\u201d]*\u201d|\d+/g, '')

/** Lines of one reason are decided together; one that may replace another line is looked at by itself. */
const DoubtfulGroup = ({ rows, group }: { rows: readonly DeskRow[]; group: number }) => (
  <>
    <ul class="sorting-lines">
      {rows.map((row) => (
        <li class="sorting-line">
          <LineFacts row={row} />
          <p class="hint">{row.doubt}</p>
          <div class="sorting-choice">
            {row.hasEarlier ? null : <DoubtfulTick row={row} group={group} />}
            <button type="submit" class="link-like" name="go" value={`line:${row.id}`}>
              {row.hasEarlier ? 'Decide' : 'Decide alone'}
              <span class="hidden-text"> on {row.payee || row.memo}</span>
            </button>
          </div>
        </li>
      ))}
    </ul>
    {rows[0]?.hasEarlier ? null : (
      <ButtonRow>
        <Button quiet name="decide" value={`aside.${group}`}>
          Skip the checked: the books have them
        </Button>
        <Button quiet name="decide" value={`genuine.${group}`}>
          Keep the checked to sort: they are new
        </Button>
      </ButtonRow>
    )}
  </>
)

const DoubtfulTick = ({ row, group }: { row: DeskRow; group: number }) => (
  <div class="choice">
    <input
      type="checkbox"
      id={fieldId(`doubtful.${row.id}`)}
      name={`doubtful.${group}[]`}
      value={String(row.id)}
      checked={row.isLikelyTwin}
    />
    <label for={fieldId(`doubtful.${row.id}`)}>
      Check<span class="hidden-text"> {row.payee || row.memo}</span>
    </label>
  </div>
)
