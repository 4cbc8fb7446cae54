// A plan's revisions and what one changed.
import type { Difference } from '#plan/difference.ts'
import { inWords } from '#plan/difference-words.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { PlanFormIds } from '../parts/field.tsx'
import { DataTable } from '../parts/table.tsx'
import { VersionTable } from '../parts/two-versions.tsx'

export interface RevisionLine {
  revisionNo: number
  note: string
  savedAt: string
  /** The same by the computer's own clock. */
  saved: string
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
    <PageTitle
      help="revisions"
      purpose="Every save of the plan is kept. Going back makes a new revision; nothing is lost."
    >
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
        { title: 'Saved', cell: (one) => one.saved },
        { title: 'By', cell: (one) => one.savedBy },
        { title: 'Note', cell: (one) => one.note },
      ]}
    />
  </>
)

export const RevisionPage = (props: {
  revision: Pick<RevisionLine, 'revisionNo'>
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
          none="The newest is identical."
        />
        <form method="post" action={`/runway/revisions/${props.revision.revisionNo}/back`}>
          <PlanFormIds formId={props.formId} planId={props.planId} basedOn={props.newestNo} />
          <Button>Go back to this revision</Button>
        </form>
      </>
    )}
  </>
)

export const Differences = ({
  rows,
  ...table
}: {
  caption: string
  rows: readonly Difference[]
  first: string
  second: string
  none: string
}) => <VersionTable {...table} rows={rows.map(inWords)} />
