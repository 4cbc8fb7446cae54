// The page for two people who saved the same thing at once: both versions, and what can be done.
import type { Child } from 'hono/jsx'
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
  /** `isHere`: by the browser that asks. */
  saved: { when: string; by: string; isHere: boolean } | null
  rows: readonly VersionRow[]
  /** The form that saves one’s own after theirs. */
  mine: { action: string; fields: readonly (readonly [name: string, value: string])[] }
  /** The page that shows theirs. */
  theirs: string
  /** Where one and the same form was sent twice and says something else now: nobody else comes into it. */
  isSameForm?: true
}

const wordsOf = (isSameForm: boolean, isHere: boolean) =>
  isSameForm
    ? {
        purpose: 'This form is in the books already, and it books once. Nothing was added.',
        by: 'Booked by',
        first: 'In the books',
        second: 'Sent now, not booked',
        mine: 'Book it as another one',
        theirs: 'Keep what is booked',
      }
    : isHere
      ? {
          purpose:
            'This was saved in another window here, or before you went back, after you opened it. Nothing of either is lost.',
          by: 'It was saved by',
          first: 'Saved already',
          second: 'Sent now, not saved yet',
          mine: 'Save this one after it',
          theirs: 'Keep what is saved',
        }
      : {
          purpose: 'This was saved on another device after you opened it. Nothing of either is lost.',
          by: 'Theirs was saved by',
          first: 'Theirs, saved',
          second: 'Yours, not saved yet',
          mine: 'Save yours after theirs',
          theirs: 'Keep theirs',
        }

export const TwoVersionsPage = ({ what, saved, rows, mine, theirs, isSameForm }: TwoVersionsProps) => {
  const words = wordsOf(isSameForm === true, saved?.isHere === true)
  return (
    <>
      <PageTitle purpose={words.purpose}>{`Two versions of ${what}`}</PageTitle>
      {saved === null ? null : (
        <p>
          {words.by} {saved.by} on {saved.when}.
        </p>
      )}
      <VersionTable
        caption="Where they differ"
        rows={rows}
        first={words.first}
        second={words.second}
        none="They say the same."
      />
      <form method="post" action={mine.action}>
        {mine.fields.map(([name, value]) => (
          <Hidden name={name} value={value} />
        ))}
        <ButtonRow>
          <Button>{words.mine}</Button>
          <LinkButton href={theirs} quiet>
            {words.theirs}
          </LinkButton>
        </ButtonRow>
      </form>
    </>
  )
}

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
