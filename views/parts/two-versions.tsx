// The page for two people who saved the same thing at once: both versions, and what can be done.
import type { Child } from 'hono/jsx'
import { instantName } from '#calendar/day.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from './button.tsx'
import { Hidden } from './field.tsx'
import { DataTable } from './table.tsx'

/** Where two versions differ, in words. */
export interface VersionRow {
  where: string
  first: string
  second: string
}

export interface TwoVersionsProps {
  /** As in “Two versions of the plan”. */
  what: string
  saved: { at: string; by: string } | null
  rows: readonly VersionRow[]
  /** The form that saves one’s own after theirs. */
  mine: { action: string; fields: readonly (readonly [name: string, value: string])[] }
  /** The page that shows theirs. */
  theirs: string
}

export const TwoVersionsPage = ({ what, saved, rows, mine, theirs }: TwoVersionsProps) => (
  <>
    <PageTitle purpose="This was saved at another screen after you opened it. Nothing of either is lost.">
      {`Two versions of ${what}`}
    </PageTitle>
    {saved === null ? null : (
      <p>
        Theirs was saved by {saved.by} on {instantName(saved.at)}.
      </p>
    )}
    <VersionTable
      caption="Where they differ"
      rows={rows}
      first="Theirs, saved"
      second="Yours, not saved yet"
      none="They say the same."
    />
    <form method="post" action={mine.action}>
      {mine.fields.map(([name, value]) => (
        <Hidden name={name} value={value} />
      ))}
      <ButtonRow>
        <Button>Save yours after theirs</Button>
        <LinkButton href={theirs} quiet>
          Keep theirs
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)

export const VersionTable = (props: {
  caption: string
  rows: readonly VersionRow[]
  first: string
  second: string
  none: string
}) =>
  props.rows.length === 0 ? (
    <p>{props.none}</p>
  ) : (
    <DataTable
      caption={props.caption}
      rows={props.rows}
      stack
      columns={[
        { title: 'Field', isHeader: true, cell: (row) => row.where },
        { title: props.first, cell: (row) => shown(row.first) },
        { title: props.second, cell: (row) => shown(row.second) },
      ]}
    />
  )

/** A whole part that came or went would be a wall of words: it is named, and opened when wanted. */
const shown = (text: string): Child => {
  if (text.length < 200) return text
  return (
    <details>
      <summary>the whole part</summary>
      {text}
    </details>
  )
}
