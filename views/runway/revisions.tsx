// A plan's revisions, what one changed, and the page for two people who saved at once.
import type { Child } from 'hono/jsx'
import { day, dayName } from '#calendar/day.ts'
import type { Difference } from '#plan/difference.ts'
import { inWords } from '#plan/difference-words.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { Hidden, PlanFormIds } from '../parts/field.tsx'
import { DataTable } from '../parts/table.tsx'

export interface RevisionLine {
  revisionNo: number
  note: string
  savedAt: string
  savedBy: string
}

export const RevisionsPage = (props: {
  planName: string
  revisions: readonly RevisionLine[]
  canUndo: boolean
  formId: string
  planId: string
}) => (
  <>
    <PageTitle purpose="Every save of the plan is kept. Going back makes a new revision; nothing is lost.">
      Revisions
    </PageTitle>
    <h2>{props.planName}</h2>
    {props.canUndo ? (
      <form method="post" action="/runway/revisions/undo">
        <PlanFormIds
          formId={props.formId}
          planId={props.planId}
          basedOn={props.revisions[0]?.revisionNo ?? 0}
        />
        <Button quiet>Undo the last save</Button>
      </form>
    ) : null}
    <DataTable
      caption="Newest first"
      rows={props.revisions}
      columns={[
        {
          title: 'Revision',
          isHeader: true,
          cell: (one) => <a href={`/runway/revisions/${one.revisionNo}`}>{String(one.revisionNo)}</a>,
        },
        { title: 'Saved (UTC)', cell: (one) => whenSaved(one.savedAt) },
        { title: 'By', cell: (one) => one.savedBy },
        { title: 'Note', cell: (one) => one.note },
      ]}
    />
  </>
)

export const RevisionPage = (props: {
  revision: RevisionLine
  newestNo: number
  fromBefore: readonly Difference[]
  toNewest: readonly Difference[]
  formId: string
  planId: string
}) => (
  <>
    <PageTitle purpose="What this revision changed, and what has changed since.">
      {`Revision ${props.revision.revisionNo}`}
    </PageTitle>
    <p>
      <a href="/runway/revisions">All revisions</a>
    </p>
    {props.fromBefore.every((row) => row.first === null) && props.fromBefore.length > 0 ? (
      <p>The plan began with this revision: all of it is new.</p>
    ) : null}
    <Differences
      caption="Changed by this revision"
      rows={props.fromBefore}
      first="Before"
      second="In it"
      none="It changed nothing."
    />
    {props.revision.revisionNo === props.newestNo ? (
      <p>This is the newest revision.</p>
    ) : (
      <>
        <Differences
          caption={`Against the newest, revision ${props.newestNo}`}
          rows={props.toNewest}
          first="In it"
          second="Newest"
          none="The newest says the same."
        />
        <form method="post" action={`/runway/revisions/${props.revision.revisionNo}/back`}>
          <PlanFormIds formId={props.formId} planId={props.planId} basedOn={props.newestNo} />
          <Button>Go back to this revision</Button>
        </form>
      </>
    )}
  </>
)

/** Someone saved in between: both versions, and what can be done. `document` is the plan as JSON, `next` the page it leads to. */
export const ConflictPage = (props: {
  rows: readonly Difference[]
  theirs: RevisionLine & { planId: string }
  document: string
  formId: string
  next: string
}) => (
  <>
    <PageTitle purpose="The plan was saved at another screen after you opened it. Nothing of either is lost.">
      Two versions of the plan
    </PageTitle>
    <p>
      Revision {String(props.theirs.revisionNo)} was saved by {props.theirs.savedBy} on{' '}
      {whenSaved(props.theirs.savedAt)}.
    </p>
    <Differences
      caption="Where they differ"
      rows={props.rows}
      first="Theirs, saved"
      second="Yours, not saved yet"
      none="They say the same."
    />
    <form method="post" action="/runway/revisions/mine">
      <PlanFormIds formId={props.formId} planId={props.theirs.planId} basedOn={props.theirs.revisionNo} />
      <Hidden name="document" value={props.document} />
      <Hidden name="next" value={props.next} />
      <ButtonRow>
        <Button>Save yours after theirs</Button>
        <LinkButton href={props.next} quiet>
          Keep theirs
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)

export const Differences = (props: {
  caption: string
  rows: readonly Difference[]
  first: string
  second: string
  none: string
}) =>
  props.rows.length === 0 ? (
    <p>{props.none}</p>
  ) : (
    <DataTable
      caption={props.caption}
      rows={props.rows.map(inWords)}
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

/** `2026-11-02T18:00:00Z` → `2 Nov 2026, 18:00`, in the world's time as it was kept. */
const whenSaved = (instant: string): string =>
  `${dayName(day(instant.slice(0, 10)))}, ${instant.slice(11, 16)}`
