// Restoring: choosing a copy, what it would change, and the button that puts it in place.
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { Field, type FieldErrors, FileField, FormId, Hidden, Select } from '../parts/field.tsx'

export interface RestoreProps {
  name: string
  /** The same sentences as the command says. */
  says: readonly string[]
  /** The books changed since it was looked at. */
  isLate: boolean
  lookKey: string
  formId: string
}

export const RestorePage = ({ name, says, isLate, lookKey, formId }: RestoreProps) => (
  <>
    <PageTitle purpose="Nothing is changed yet: this is what the copy would change.">
      Restore {name}?
    </PageTitle>
    {isLate ? (
      <p role="alert">
        The books changed since you looked at this copy. What was entered meanwhile would be gone, too.
      </p>
    ) : null}
    <ul>
      {says.map((line) => (
        <li>{line}</li>
      ))}
    </ul>
    <p>Your present books are kept among the copies, so this can be undone the same way.</p>
    <form method="post" action="/settings/backups/restore">
      <FormId value={formId} />
      <Hidden name="key" value={lookKey} />
      <ButtonRow>
        <Button>Restore it</Button>
        <a href="/settings/backups">Cancel</a>
      </ButtonRow>
    </form>
  </>
)

interface ChooseProps {
  kept: readonly { name: string }[]
  /** False where the pages cannot let go of the books, as in the sample. */
  isPossible: boolean
  errors: FieldErrors
  formId: string
}

export const ChooseCopy = ({ kept, isPossible, errors, formId }: ChooseProps) => (
  <section aria-labelledby="restore-title">
    <h2 id="restore-title">Restore</h2>
    {isPossible ? (
      <form method="post" action="/settings/backups/look" enctype="multipart/form-data">
        <p>
          You see first what would be gone and what would come back. Nothing is changed until you confirm it.
        </p>
        <FormId value={formId} />
        {kept.length > 0 ? (
          <Select
            name="kept"
            label="An automatic copy"
            empty="None of these: the file below"
            options={kept.map(({ name }) => ({ value: name, label: name }))}
            value=""
            error={errors.kept}
          />
        ) : null}
        <FileField name="file" label="Or a file of yours, up to 25 MB" error={errors.file} />
        <Field
          name="openWith"
          type="password"
          label="Its passphrase"
          hint="For an encrypted copy only"
          autocomplete="off"
          error={errors.openWith}
        />
        <Button quiet>Preview</Button>
      </form>
    ) : null}
    <p class="hint">
      On the command line: stop Dooryard, then <code>npm run dooryard -- restore BACKUP</code>. It first says
      what would change, and changes nothing until you add <code>--yes</code>.
    </p>
  </section>
)
