// Deals the options of the farm's forms over many farms, so that each is made on as many of them as the others.
import { createHash } from 'node:crypto'
import type { Choice } from './form-choices.ts'

export interface Deal {
  farms: number
  /** On so many farms each option is made that all offer, and on as large a part of the farms that offer any other. */
  times: number
  seed: number
}

/** What is offered by farm, and what of it was made: by option. */
export class DealtOptions {
  readonly #deal: Deal
  readonly #kindOf: (form: Choice['form']) => string
  readonly offered = new Map<string, number>()
  readonly made = new Map<string, number>()

  constructor(deal: Deal, kindOf: (form: Choice['form']) => string) {
    this.#deal = deal
    this.#kindOf = kindOf
  }

  /** Of the choices of the next farm (`farm` from 0) those that are made there: one of each option that is due, wherever it is offered. */
  of(farm: number, choices: readonly Choice[]): Choice[] {
    const byOption = new Map<string, Choice[]>()
    for (const choice of choices) {
      const option = this.#optionOf(choice)
      byOption.set(option, [...(byOption.get(option) ?? []), choice])
    }
    const isAll = this.#deal.times >= this.#deal.farms
    return [...byOption].flatMap(([option, alike]) => {
      this.offered.set(option, (this.offered.get(option) ?? 0) + 1)
      const made = this.made.get(option) ?? 0
      if (made >= this.#dueBy(farm, option)) return []
      this.made.set(option, made + 1)
      return isAll ? alike : [alike[made % alike.length]!]
    })
  }

  /** Options that were made on fewer farms than they should be. */
  lacking(): string[] {
    const { farms, times } = this.#deal
    return [...this.offered].flatMap(([option, offered]) =>
      (this.made.get(option) ?? 0) < Math.min(times, Math.floor((offered * times) / farms)) ? [option] : [],
    )
  }

  /**
   * Each option begins at a farm of its own, and is then made half as often again as it has to be, until it has been made often enough:
   * one that is not offered on the last farms, or on the first, comes to its part all the same.
   */
  #dueBy(farm: number, option: string): number {
    const { farms, times, seed } = this.#deal
    const begins = createHash('sha256').update(`${seed} ${option}`).digest().readUInt32BE() / 2 ** 32
    return Math.min(times, Math.floor((1.5 * times * (farm + 1)) / farms + begins))
  }

  /** Which line of a bank or note of the sample is chosen makes no other option: each has its own. */
  #optionOf({ form, name, value }: Choice): string {
    const chosen = /^(sample-\d+|[\da-f-]{36})$/.test(value ?? '') ? 'one of the sample' : value
    return JSON.stringify([this.#kindOf(form), name?.replace(/\d+/g, '0') ?? null, chosen])
  }
}
