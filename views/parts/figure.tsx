// One figure with what it is made of: the entries, the rule and its source, or the months, behind a disclosure.
import type { Child } from 'hono/jsx'
import { Trend, type TrendProps } from '../charts/trend.tsx'
import { type Word, wordAddress } from '../settings/glossary.ts'

export interface MadeOf {
  /** One sentence: how the figure comes about. */
  says: string
  /** The parts, written out; the last one may be the total. */
  rows?: readonly { label: string; value: string; href?: string; isTotal?: boolean }[]
  /** The published rule behind it. */
  source?: { text: string; href?: string }
  /** Where the parts stand in full. */
  more?: { text: string; href: string }
}

export interface FigureProps {
  label: Child
  /** Its word in the glossary: the label leads there. */
  word?: Word
  value: Child
  note?: Child
  madeOf?: MadeOf | undefined
  /** The twelve months behind it, beside it. */
  trend?: TrendProps
  large?: boolean
  id?: string
}

export const Figure = ({ label, word, value, note, madeOf, trend, large, id }: FigureProps) => (
  <div class={large ? 'figure figure-large' : 'figure'} id={id}>
    <p class="figure-label">
      {word ? (
        <a class="word" href={wordAddress(word)}>
          {label}
        </a>
      ) : (
        label
      )}
    </p>
    {trend ? (
      <div class="figure-with-trend">
        <p class="figure-value">{value}</p>
        <Trend {...trend} />
      </div>
    ) : (
      <p class="figure-value">{value}</p>
    )}
    {note ? <p class="figure-note">{note}</p> : null}
    {madeOf ? <MadeOfDetails {...madeOf} of={label} /> : null}
  </div>
)

export const Figures = ({ children }: { children: Child }) => <div class="figures">{children}</div>

/** The disclosure by itself, for figures that stand in a sentence or a table. */
/** `named` where several stand in a row, each with a name of its own in sight. */
export const MadeOfDetails = ({
  says,
  rows,
  source,
  more,
  of,
  named = 'What this is made of',
}: MadeOf & { of?: Child; named?: string }) => (
  <details class="made-of">
    <summary>
      {named}
      {of ? <span class="hidden-text">: {of}</span> : null}
    </summary>
    <p>{says}</p>
    {rows && rows.length > 0 ? (
      <ul>
        {rows.map((row) => (
          <li class={row.isTotal ? 'total' : undefined}>
            <span>{row.href ? <a href={row.href}>{row.label}</a> : row.label}</span>
            <span>{row.value}</span>
          </li>
        ))}
      </ul>
    ) : null}
    {source ? (
      <p class="source">
        Source: <cite>{source.href ? <a href={source.href}>{source.text}</a> : source.text}</cite>
      </p>
    ) : null}
    {more ? (
      <p>
        <a href={more.href}>{more.text}</a>
      </p>
    ) : null}
  </details>
)
