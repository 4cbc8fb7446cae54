// The passphrase: asked for at the door, set and changed in Settings.
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Checkbox, Field, type FieldErrors, FormId, Hidden, QuantityField } from '../parts/field.tsx'

interface UnlockPageProps {
  next: string
  errors: FieldErrors
  /** A form came after the pages had locked. */
  isLate: boolean
}

export const UnlockPage = ({ next, errors, isLate }: UnlockPageProps) => (
  <>
    <PageTitle purpose="These books are locked.">Unlock</PageTitle>
    {isLate ? (
      <p role="alert">
        The pages had locked before your form came, so it was not saved. Unlock, then go back in the browser
        to what you typed and send it again.
      </p>
    ) : null}
    <form method="post" action="/unlock">
      <ErrorSummary errors={errors} title="Still locked" />
      <Hidden name="next" value={next} />
      <Field
        name="passphrase"
        type="password"
        autocomplete="current-password"
        label="Passphrase"
        error={errors.passphrase}
      />
      <Button>Unlock</Button>
    </form>
  </>
)

interface PassphrasePageProps {
  isSet: boolean
  mayRemove: boolean
  idleMinutes: string
  formId: string
  errors: FieldErrors
}

export const PassphrasePage = ({ isSet, mayRemove, idleMinutes, formId, errors }: PassphrasePageProps) => (
  <>
    <PageTitle purpose="Locks Dooryard until the passphrase is entered. It does not encrypt the file; an encrypted backup does.">
      Passphrase
    </PageTitle>
    <form method="post" action="/settings/passphrase">
      <ErrorSummary errors={errors} />
      <FormId value={formId} />
      {isSet ? (
        <Field
          name="current"
          type="password"
          autocomplete="current-password"
          label="Passphrase now"
          error={errors.current}
        />
      ) : null}
      <Field
        name="passphrase"
        type="password"
        autocomplete="new-password"
        label="New passphrase"
        hint="At least 12 characters; a few words you remember are best. Nobody can look it up for you."
        error={errors.passphrase}
      />
      <Field
        name="again"
        type="password"
        autocomplete="new-password"
        label="The new one again"
        error={errors.again}
      />
      <QuantityField
        name="idleMinutes"
        label="Lock after so many minutes without use"
        hint="In use or not, it locks 24 hours after it was opened"
        value={idleMinutes}
        error={errors.idleMinutes}
      />
      {isSet && mayRemove ? (
        <Checkbox name="remove" label="Take the passphrase away instead" error={errors.remove} />
      ) : null}
      <ButtonRow>
        <Button>{isSet ? 'Change the passphrase' : 'Set the passphrase'}</Button>
        <LinkButton quiet href="/settings">
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)
