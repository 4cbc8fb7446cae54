// How a phone in the home network comes to the notebook: five steps, each saying whether it is done.
import { PageTitle } from '../layout.tsx'
import { Button, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, type FieldErrors, FormId, fieldOf } from '../parts/field.tsx'
import { Notice } from '../parts/message.tsx'

interface PhoneProps {
  hasPassphrase: boolean
  certificate: {
    names: readonly string[]
    fingerprint: string
    ends: string
    hasEnded: boolean
    files: { certificate: string; key: string }
  } | null
  /** Other computers reach this address already. */
  isReachable: boolean
  addresses: readonly string[]
  typed: { value(name: string): string }
  errors: FieldErrors
  formId: string
}

export const PhonePage = (props: PhoneProps) => (
  <>
    <PageTitle purpose="A phone in your home network opens the notebook at the barn. Nothing leaves the network, and no outside service is used.">
      A phone in the yard
    </PageTitle>
    <ErrorSummary errors={props.errors} />
    <ol class="phone-steps">
      <li>
        <h2>A passphrase{props.hasPassphrase ? ': set' : ''}</h2>
        <p>
          {props.hasPassphrase
            ? 'Whoever opens the books on the phone is asked for it.'
            : 'Whoever reaches the books must know it.'}
        </p>
        {props.hasPassphrase ? null : <LinkButton href="/settings/passphrase">Set a passphrase</LinkButton>}
      </li>
      <MakeStep {...props} />
      <StartStep {...props} />
      <TrustStep {...props} />
      <li>
        <h2>Keep it at hand</h2>
        <p>
          Open <strong>/farm/notebook</strong> there and put it on the phone’s home screen. Away from home it
          cannot be reached; what you write in the yard is booked later, at the table.
        </p>
      </li>
    </ol>
  </>
)

const MakeStep = ({ certificate, addresses, formId, ...form }: PhoneProps) => (
  <li>
    <h2>A certificate of your own{certificate && !certificate.hasEnded ? ': made' : ''}</h2>
    {certificate ? (
      <p>
        For {certificate.names.join(', ')}, {certificate.hasEnded ? 'which ended on' : 'good until'}{' '}
        {certificate.ends}. A new one is installed on the phones again.
      </p>
    ) : (
      <p>It lets the phone speak with this computer so that nobody in the network can listen or pretend.</p>
    )}
    <form method="post" action="/farm/notebook/phone">
      <FormId value={formId} />
      <Field
        {...fieldOf(form, 'address')}
        label="This computer in your network"
        hint={`It knows itself as ${addresses.join(', ')}. Let your router give it the same address each time.`}
      />
      <Button quiet={certificate !== null || !form.hasPassphrase}>
        {certificate ? 'Make a new one' : 'Make the certificate'}
      </Button>
    </form>
  </li>
)

const StartStep = ({ certificate, isReachable }: PhoneProps) => (
  <li>
    <h2>Start so that the phone can reach it{isReachable ? ': done' : ''}</h2>
    {certificate ? (
      <>
        <p>Stop Dooryard with Ctrl+C and start it like this:</p>
        <pre>
          <code>
            {`npm start -- --host ${certificate.names[0]} --certificate "${certificate.files.certificate}" --key "${certificate.files.key}"`}
          </code>
        </pre>
        <p>On this computer it is then at the same address as on the phone.</p>
      </>
    ) : (
      <p>Make the certificate first; its place then shows here.</p>
    )}
  </li>
)

const TrustStep = ({ certificate }: PhoneProps) => (
  <li>
    <h2>Trust it on the phone, once</h2>
    {certificate ? (
      <>
        <p>
          On the phone open <strong>{`https://${certificate.names[0]}:4610/farm/notebook/phone`}</strong>. The
          browser warns, since it does not know the certificate yet. Go on, give the passphrase, take the
          certificate from there, and trust it for websites in the phone’s settings under certificates.
        </p>
        <p>
          <LinkButton quiet href="/farm/notebook/phone/house.crt">
            Take the certificate
          </LinkButton>
        </p>
        <Notice>
          <p>
            Before you trust it, compare: the phone must show this SHA-256 fingerprint.
            <br />
            <code>{certificate.fingerprint}</code>
          </p>
        </Notice>
        <p>
          The key that made it was thrown away at once, so that nobody can make another with it. When a phone
          is lost, take the certificate off the others, make a new one, and change the passphrase.
        </p>
      </>
    ) : (
      <p>Make the certificate first.</p>
    )}
  </li>
)
