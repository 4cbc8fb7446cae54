// The fields of a market day: takings first, then hours, miles and fee as last time.
import { hoursText } from '#farm/notebook/words.ts'
import type { NotebookFigures } from '#today/farm/notebook-figures.ts'
import { DayField, Field, fieldId, fieldOf, Hidden, MoneyField, QuantityField } from '../parts/field.tsx'
import { AskedBox } from '../parts/sure-box.tsx'
import { hasError, type SectionProps, Tiles, type TypedValues } from './tiles.tsx'

export const MarketFields = ({ figures, ...form }: SectionProps) => (
  <>
    {figures.markets.length > 1 ? (
      <Tiles
        {...fieldOf(form, 'market.market')}
        label="Market"
        options={figures.markets.map(({ id, name }) => ({ value: id, label: name }))}
      />
    ) : (
      <Hidden name="market.market" value={figures.markets[0]?.id ?? ''} />
    )}
    <div class="field-row">
      <MoneyField {...fieldOf(form, 'market.cash')} label="Taken, cash" />
      <MoneyField {...fieldOf(form, 'market.card')} label="Taken, card" />
    </div>
    {(['market.cash', 'market.card'] as const).map((name) => (
      <AskedBox id={fieldId(name)} error={form.errors[name]} yes="Yes, the rest was of nothing named below" />
    ))}
    <div class="field-row">
      <Field {...fieldOf(form, 'market.hours')} label="Hours in all" inputmode="text" class="short-field" />
      <QuantityField {...fieldOf(form, 'market.miles')} label="Miles" />
      <MoneyField {...fieldOf(form, 'market.fee')} label="Fee" />
    </div>
    {figures.people.length > 0 ? (
      <fieldset class="tiles">
        <legend>Who sold</legend>
        {figures.people.map(({ id, name }) => (
          <div class="tile">
            <input
              type="checkbox"
              id={`f-market.people-${id}`}
              name="market.people[]"
              value={id}
              checked={isSeller(figures, form.typed, id)}
            />
            <label for={`f-market.people-${id}`}>{name}</label>
          </div>
        ))}
      </fieldset>
    ) : null}
    <MoreOfMarket figures={figures} {...form} />
    <LastMarket figures={figures} />
  </>
)

const MoreOfMarket = ({ figures, ...form }: SectionProps) => (
  <details class="more-fields" open={hasError(form.errors, 'market')}>
    <summary>By product, checks, another day</summary>
    {figures.enterprises.map(({ id, name }, index) => (
      <fieldset class="field-row product">
        <legend>{name}</legend>
        <Hidden name={`market.products.${index}.enterprise`} value={id} />
        <MoneyField {...fieldOf(form, `market.products.${index}.cash`)} label="Cash" />
        <MoneyField {...fieldOf(form, `market.products.${index}.card`)} label="Card" />
      </fieldset>
    ))}
    <div class="field-row">
      <MoneyField {...fieldOf(form, 'market.check')} label="Taken, checks" />
      <DayField {...fieldOf(form, 'market.day')} label="Day" />
    </div>
    <Field {...fieldOf(form, 'market.note')} label="Note" />
  </details>
)

const isSeller = (figures: NotebookFigures, typed: TypedValues, id: string): boolean => {
  const typedPeople = typed.values('market.people[]')
  if (typedPeople.length > 0) return typedPeople.includes(id)
  return figures.lastMarketDay?.people.includes(id) ?? false
}

const LastMarket = ({ figures: { lastMarketDay } }: { figures: NotebookFigures }) =>
  lastMarketDay?.minutes ? (
    <p class="hint">
      Hours, miles and fee stand as last time ({hoursText(lastMarketDay.minutes)} h). Change what was
      different.
    </p>
  ) : null
