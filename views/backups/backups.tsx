// Backups: a file to carry away, the copies kept by themselves, proof of the books, and how to restore.
import { type Day, dayName } from '#calendar/day.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, type FieldErrors, FormId, RadioGroup } from '../parts/field.tsx'
import { EmptyState, Notice } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { ChooseCopy } from './restore.tsx'

export interface BackupsFigures {
  folder: string
  kept: readonly { name: string; day: Day | null; byteCount: number }[]
  /** When a copy last left this computer. */
  lastElsewhere: Day | null
  /** What the last “prove the books” said, when it was asked for. */
  verified: {
    findings: readonly string[]
    checks: number
    /** The newest link of the chain of changes, as `verify --end` takes it. */
    chainEnd: string | null
    /** When the books were taken as they were found. */
    begun: readonly Day[]
  } | null
}

export interface BackupsProps {
  figures: BackupsFigures
  /** What the last restore came to; said once. */
  restoreSaid: string | null
  canRestore: boolean
  errors: FieldErrors
  formId: string
}

export const BackupsPage = (props: BackupsProps) => (
  <>
    <PageTitle purpose="Keep a copy somewhere other than this computer.">Backups</PageTitle>
    <ErrorSummary errors={props.errors} />
    {props.restoreSaid ? (
      <Notice>
        <p>{props.restoreSaid}</p>
      </Notice>
    ) : null}
    <p class="answer">{copiesInWords(props.figures)}</p>
    <CarryAway {...props} />
    <Proof {...props} />
    <Kept {...props} />
    <ChooseCopy
      kept={props.figures.kept}
      isPossible={props.canRestore}
      errors={props.errors}
      formId={props.formId}
    />
  </>
)

/** How old the newest copies are, here and somewhere else. */
export function copiesInWords({
  kept,
  lastElsewhere,
}: Pick<BackupsFigures, 'kept' | 'lastElsewhere'>): string {
  const here = kept
    .flatMap(({ day }) => (day === null ? [] : [day]))
    .sort()
    .at(-1)
  const on =
    here === undefined
      ? 'No copy is on this computer yet'
      : `The newest copy on this computer is of ${dayName(here)}`
  return lastElsewhere === null
    ? `${on}, and none has left it.`
    : `${on}; the last one that left it is of ${dayName(lastElsewhere)}.`
}

const CarryAway = ({ errors, formId }: BackupsProps) => (
  <section aria-labelledby="carry-title">
    <h2 id="carry-title">Download a backup</h2>
    <form method="post" action="/settings/backups/file" data-gives-file>
      <FormId value={formId} />
      <RadioGroup
        name="kind"
        label="Kind of file"
        value={errors.passphrase || errors.again ? 'sealed' : 'plain'}
        options={[
          { value: 'plain', label: 'Plain copy', hint: 'Anyone who has it can read it' },
          { value: 'sealed', label: 'Encrypted copy', hint: 'Only with the passphrase below, for you too' },
          { value: 'json', label: 'JSON export', hint: 'Everything, explained, for other programs' },
        ]}
      />
      <Field
        name="passphrase"
        type="password"
        label="Passphrase"
        hint="For an encrypted copy only. It is stored nowhere"
        autocomplete="new-password"
        error={errors.passphrase}
      />
      <Field
        name="again"
        type="password"
        label="Passphrase once more"
        autocomplete="new-password"
        error={errors.again}
      />
      <Button>Make the file</Button>
    </form>
  </section>
)

const Proof = ({ figures, formId }: BackupsProps) => (
  <section aria-labelledby="proof-title">
    <h2 id="proof-title">Check the books</h2>
    {figures.verified === null ? (
      <p>
        Works out every balance, crossing, sum and closed month again, and checks each change against the
        chain of changes. What was taken off the end of the books shows against the copies kept below.
      </p>
    ) : (
      <Notice>
        {figures.verified.findings.length === 0 ? (
          <>
            <p>Everything holds: {figures.verified.checks} checks found nothing wrong.</p>
            {figures.verified.chainEnd === null ? null : (
              <p>
                The chain of changes ends at <code>{figures.verified.chainEnd}</code>. Written down elsewhere,
                it shows later whether all of it is still there.
              </p>
            )}
            {figures.verified.begun.map((at) => (
              <p>What was in the books on {dayName(at)} was taken as it was found.</p>
            ))}
          </>
        ) : (
          <>
            <p>The check found a problem. Keep this file and restore the latest backup that verifies.</p>
            <ul>
              {figures.verified.findings.map((finding) => (
                <li>{finding}</li>
              ))}
            </ul>
          </>
        )}
      </Notice>
    )}
    <form method="post" action="/settings/backups/verify">
      <FormId value={formId} />
      <Button quiet>Check now</Button>
    </form>
  </section>
)

const Kept = ({ figures }: BackupsProps) => (
  <section aria-labelledby="kept-title">
    <h2 id="kept-title">Automatic backups</h2>
    {figures.kept.length === 0 ? (
      <EmptyState>No copy is kept yet. The first one is made soon after Dooryard opens.</EmptyState>
    ) : (
      <DataTable
        caption={`In ${figures.folder}`}
        rows={figures.kept}
        stack
        columns={[
          { title: 'File', isHeader: true, cell: (row) => <code>{row.name}</code> },
          { title: 'Day', cell: (row) => (row.day ? dayName(row.day) : '') },
          { title: 'Size', isNumber: true, cell: (row) => `${(row.byteCount / 1_000_000).toFixed(1)} MB` },
        ]}
      />
    )}
    <p class="hint">
      The copy of the day is made soon after Dooryard opens, again every hour in which something was entered,
      and when you stop it. The last of each of 7 days, 4 weeks and 12 months is kept, each opened and
      verified when it was made; so are the copies made before the file was brought up to date and before
      restoring.
    </p>
  </section>
)
