// A market by three fields, for the desk and the phone; the rest of it can be said later.

import { Button } from '../parts/button.tsx'
import {
  Field,
  Hidden,
  MoneyField,
  PlanFormIds,
  type PlanFormIdsProps,
  QuantityField,
} from '../parts/field.tsx'

/** `from`: the page it leads back to, where that is not the farm's markets. */
export const NewMarket = ({ ids, from }: { ids: PlanFormIdsProps; from?: 'notebook' }) => (
  <form method="post" action="/farm/markets/new" class="no-print">
    <PlanFormIds {...ids} />
    {from ? <Hidden name="from" value={from} /> : null}
    <div class="field-row">
      <Field name="name" label="A new market, called" at="new" />
      <QuantityField name="trips.one" label="Trips a month" at="new" value="4" />
      <MoneyField name="salesPerTrip.one" label="Most a trip sells" hint="Empty: no limit" at="new" />
    </div>
    <Button small quiet>
      Add this market
    </Button>
  </form>
)
