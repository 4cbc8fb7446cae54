// The levers beside the course: each change recomputes it in place, and without script by the button.
import { monthNameShort, parseMonth } from '#calendar/month.ts'
import type { LeverTexts } from '#today/runway/figures.ts'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { type FieldErrors, MoneyField, PercentField, QuantityField } from '../parts/field.tsx'
import { refreshes } from '../parts/htmx.ts'

export const Levers = ({ levers, errors }: { levers: LeverTexts; errors: FieldErrors }) => (
  <form
    method="get"
    action="/runway"
    class="levers no-print"
    aria-labelledby="levers-title"
    {...refreshes('course', { get: '/runway' }, 'change delay:150ms, submit')}
    hx-sync="this:replace"
  >
    <h2 id="levers-title">Levers</h2>
    <p class="hint">Try a figure: the course is run again. Nothing is saved until you keep it.</p>
    <fieldset class="group">
      <legend>Draws</legend>
      {levers.steps.length > 0 ? <p class="hint">A month, from</p> : null}
      <div class="lever-steps">
        {levers.steps.map((step, place) => (
          <MoneyField
            name={`steps.${place}`}
            label={monthNameShort(parseMonth(step.from)!)}
            value={step.text}
            error={errors[`steps.${place}`]}
          />
        ))}
      </div>
      <PercentField
        name="draws"
        label={levers.steps.length > 0 ? 'All of them, percent' : 'Draws, percent of the plan'}
        value={levers.draws}
        error={errors.draws}
      />
      <QuantityField name="late" label="Later by, months" value={levers.late} error={errors.late} />
    </fieldset>
    <fieldset class="group">
      <legend>Costs</legend>
      <PercentField
        name="living"
        label="Living costs, percent of the plan"
        value={levers.living}
        error={errors.living}
      />
      <PercentField
        name="inflation"
        label="Prices rise, percent a year"
        value={levers.inflation}
        error={errors.inflation}
      />
      <PercentField
        name="premiumGrowth"
        label="Premiums rise, percent a year"
        value={levers.premiumGrowth}
        error={errors.premiumGrowth}
      />
    </fieldset>
    <fieldset class="group">
      <legend>Growth and returns</legend>
      <PercentField
        name="farmPriceGrowth"
        label="Farm prices beyond that, percent a year"
        value={levers.farmPriceGrowth}
        error={errors.farmPriceGrowth}
      />
      <PercentField
        name="stocks"
        label="Stocks, percent a year"
        value={levers.stocks}
        error={errors.stocks}
      />
      <PercentField name="bonds" label="Bonds, percent a year" value={levers.bonds} error={errors.bonds} />
      <PercentField
        name="bills"
        label="Savings accounts, percent a year"
        value={levers.bills}
        error={errors.bills}
      />
    </fieldset>
    <ButtonRow>
      <Button>Run the course</Button>
      <LinkButton href="/runway" quiet>
        Back to the plan
      </LinkButton>
    </ButtonRow>
  </form>
)
