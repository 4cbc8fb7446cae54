// What a file of a shape is and what a person reads from it. All banks, names and amounts are invented; the shapes are common practice.

/** Day, cents (into the account positive), payee, and whatever else of the line is to be held against the file. */
export type ReadByHand = readonly [string, number, string, Readonly<Record<string, string | number>>?]

export interface Shape {
  name: string
  /** Text is written out as UTF-8. */
  file: string | Uint8Array
  /** Of what the account is: a card is owed. Checking where not said. */
  isCard?: true
  lines: readonly ReadByHand[]
  /** Lines of the file that are no movements: listed, not read. */
  leftOut?: readonly number[]
  /** What a person is asked about. */
  asked?: readonly ('dayOrder' | 'amountColumn')[]
  closing?: { balance: number; asOf: string }
  /** Lines of the file's other accounts, by the account's name in the file; `lines` are then those of the first. */
  others?: Readonly<Record<string, readonly ReadByHand[]>>
}

export const rows = (...all: readonly string[]): string => `${all.join('\n')}\n`
