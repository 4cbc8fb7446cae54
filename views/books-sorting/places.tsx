// Where a row of the desk goes: a list of what is likely, and every place once on the page for all rows of an account. The script fills
// each list from it; without script a few letters typed beside the list find the place.
import { fieldId, type Option } from '../parts/field.tsx'

/** Every place for the transactions of one account in one direction. No label stands twice. */
export interface PlaceList {
  id: string
  options: readonly Option[]
}

export const PlaceLists = ({
  lists,
  isForFarm,
  isForPay,
}: {
  lists: readonly PlaceList[]
  isForFarm: (value: string) => boolean
  isForPay: (value: string) => boolean
}) => (
  <>
    {lists.map(({ id, options }) => (
      <datalist id={id}>
        {options.map(({ label, value, group }) => (
          <option
            value={label}
            data-to={value}
            data-under={group}
            data-farm={isForFarm(value) ? 'yes' : undefined}
            data-pay={isForPay(value) ? 'yes' : undefined}
          />
        ))}
      </datalist>
    ))}
  </>
)

export interface TargetProps {
  name: string
  /** Of the field for letters. */
  typedName: string
  label: string
  /** Whose place it is. */
  of: string
  /** What it says while nothing is chosen. */
  empty: string
  chosen: string
  typed: string
  likely: readonly Option[]
  places: PlaceList
  /** Beside such a place a line of work can be said. */
  isForFarm: (value: string) => boolean
  isForPay: (value: string) => boolean
  error: string | undefined
}

export const TargetChoice = (props: TargetProps) => (
  <>
    <select
      id={fieldId(props.name)}
      name={props.name}
      aria-label={props.label}
      data-places={props.places.id}
      {...(props.error ? { 'aria-invalid': 'true', 'aria-describedby': `${fieldId(props.name)}-error` } : {})}
    >
      <option value="">{props.empty}</option>
      {props.likely.length > 0 ? (
        <optgroup label="Likely">
          {props.likely.map((option) => (
            <option
              value={option.value}
              selected={option.value === props.chosen}
              data-farm={props.isForFarm(option.value) ? 'yes' : undefined}
              data-pay={props.isForPay(option.value) ? 'yes' : undefined}
            >
              {option.label}
            </option>
          ))}
        </optgroup>
      ) : null}
    </select>
    <input
      class="desk-other"
      name={props.typedName}
      value={props.typed}
      list={props.places.id}
      maxlength={120}
      autocomplete="off"
      placeholder="Or type another place"
      aria-label={`Another place for ${props.of}`}
    />
  </>
)
