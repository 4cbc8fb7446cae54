// What a whole thing of a form comes to in a year: worked out by the server as fields are typed into, or by the button without script.
import { monthsWords } from '#calendar/spell.ts'
import type { ThingTold } from '#farm/told/thing-told.ts'
import { formatDollarsAndCents } from '#money/format.ts'
import { Button } from '../button.tsx'
import { refreshes } from '../htmx.ts'
import { planFormId } from './plan-form.tsx'

export const toldPart = 'thing-sums'

interface Told {
  told: readonly ThingTold[] | null
}

/** What asks for the sums stays while they are swapped: what is typed in that moment is asked about too. */
export const ThingSums = ({ told, sentTo }: Told & { sentTo: string }) => (
  <section
    class="thing-sums"
    aria-label="What it comes to in a usual year"
    {...refreshes(
      toldPart,
      { post: sentTo },
      `change from:#${planFormId}, input delay:400ms from:#${planFormId}`,
    )}
    hx-vals={JSON.stringify({ show: toldPart })}
  >
    <ToldSums told={told} />
    <p class="when-plain">
      <Button quiet small name="show" value={toldPart}>
        Work it out again
      </Button>
    </p>
  </section>
)

export const ToldSums = ({ told }: Told) => (
  <div id={toldPart}>
    {told === null ? (
      <p class="hint">
        What it comes to in a year is not known yet: a field that it needs is empty or wrong.
      </p>
    ) : (
      <dl class="form-sums as-line">
        {told.map(({ label, unit, value }) => (
          <div>
            <dt>{label}</dt>
            <dd>{said(unit, value)}</dd>
          </div>
        ))}
      </dl>
    )}
  </div>
)

const said = (unit: ThingTold['unit'], value: number | null): string => {
  if (value === null) return '–'
  if (unit === 'months') return monthsWords(value)
  return unit === 'dollars'
    ? formatDollarsAndCents(value)
    : value.toLocaleString('en-US', { maximumFractionDigits: 2 })
}
