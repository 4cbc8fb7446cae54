// Many choices of a form in one post: in as many rounds as its longest list has options, every option of every list is chosen once.
import { type Chosen, numberless, type OpenForm } from './form-choices.ts'

/** One post: what is chosen, fields and at most one button. */
export type Round = readonly Chosen[]

/** `turn` is where each list begins: other turns bring other options together. */
export const roundsOf = (form: OpenForm, turn: number): Round[] => {
  const lists = listsOf(form)
  const longest = Math.max(1, ...lists.map(({ options }) => options.length))
  const rounds = Array.from({ length: longest }, (_, round) => chosenIn(lists, round, turn))
  const buttons = form.controls.flatMap(({ name, kind, options }) =>
    kind === 'button' ? [{ name, value: options[0]! }] : [],
  )
  return [...rounds, ...once(buttons).map((button) => [button])]
}

/** Those choices of a round, one by one, by which the form is not as it stands; once for rows that are alike. */
export const apartIn = (round: Round, { controls }: OpenForm): Chosen[] =>
  once(
    round.filter(
      ({ name, value }) =>
        !controls.some((one) => one.name === name && one.value === value && one.kind !== 'button'),
    ),
  )

const once = (choices: readonly Chosen[]): Chosen[] => [
  ...new Map(choices.map((one) => [`${numberless(one.name)}=${one.value}`, one])).values(),
]

interface OptionList {
  name: string
  /** A tick's are its value and nothing. */
  options: readonly (string | null)[]
  isTick: boolean
}

const listsOf = ({ controls }: OpenForm): OptionList[] =>
  controls.flatMap(({ name, kind, options }): OptionList[] => {
    if (kind === 'checkbox') return [{ name, options: [options[0]!, null], isTick: true }]
    return kind === 'select' || kind === 'radio' ? [{ name, options, isTick: false }] : []
  })

const chosenIn = (lists: readonly OptionList[], round: number, turn: number): Chosen[] => {
  const chosen = lists.map(({ name, options }, place) => ({
    name,
    value: options[(round + turn * (place + 1)) % options.length] ?? null,
  }))
  // Of several ticks of one name those that are not set send nothing.
  return chosen.filter(
    (one, place) => one.value !== null || !chosen.some(({ name }, at) => at !== place && name === one.name),
  )
}
