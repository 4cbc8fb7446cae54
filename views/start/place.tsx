// State and county, chosen once: what follows from them is shown on Health and with state income tax.
import { Field, fieldId, fieldOf, Select } from '../parts/field.tsx'
import { refreshes } from '../parts/htmx.ts'
import type { StepProps } from './frame.tsx'

export interface PlaceChoices {
  states: readonly { value: string; label: string }[]
  /** Of the chosen state; empty while none is. */
  counties: readonly string[]
}

export const PlaceFields = (props: StepProps & { place: PlaceChoices }) => (
  <div class="field-row">
    <Select
      {...fieldOf(props, 'state')}
      label="State"
      hint="Its income tax and its rules of health coverage follow"
      empty="Choose your state"
      options={props.place.states}
    />
    <Field
      {...fieldOf(props, 'county')}
      label="County"
      hint="Marketplace premiums go by county; the list is that of the chosen state"
      list="counties"
    />
    <Field
      {...fieldOf(props, 'localRate')}
      label="Local income tax, percent"
      hint="Of your city, county or school district, where it has one; like 1.2"
      inputmode="decimal"
    />
    <div
      hx-include={`#${fieldId('state')}`}
      {...refreshes('counties', { get: '/start/counties' }, `change from:#${fieldId('state')}`)}
    />
    <Counties counties={props.place.counties} />
  </div>
)

export const Counties = ({ counties }: Pick<PlaceChoices, 'counties'>) => (
  <datalist id="counties">
    {counties.map((county) => (
      <option value={county} />
    ))}
  </datalist>
)
