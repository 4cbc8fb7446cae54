// The fields of each section of the notebook.
import type { HerdKind } from '#farm/herd/herd-document.ts'
import { headWords } from '#farm/herd/species-words.ts'
import { type HeadClass, headClasses } from '#farm/notebook/kinds.ts'
import { DayField, Field, fieldOf, MoneyField, QuantityField, Select } from '../parts/field.tsx'
import { hasError, type SectionProps, Tiles } from './tiles.tsx'

/** So many subjects are tiles; the others stand in the list of all. */
const tilesShown = 6

export const HourFields = ({ figures, ...form }: SectionProps) => {
  const chosen = form.typed.value('hours.subject')
  const first = figures.subjects.slice(0, tilesShown)
  const isShown = first.some(({ value }) => value === chosen)
  const others = figures.subjects.slice(tilesShown)
  const tiles = isShown ? first : [...others.filter(({ value }) => value === chosen), ...first]
  return (
    <>
      {figures.people.length > 0 ? (
        <Tiles
          {...fieldOf(form, 'hours.person')}
          label="Who"
          options={[
            ...figures.people.map(({ id, name }) => ({ value: id, label: name })),
            { value: 'hired', label: 'Hired help' },
          ]}
        />
      ) : (
        <Field {...fieldOf(form, 'hours.person')} label="Who" />
      )}
      <Tiles {...fieldOf(form, 'hours.subject')} label="What for" options={tiles} />
      {others.length > 0 ? (
        <details class="more-fields">
          <summary>Something else</summary>
          <Tiles
            name="hours.subject"
            value={chosen}
            label="What else"
            options={others.filter((one) => !tiles.includes(one))}
            at="f-hours.subject-more"
          />
        </details>
      ) : null}
      <Tiles
        {...fieldOf(form, 'hours.length')}
        label="How long"
        options={[
          { value: '30', label: '½ h' },
          { value: '60', label: '1 h' },
          { value: '120', label: '2 h' },
          { value: '240', label: '4 h' },
        ]}
      />
      <MoreOfHours {...form} />
    </>
  )
}

const MoreOfHours = (form: Omit<SectionProps, 'figures'>) => (
  <details class="more-fields" open={hasError(form.errors, 'hours')}>
    <summary>Another length, another day, hired help</summary>
    <div class="field-row">
      <Field
        {...fieldOf(form, 'hours.time')}
        label="Hours"
        hint="Like 1.5, 1:30 or 1h 30; counts before the choice above"
        inputmode="text"
        class="short-field"
      />
      <DayField {...fieldOf(form, 'hours.day')} label="Day" />
    </div>
    <div class="field-row">
      <Field {...fieldOf(form, 'hours.hiredName')} label="Name of hired help" />
      <MoneyField {...fieldOf(form, 'hours.pay')} label="Paid for it" />
    </div>
    <Field {...fieldOf(form, 'hours.note')} label="Note" />
  </details>
)

export const HeadFields = ({ figures, ...form }: SectionProps) => (
  <>
    <Tiles
      {...fieldOf(form, 'heads.herd')}
      label="Herd or flock"
      options={figures.herds.map(({ id, name }) => ({ value: id, label: name }))}
    />
    <Tiles
      {...fieldOf(form, 'heads.kind')}
      label="What happened"
      options={[
        { value: 'counted', label: 'Counted' },
        { value: 'born', label: 'Born' },
        { value: 'died', label: 'Died' },
        { value: 'sold', label: 'Sold' },
        { value: 'bought', label: 'Bought' },
        { value: 'kitchen', label: 'Kitchen' },
        { value: 'bartered', label: 'Bartered' },
      ]}
    />
    <Tiles
      {...fieldOf(form, 'heads.headClass')}
      label="Which"
      options={headClasses.map((value) => ({ value, label: classLabel(value, figures.herds) }))}
    />
    <QuantityField {...fieldOf(form, 'heads.count')} label="How many" />
    <p class="hint">
      The plan goes on from what was counted, with what came and went since, from the month that the books
      reach. What was never counted goes on as planned.
    </p>
    <details class="more-fields" open={hasError(form.errors, 'heads')}>
      <summary>Another day, bartered for what</summary>
      <DayField {...fieldOf(form, 'heads.day')} label="Day" />
      <Field {...fieldOf(form, 'heads.tradedFor')} label="Bartered with whom, for what" />
      <Field {...fieldOf(form, 'heads.note')} label="Note" />
    </details>
  </>
)

/** In the words of the kinds there are: ewes, or ewes or hens. */
const classLabel = (headClass: HeadClass, herds: readonly { kind: HerdKind }[]): string => {
  const words = headWords(
    headClass,
    herds.map(({ kind }) => kind),
  )
  const said = headClass === 'kept' ? `${words.replace(/ kept to breed$/, '')} kept to breed` : words
  return said[0]!.toUpperCase() + said.slice(1)
}

export const GoodsFields = ({ figures, ...form }: SectionProps) => (
  <>
    <Tiles
      {...fieldOf(form, 'goods.kind')}
      label="Where to"
      options={[
        { value: 'kitchen', label: 'Our kitchen' },
        { value: 'bartered', label: 'Bartered' },
      ]}
    />
    <div class="field-row">
      <Field {...fieldOf(form, 'goods.what')} label="What" hint="Like eggs" />
      <QuantityField {...fieldOf(form, 'goods.quantity')} label="How much" />
      <Field {...fieldOf(form, 'goods.unit')} label="Unit" hint="Like dozen, lb" class="short-field" />
    </div>
    <Select
      {...fieldOf(form, 'goods.of')}
      label="Out of"
      options={figures.goods}
      empty="Nothing in particular"
    />
    <Field
      {...fieldOf(form, 'goods.tradedFor')}
      label="Bartered with whom, for what"
      hint="Empty for the kitchen"
    />
    <details class="more-fields" open={hasError(form.errors, 'goods')}>
      <summary>Price, another day</summary>
      <div class="field-row">
        <MoneyField {...fieldOf(form, 'goods.price')} label="What one sells for" />
        <DayField {...fieldOf(form, 'goods.day')} label="Day" />
      </div>
    </details>
  </>
)

export const TripFields = ({ figures, ...form }: SectionProps) => (
  <>
    <Tiles
      {...fieldOf(form, 'trip.kind')}
      label="What"
      options={[
        { value: 'farm', label: 'A trip for the farm' },
        { value: 'reading', label: 'What the odometer shows' },
      ]}
    />
    <div class="field-row">
      <QuantityField {...fieldOf(form, 'trip.amount')} label="Miles" />
      <Field {...fieldOf(form, 'trip.vehicle')} label="Vehicle" list="vehicles" />
      <datalist id="vehicles">
        {figures.vehicles.map((one) => (
          <option value={one} />
        ))}
      </datalist>
    </div>
    <Field {...fieldOf(form, 'trip.purpose')} label="Where to and why" />
    <DayField {...fieldOf(form, 'trip.day')} label="Day" />
  </>
)
