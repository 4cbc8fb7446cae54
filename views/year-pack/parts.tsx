// Parts every section of the pack shares: its frame with heading and CSV, rows of amounts, and totals.
import type { Child } from 'hono/jsx'
import type { Cents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'

interface PackPartProps {
  id: string
  title: string
  of: string
  says: string
  csv?: string
  /** Wider than a phone: it scrolls there, so that a keyboard must reach it. */
  scrolls?: boolean
  children: Child
}

export const PackPart = ({ id, title, of, says, csv, scrolls, children }: PackPartProps) => (
  <section class="pack-part" tabindex={scrolls ? 0 : undefined} id={id} aria-labelledby={`${id}-title`}>
    <h2 id={`${id}-title`}>
      {title}, {of}
    </h2>
    <p class="pack-says">{says} Amounts in dollars.</p>
    {children}
    {csv ? (
      <p class="no-print pack-csv">
        <a href={csv}>
          This table as CSV
          <span class="hidden-text">
            : {title}, {of}
          </span>
        </a>
      </p>
    ) : null}
  </section>
)

interface AmountRowProps {
  label: Child
  amounts: readonly (Cents | null)[]
  href?: string | undefined
  note?: string | undefined
}

export const AmountRow = ({ label, amounts, href, note }: AmountRowProps) => (
  <tr>
    <th scope="row">
      {href ? <a href={href}>{label}</a> : label}
      {note ? <span class="pack-note"> {note}</span> : null}
    </th>
    {amounts.map((amount) => (
      <td class="number">{amount === null ? '' : formatCentsPlain(amount)}</td>
    ))}
  </tr>
)

export const TotalRow = ({ label, amounts, quiet }: AmountRowProps & { quiet?: boolean }) => (
  <tr class={quiet ? 'pack-subtotal' : 'pack-total'}>
    <th scope="row">{label}</th>
    {amounts.map((amount) => (
      <td class="number">{amount === null ? '' : formatCentsPlain(amount)}</td>
    ))}
  </tr>
)
