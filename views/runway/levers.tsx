// The levers beside the course: each change recomputes it in place, and without script by the button.
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { type FieldErrors, Hidden, MoneyField, PercentField, QuantityField } from '../parts/field.tsx'
import { Fold } from '../parts/fold.tsx'
import { refreshes } from '../parts/htmx.ts'
import { withQuery } from '../parts/with-query.ts'

/** The four that move a plan most, then the others, folded away one group under another. */
const groups = ['Main', 'Each step of the draws', 'Prices, premiums and returns'] as const
const folded = groups.slice(1)

export interface LeverShown {
  group: (typeof groups)[number]
  /** In the form and in the address. */
  name: string
  label: string
  /** Steps of a draw are in money. */
  kind: 'money' | 'percent' | 'months'
  text: string
  /** What is to be known of it before it is tried. */
  hint?: string
}

/** An answer’s change that the levers start from. */
export interface Trying {
  /** Its value in an address. */
  address: string
  label: string
  question: string
  /** Why it cannot be tried, the levers being the plan’s own; null where it is. */
  gone: string | null
}

interface LeversProps {
  trying?: Trying | null
  levers: readonly LeverShown[]
  errors: FieldErrors
}

export const Levers = ({
  levers,
  errors,
  isCalledOn,
  trying = null,
}: LeversProps & { isCalledOn: boolean }) => (
  <form
    method="get"
    action="/runway"
    class="levers no-print"
    aria-labelledby="levers-title"
    {...refreshes('course', { get: '/runway' }, 'change delay:150ms, submit')}
  >
    <h2 id="levers-title">Levers</h2>
    <p class="hint">Try a figure: the projection is run again. Nothing is saved until you keep it.</p>
    <FloorCalled isCalledOn={isCalledOn} />
    {trying === null ? null : trying.gone !== null ? (
      <p role="status">{trying.gone} These levers are the plan’s own.</p>
    ) : (
      <>
        <Hidden name="try" value={trying.address} />
        <p>
          Tried from <a href={`/runway/questions/${trying.question}`}>an answer</a>, not in the plan yet: what
          its button “{trying.label}” would do.
        </p>
      </>
    )}
    {levers
      .filter(({ group }) => group === 'Main')
      .map((lever) => (
        <LeverField lever={lever} error={errors[lever.name]} />
      ))}
    {folded.map((group) => (
      <LeverGroup title={group} levers={levers.filter((lever) => lever.group === group)} errors={errors} />
    ))}
    <ButtonRow>
      <Button quiet>Run the projection</Button>
      <LinkButton href="/runway" quiet>
        Back to the plan
      </LinkButton>
    </ButtonRow>
  </form>
)

/** It follows what is typed, and so comes with each course of the levers. */
export const FloorCalled = ({ isCalledOn, isBroughtIn = false }: FloorCalledProps) => (
  <p id="levers-floor" class="hint" hidden={!isCalledOn} {...(isBroughtIn ? { 'hx-swap-oob': 'true' } : {})}>
    {isCalledOn
      ? 'Before savings fall below the floor, all that the farm can spare is drawn, whatever draws are typed here.'
      : null}
  </p>
)

interface FloorCalledProps {
  isCalledOn: boolean
  /** Sent beside the course, it takes its place among the levers. */
  isBroughtIn?: boolean
}

/** On the rooms beside Runway that show the same course: that its levers are pulled, and the way back to them. */
export const WithLevers = ({ query }: { query: string }) =>
  query === '' ? null : (
    <p>
      With the levers as you set them. <a href={withQuery('/runway', query)}>Back to them</a>
    </p>
  )

/** Open where something in it is wrong. */
const LeverGroup = ({ title, levers, errors }: LeversProps & { title: string }) =>
  levers.length === 0 ? null : (
    <Fold name={title} holds={holdsOf(levers)} isOpen={levers.some(({ name }) => errors[name] !== undefined)}>
      {levers.every(({ kind }) => kind === 'money') ? (
        <>
          <p class="hint">A month, from</p>
          <div class="lever-steps">
            {levers.map((lever) => (
              <LeverField lever={lever} error={errors[lever.name]} />
            ))}
          </div>
        </>
      ) : (
        levers.map((lever) => <LeverField lever={lever} error={errors[lever.name]} />)
      )}
    </Fold>
  )

const holdsOf = (levers: readonly LeverShown[]): string =>
  levers.length === 1 ? '1 lever' : `${levers.length} levers`

const fields = { money: MoneyField, percent: PercentField, months: QuantityField }

const LeverField = ({ lever, error }: { lever: LeverShown; error: string | undefined }) => {
  const Field = fields[lever.kind]
  return <Field name={lever.name} label={lever.label} value={lever.text} hint={lever.hint} error={error} />
}
