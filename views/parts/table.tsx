// A table: caption, headers with scope, numbers to the right, the same rows as CSV, pages when there are many.
import type { Child } from 'hono/jsx'
import { allOf } from '#money/lists.ts'
import { DollarsSaid, type ToldDollars } from './dollars.tsx'

export interface Column<Row> {
  title: Child
  cell: (row: Row) => Child
  isNumber?: boolean
  /** The column that names the row. */
  isHeader?: boolean
  /** Ticks and buttons: left out on paper. */
  isControl?: boolean
  /** Where it stands on a card: left of its name, at the right of its first line, or on a line of its own. Else after these, one beside another. */
  onCard?: keyof typeof cardClasses
  /** Left out on a narrow screen, where a line names what is, and the file has it. */
  isWide?: boolean
}

interface TableProps<Row> {
  caption: Child
  /** Said in place of a caption that is not plain text. */
  name?: string
  columns: readonly Column<Row>[]
  rows: readonly Row[]
  foot?: readonly Child[]
  csv?: string
  id?: string
  hideCaption?: boolean
  /** On a narrow screen each row becomes a small card with the column titles beside the values. */
  stack?: boolean
  /** On a narrow screen each row becomes a few lines: its name and what ends the first one, then the other values, figures alone with their titles. */
  cards?: boolean
  rowClass?: (row: Row) => string | undefined
  pager?: PagerProps
  /** Amounts of the plan: the table says in which dollars. */
  ofPlan?: boolean
  /** Amounts told in these dollars, whichever the page shows. */
  dollars?: ToldDollars
}

export function DataTable<Row>(props: TableProps<Row>) {
  const wide = props.columns.flatMap(({ isWide, title }) =>
    isWide && typeof title === 'string' ? [title] : [],
  )
  return (
    <div id={props.id}>
      {/* Wide tables scroll sideways in their frame, which the keyboard must reach too. */}
      <div class="table-frame" {...frameFor(props.name ?? props.caption)}>
        <table class={props.stack ? 'stack-small' : props.cards ? 'cards-small' : undefined}>
          <caption class={props.hideCaption ? 'hidden-text' : undefined}>{props.caption}</caption>
          <thead>
            <tr>
              {props.columns.map((column) => (
                <th scope="col" class={classOf(column)}>
                  {column.title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {props.rows.map((row) => (
              <tr class={props.rowClass?.(row)}>{props.columns.map((column) => bodyCell(column, row))}</tr>
            ))}
          </tbody>
          {props.foot ? <TableFoot cells={props.foot} columns={props.columns} /> : null}
        </table>
      </div>
      {wide.length > 0 ? (
        <p class="hint narrow-only">
          {wide.length > 5
            ? `${wide.length} columns are left out on this narrow screen.`
            : `Left out on this narrow screen: ${allOf(wide)}.`}
        </p>
      ) : null}
      {props.ofPlan || props.dollars ? <DollarsSaid of={props.dollars} /> : null}
      {props.csv || props.pager ? (
        <div class="table-foot no-print">
          {props.pager ? <Pager {...props.pager} /> : <span />}
          {props.csv ? <a href={props.csv}>This table as CSV</a> : null}
        </div>
      ) : null}
    </div>
  )
}

export const frameFor = (caption: Child) => ({
  tabindex: 0,
  role: 'group',
  'aria-label': typeof caption === 'string' ? caption : 'Table',
})

export interface PagerProps {
  /** Addresses of the pages before and after; left out at either end. */
  earlier?: string | undefined
  later?: string | undefined
  says: string
}

const Pager = ({ earlier, later, says }: PagerProps) => (
  <nav class="pager" aria-label="Pages of this table">
    <span>{says}</span>
    {later ? <a href={later}>Later</a> : null}
    {earlier ? <a href={earlier}>Earlier</a> : null}
  </nav>
)

const cardClasses = { start: 'starts-card', end: 'ends-card', line: 'card-line' } as const

const classOf = ({
  isNumber,
  isControl,
  onCard,
  isWide,
}: Pick<Column<never>, 'isNumber' | 'isControl' | 'onCard' | 'isWide'>) =>
  [
    isNumber ? 'number' : isControl ? 'no-print' : '',
    onCard ? cardClasses[onCard] : '',
    isWide ? 'wide-only' : '',
  ]
    .filter(Boolean)
    .join(' ') || undefined

function bodyCell<Row>(column: Column<Row>, row: Row) {
  const title = typeof column.title === 'string' ? { 'data-title': column.title } : {}
  const kind = classOf(column)
  return column.isHeader ? (
    <th scope="row" class={kind} {...title}>
      {column.cell(row)}
    </th>
  ) : (
    <td class={kind} {...title}>
      {column.cell(row)}
    </td>
  )
}

function TableFoot<Row>({ cells, columns }: { cells: readonly Child[]; columns: readonly Column<Row>[] }) {
  return (
    <tfoot>
      <tr>
        {cells.map((cell, index) => {
          const title = columns[index]?.title
          return (
            <td
              class={columns[index] && classOf(columns[index])}
              data-title={typeof title === 'string' ? title : undefined}
            >
              {cell}
            </td>
          )
        })}
      </tr>
    </tfoot>
  )
}
