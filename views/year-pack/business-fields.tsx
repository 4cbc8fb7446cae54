// Fields that Schedule F and Schedule C ask alike: what the business is, its papers, its vehicle and its part of the home.
import { DayField, Field, fieldOf, PercentField, QuantityField, Select } from '../parts/field.tsx'
import type { InputForm } from './inputs-shape.ts'

export const yesNoOptions = [
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
]

/** The letters or numbers of the lines on the form. */
export interface LineNames {
  product: string
  code: string
  employerId: string
  takesPart: string
  owes1099: string
  files1099: string
  atRisk: string
  vehicle: string
}

export const BusinessFields = ({ form, lines }: { form: InputForm; lines: LineNames }) => (
  <fieldset class="group">
    <legend>Once, until it changes</legend>
    <div class="field-row">
      <Field {...fieldOf(form, 'product')} label={`${lines.product}: main product or work`} maxlength={80} />
      <Field
        {...fieldOf(form, 'code')}
        label={`${lines.code}: its code`}
        hint="Six digits, from the list at the end of the form’s instructions"
        inputmode="numeric"
        maxlength={6}
        class="short-field"
      />
    </div>
    <div class="field-row">
      <Select
        {...fieldOf(form, 'hasEmployerId')}
        label={`${lines.employerId}: has an employer ID number`}
        hint="The number itself is not kept here: write it on the paper."
        options={yesNoOptions}
        empty="Not entered"
      />
      <Select
        {...fieldOf(form, 'takesPart')}
        label={`${lines.takesPart}: you took a material part in it`}
        hint="Like 500 hours in the year, or nearly all of its work"
        options={yesNoOptions}
        empty="Not entered"
      />
    </div>
    <Select
      {...fieldOf(form, 'atRisk')}
      label={`${lines.atRisk}: with a loss, your money in it is`}
      options={[
        { value: 'all', label: 'all at risk' },
        { value: 'some', label: 'in part not at risk' },
      ]}
      empty="Not entered"
    />
  </fieldset>
)

export const PaperFields = ({ form, lines, year }: { form: InputForm; lines: LineNames; year: number }) => (
  <fieldset class="group">
    <legend>Forms 1099 of {year}</legend>
    <div class="field-row">
      <Select
        {...fieldOf(form, 'owes1099')}
        label={`${lines.owes1099}: payments called for them`}
        options={yesNoOptions}
        empty="As the payees of the books have it"
      />
      <Select
        {...fieldOf(form, 'files1099')}
        label={`${lines.files1099}: they were or will be filed`}
        options={yesNoOptions}
        empty="Not entered"
      />
    </div>
  </fieldset>
)

export const VehicleFields = ({ form, line }: { form: InputForm; line: string }) => (
  <fieldset class="group">
    <legend>Car or van, {line}</legend>
    <Select
      {...fieldOf(form, 'vehicleBy')}
      label="Deducted by"
      hint="By miles only where they were chosen in the vehicle’s first year, and not more than four are used at once. Fuel, repairs and depreciation of it are then not deducted."
      options={[
        { value: 'costs', label: 'costs, as they are booked' },
        { value: 'miles', label: 'miles, at the year’s rate' },
      ]}
    />
    <Select
      {...fieldOf(form, 'vehicleBooked')}
      label="Fuel, repairs and insurance in these books are"
      hint="Driven privately too, the business’s share of whole costs is deducted: by the miles below, else by the share on the inventory."
      options={[
        { value: 'whole', label: 'the whole of them' },
        { value: 'part', label: 'the business’s part alone' },
      ]}
      empty="Not entered: taken as whole"
    />
    <div class="field-row">
      <QuantityField {...fieldOf(form, 'businessMiles')} label="Miles for the business" />
      <QuantityField {...fieldOf(form, 'commutingMiles')} label="Miles to a job" />
      <QuantityField {...fieldOf(form, 'otherMiles')} label="Other miles" />
    </div>
    <div class="field-row">
      <DayField {...fieldOf(form, 'inUseSince')} label="In use since" />
      <Select
        {...fieldOf(form, 'evidence')}
        label="Record of the miles"
        options={[
          { value: 'written', label: 'written' },
          { value: 'unwritten', label: 'there is one, not written' },
          { value: 'none', label: 'none' },
        ]}
        empty="Not entered"
      />
    </div>
  </fieldset>
)

export const HomeField = ({ form }: { form: InputForm }) => (
  <>
    <QuantityField
      {...fieldOf(form, 'homeSquareFeet')}
      label="Of the home, used only for this work: square feet"
      hint="Deducted by area, up to 300 square feet and to the year’s profit. Actual costs in place of it are for a preparer. Empty deducts nothing."
    />
    <div class="field-row">
      <DayField
        {...fieldOf(form, 'homeFrom')}
        label="Used so since"
        hint="A month with fewer than 15 days of it counts as none. Empty counts from January 1."
      />
      <DayField {...fieldOf(form, 'homeUntil')} label="Used so until" hint="Empty: still used so" />
    </div>
  </>
)

export const ShareField = ({ form, first }: { form: InputForm; first: string }) => (
  <PercentField
    {...fieldOf(form, 'firstShare')}
    label={`With two owners: what is ${first}’s, percent`}
    hint="Empty follows the plan"
  />
)
